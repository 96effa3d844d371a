#pragma once

#include <QApplication>

#include "app/parts/look.h"

namespace secondpull::app {

/// A width that fits text of the usual size, in pixels, grown with the size of text in force.
inline int grown(int pixels) {
  return qRound(pixels * std::max<qreal>(QApplication::font().pointSizeF() / kTextPoints, 1));
}

}  // namespace secondpull::app
