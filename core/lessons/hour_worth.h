#pragma once

#include <optional>

#include "core/books/earned.h"
#include "core/planning/backlog_plan.h"

namespace secondpull::lessons {

/// What an hour of own work is worth, from all sides.
struct HourWorth {
  planning::HourValue ahead;  ///< said, or what one more hour would earn
  std::optional<Money> said;  ///< by the owner
  Earned so_far;              ///< all machines with a profit
  Minutes shop_in_general;    ///< logged on no machine
  /// Their profit over their hours and those in general.
  std::optional<Money> with_the_shop;
};
HourWorth hour_worth(const Books& books, const planning::HourValue& ahead);

}  // namespace secondpull::lessons
