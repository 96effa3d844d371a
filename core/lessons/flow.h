#pragma once

#include <optional>
#include <span>
#include <vector>

#include "core/lessons/mean.h"
#include "core/shop/stage.h"

namespace secondpull::lessons {

/// From the day a machine came in, or was brought back, to the day it left.
struct Stay {
  MachineId machine{};
  Date came{};
  std::optional<Date> left;  ///< absent: it is still here
};

/// Every stay of every machine, in order of machine. A machine leaves by a sale or a disposal; a donor on the
/// day of its disposal, though its hulk may stay.
std::vector<Stay> stays(const ByMachine& by_machine, const Shop& shop);

/// How machines went through the shop in a window of days. A machine is here on a day if it came on that day
/// or before and has not left by its end.
struct Flow {
  Date from{};
  Date to{};  ///< the last day of the window
  int days = 0;
  std::size_t here_before = 0;  ///< in the evening before the window
  std::size_t came = 0;
  std::size_t left = 0;
  std::size_t here_after = 0;     ///< in the evening of its last day
  std::int64_t machine_days = 0;  ///< days here in the window, over all machines
  Mean days_through;              ///< of the stays that ended in the window, from their beginning

  double in_work() const;       ///< L: machines here, on average over the days
  double left_a_month() const;  ///< at kDaysAMonth
  double came_a_month() const;
};
Flow flow(std::span<const Stay> all, Date from, Date to);

/// A month is so many days: 365.25 / 12.
inline constexpr double kDaysAMonth = 30.4375;

/// How long each takes to go through, W = L / lambda, for `in_work` (>= 0) of them here and `a_month` (> 0)
/// going through, in months. Exact for any window of days in which lambda counts all who were here in it and
/// W is their mean time in it; of a machine's whole time as long as no more come in than go out. Source: J.
/// D. C. Little, A proof for the queuing formula L = lambda W, Operations Research 9 (1961) (from memory).
double months_through(double in_work, double a_month);

/// Do more come in than go out? By chance either is as likely: the Jeffreys interval of the part that came,
/// at kSayingLevel, from kLeastCases on. higher: more come in. That it is what decides is common practice, no
/// source.
Differs grows(const Flow& flow);

/// Where the days of a machine go that came once and was sold from a listing.
struct Waits {
  Mean yard;   ///< days until its first work
  Mean bench;  ///< from there to its first listing
  Mean sale;   ///< from there to the sale
};
Waits waits(const ByMachine& by_machine, const Shop& shop);

}  // namespace secondpull::lessons
