#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/diagnosis/case.h"
#include "core/result.h"

namespace secondpull::learning {

// Numbers that the owner says in the place of those worked out. A number is named by its path in a case:
//   hour_value, day_cost
//   revived.price, .spread, .days, .hours, .comeback_chance, .comeback_cost, .fee_rate, .fee_fixed
//   causes.ID.weight
//   tests.ID.minutes, .cost, .days
//   repairs.ID.minutes, .cost, .days, .tries, .cures.CAUSE
//   stops.ID.value, .hours, .days
// in the units of a case (core/diagnosis/case.h): whole units of the currency, minutes of steps, hours of
// endings.

struct OwnNumberLine {
  std::string path;
  double value = 0;
  friend bool operator==(const OwnNumberLine&, const OwnNumberLine&) = default;
};

/// The number at a path. Nothing if the path names none in this case. A repair cures a cause of the case that
/// it does not list with chance 0; `stops.ID.value` is the value apart from those by cause.
std::optional<double> number_at(const diagnosis::Case& of, std::string_view path);

/// Puts the numbers said into the case, in turn: of two with one path the later holds. A value said for a
/// stop holds whatever the cause is. A path that names nothing in this case, and a number with which it would
/// be no case (a chance above 1, say), is left out and told: `field` is the path, `value` the number.
std::vector<Problem> apply_said(diagnosis::Case& to, std::span<const OwnNumberLine> said);

}  // namespace secondpull::learning
