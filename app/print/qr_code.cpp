#include "app/print/qr_code.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include <QPainter>
#include <QPainterPath>
#include <qrencode.h>

namespace secondpull::app {
namespace {

using Input = std::unique_ptr<QRinput, decltype(&QRinput_free)>;
using Made = std::unique_ptr<QRcode, decltype(&QRcode_free)>;

constexpr unsigned int kUtf8 = 26;  // source: AIM ECI 000026, as in ISO/IEC 18004, from memory

Made encoded(const std::string& text) {
  const Input input{QRinput_new2(0, QR_ECLEVEL_Q), &QRinput_free};
  const bool beyond_ascii =
      std::any_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) > 127; });
  const bool taken = input != nullptr &&
                     (!beyond_ascii || QRinput_appendECIheader(input.get(), kUtf8) == 0) &&
                     QRinput_append(input.get(), QR_MODE_8, static_cast<int>(text.size()),
                                    reinterpret_cast<const unsigned char*>(text.data())) == 0;
  return {taken ? QRcode_encodeInput(input.get()) : nullptr, &QRcode_free};
}

int modulesWithZone(const QrCode& code) {
  return code.side + 2 * kQuietModules;
}

}  // namespace

std::optional<QrCode> qrCode(const std::string& text) {
  if (text.empty()) return std::nullopt;
  const Made made = encoded(text);
  if (made == nullptr) return std::nullopt;
  QrCode code{.side = made->width};
  const int modules = code.side * code.side;
  code.dark.reserve(static_cast<std::size_t>(modules));
  for (int at = 0; at < modules; ++at)
    code.dark.push_back((made->data[at] & 1) != 0);  // the lowest bit; the others say what a module is for
  return code;
}

double qrSide(const QrCode& code, double most) {
  return std::max(most, modulesWithZone(code) * kLeastModule);
}

void drawQr(QPainter& painter, const QRectF& square, const QrCode& code) {
  const int modules = modulesWithZone(code);
  const double module = std::max(1.0, std::floor(std::min(square.width(), square.height()) / modules));
  const double side = module * modules;
  const QPointF corner{std::round(square.center().x() - side / 2),
                       std::round(square.center().y() - side / 2)};
  QPainterPath dark;
  for (int y = 0; y < code.side; ++y)
    for (int x = 0; x < code.side;) {
      int end = x;
      while (end < code.side && code.isDark(end, y))
        ++end;
      if (end > x)
        dark.addRect(corner.x() + (x + kQuietModules) * module, corner.y() + (y + kQuietModules) * module,
                     (end - x) * module, module);
      x = std::max(end, x + 1);
    }
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing, false);
  painter.setPen(Qt::NoPen);
  painter.setBrush(Qt::white);
  painter.drawRect(QRectF{corner, QSizeF{side, side}});
  painter.setBrush(Qt::black);
  painter.drawPath(dark.simplified());
  painter.restore();
}

}  // namespace secondpull::app
