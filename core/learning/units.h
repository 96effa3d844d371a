#pragma once

#include <cmath>

#include "core/money/money.h"

namespace secondpull::learning {

inline constexpr double kMinutesOfHour = 60;

/// How many minor units (cents) one unit (dollar) of the currency has.
inline double minor_units(const Currency& currency) {
  return std::pow(10.0, currency.digits);
}

/// An amount of the books as a case has it: in whole units of the currency.
inline double in_units(Money amount, const Currency& currency) {
  return static_cast<double>(amount.minor()) / minor_units(currency);
}

/// An expected amount to the nearest that the currency has, as a case can be written to a file.
inline double to_the_cent(double amount, const Currency& currency) {
  return std::round(amount * minor_units(currency)) / minor_units(currency);
}

}  // namespace secondpull::learning
