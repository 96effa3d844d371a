#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <QColor>

namespace secondpull::app::test {

// Colour arithmetic for the tests of the look.

using Triple = std::array<double, 3>;
using Matrix = std::array<Triple, 3>;

inline Triple operator*(const Matrix& m, const Triple& v) {
  Triple out{};
  for (std::size_t row = 0; row < 3; ++row)
    for (std::size_t column = 0; column < 3; ++column)
      out[row] += m[row][column] * v[column];
  return out;
}

/// Linear light of an sRGB colour (IEC 61966-2-1).
inline Triple linear(const QColor& colour) {
  const auto channel = [](double c) { return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4); };
  return {channel(colour.redF()), channel(colour.greenF()), channel(colour.blueF())};
}

/// Relative luminance and contrast ratio as WCAG 2 defines them.
inline double luminance(const QColor& colour) {
  const Triple c = linear(colour);
  return 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
}
inline double contrast(const QColor& a, const QColor& b) {
  const auto [darker, lighter] = std::minmax({luminance(a), luminance(b)});
  return (lighter + 0.05) / (darker + 0.05);
}

// How a colour is seen, in linear light. G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A
// Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE TVCG 15 (2009), severity 1.0;
// the figures from memory.
inline constexpr Matrix kNormal{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
inline constexpr Matrix kProtan{
    {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}};
inline constexpr Matrix kDeutan{
    {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}};
inline constexpr Matrix kTritan{
    {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}}};

/// CIE L*a*b* (D65) of linear sRGB light.
inline Triple lab(Triple rgb) {
  for (double& c : rgb)
    c = std::clamp(c, 0.0, 1.0);
  constexpr Matrix kToXyz{{{0.4124564, 0.3575761, 0.1804375},
                           {0.2126729, 0.7151522, 0.0721750},
                           {0.0193339, 0.1191920, 0.9503041}}};
  constexpr Triple kWhite{0.95047, 1.0, 1.08883};
  Triple f = kToXyz * rgb;
  for (std::size_t i = 0; i < 3; ++i) {
    const double t = f[i] / kWhite[i];
    f[i] = t > 216.0 / 24389.0 ? std::cbrt(t) : (24389.0 / 27.0 * t + 16.0) / 116.0;
  }
  return {116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])};
}

/// CIEDE2000 colour difference: G. Sharma, W. Wu, E. N. Dalal, Color Res. Appl. 30 (2005) 21-30; from memory.
inline double difference(const Triple& one, const Triple& two) {
  constexpr double kDegree = std::numbers::pi / 180;
  constexpr double k25To7 = 6103515625.0;
  const auto chroma_weight = [&](double c) { return std::sqrt(std::pow(c, 7) / (std::pow(c, 7) + k25To7)); };
  const double mean = (std::hypot(one[1], one[2]) + std::hypot(two[1], two[2])) / 2;
  const double stretch = 1 + 0.5 * (1 - chroma_weight(mean));
  const double c1 = std::hypot(one[1] * stretch, one[2]), c2 = std::hypot(two[1] * stretch, two[2]);
  const auto hue = [&](const Triple& at) {
    const double h = std::atan2(at[2], at[1] * stretch) / kDegree;
    return h < 0 ? h + 360 : h;
  };
  const double h1 = hue(one), h2 = hue(two);
  double turn = h2 - h1;
  if (turn > 180) turn -= 360;
  if (turn < -180) turn += 360;
  const double dl = two[0] - one[0], dc = c2 - c1;
  const double dh = 2 * std::sqrt(c1 * c2) * std::sin(turn / 2 * kDegree);
  const double lm = (one[0] + two[0]) / 2, cm = (c1 + c2) / 2;
  double hm = (h1 + h2) / 2;
  if (std::abs(h1 - h2) > 180) hm += h1 + h2 < 360 ? 180 : -180;
  const double t = 1 - 0.17 * std::cos((hm - 30) * kDegree) + 0.24 * std::cos(2 * hm * kDegree) +
                   0.32 * std::cos((3 * hm + 6) * kDegree) - 0.20 * std::cos((4 * hm - 63) * kDegree);
  const double sl = 1 + 0.015 * std::pow(lm - 50, 2) / std::sqrt(20 + std::pow(lm - 50, 2));
  const double sc = 1 + 0.045 * cm, sh = 1 + 0.015 * cm * t;
  const double rotation =
      -std::sin(60 * std::exp(-std::pow((hm - 275) / 25, 2)) * kDegree) * 2 * chroma_weight(cm);
  return std::sqrt(std::pow(dl / sl, 2) + std::pow(dc / sc, 2) + std::pow(dh / sh, 2) +
                   rotation * dc / sc * dh / sh);
}

}  // namespace secondpull::app::test
