#pragma once

#include <optional>
#include <string>
#include <vector>

#include <QRectF>

class QPainter;

namespace secondpull::app {

/// A text as a square of dark and light modules (ISO/IEC 18004), the quiet zone around it apart.
struct QrCode {
  int side = 0;            ///< modules
  std::vector<bool> dark;  ///< row by row
  bool isDark(int x, int y) const { return dark[static_cast<std::size_t>(y * side + x)]; }
};

/// Modules of light on every side, without which scanners miss it. Source: ISO/IEC 18004, quiet zone 4X.
inline constexpr int kQuietModules = 4;
/// What a hand scanner and a telephone still read with grease on it. Common practice, no source.
inline constexpr double kLeastModule = 0.5;  // mm

/// The code of a text, with a quarter of it to spare for dirt (level Q); one that goes beyond ASCII says that
/// it is UTF-8. Nothing for an empty text or one
/// that is too long for any code.
std::optional<QrCode> qrCode(const std::string& text);

/// The side that it takes on paper with its quiet zone, in mm: at most `most`, never with modules below
/// kLeastModule; so it may be larger than `most`.
double qrSide(const QrCode& code, double most);

/// Draws it black on white with its quiet zone, as large as goes into the square. Edges of modules lie on
/// whole dots of the device, so that none is blurred.
void drawQr(QPainter& painter, const QRectF& square, const QrCode& code);

}  // namespace secondpull::app
