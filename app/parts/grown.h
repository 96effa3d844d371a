#pragma once

#include <QApplication>

#include "app/parts/look.h"

namespace secondpull::app {

/// A width that fits text of the usual size, in pixels, grown with the size of text in force.
inline int grown(int pixels) {
  return qRound(pixels * std::max<qreal>(QApplication::font().pointSizeF() / kTextPoints, 1));
}

/// Whether text is so much larger than usual that a page has to do without what is only for show.
inline bool isTextLarge() {
  constexpr int kUsual = 100, kLarge = 130;  // hundredths
  return grown(kUsual) > kLarge;
}

}  // namespace secondpull::app
