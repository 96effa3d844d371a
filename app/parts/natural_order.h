#pragma once

#include <QString>

namespace secondpull::app {

/// Does `a` stand before `b` as people count: runs of digits by their number ("2" before "10"), letters
/// without regard to case? The same in every locale. (QCollator's numeric mode does nothing in the C locale.)
bool naturallyBefore(const QString& a, const QString& b);

}  // namespace secondpull::app
