#pragma once

#include <optional>
#include <vector>

#include "core/books/books.h"
#include "core/learning/knowledge.h"
#include "core/lessons/reliability.h"

namespace secondpull::lessons {

/// A figure as it was foretold, and as it came.
struct Foretold {
  double said = 0;
  double came = 0;
  double off() const { return came - said; }
};

/// What the plan promised when work on a fault began, beside what came of it as far as that is known.
struct ForecastOutcome {
  ForecastId forecast{};
  MachineId machine{};
  Date date{};
  /// That it would run again. It came if the fault ended mended; it did not if the fault was given up. Where
  /// the machine has left with the fault open: whether it was sold running.
  std::optional<Said> revived;
  std::vector<Said> causes;       ///< each of them; none while the cause is not confirmed
  std::optional<Said> likeliest;  ///< the cause with the highest chance, likewise
  std::optional<Foretold> money;  ///< whole units of the currency, to come from that day on
  bool within = false;            ///< what came lies between low and high
  std::optional<Foretold> hours;  ///< to come from that day on
  std::optional<Foretold> days;   ///< until it left
};

/// Every forecast in order of id; those of a fault that was a mistake are left out.
///
/// - A cause is confirmed when the fault ended and names it, mended or given up. One that is not among those
///   foretold is `unlisted`.
/// - Money that came is gross profit + what the machine had cost by then: net proceeds less what was spent on
///   it since. It counts from the day that the machine leaves, refunds, allowances and hours of a comeback
///   included as they come; while it is back, it is open again. Trips and the shop's costs are in no
///   forecast.
/// - Of a machine parted out or kept there is no money: its parts are stock, and what was kept brought none.
std::vector<ForecastOutcome> forecast_outcomes(const Books& books, const learning::Knowledge& knowledge);

/// How far figures that were foretold lay from those that came.
struct Off {
  Mean off;         ///< what came less what was said: its mean is the bias, its deviation the spread
  double said = 0;  ///< mean
  double came = 0;  ///< mean
  Differs differs = Differs::no;  ///< the bias against 0
};
Off off_of(const std::vector<ForecastOutcome>& outcomes, std::optional<Foretold> ForecastOutcome::*figure);

/// All forecasts together.
struct ForecastsHeld {
  std::size_t made = 0;     ///< that are looked at
  std::size_t settled = 0;  ///< of which it is known whether the machine runs, or what it brought
  Reliability revived;
  Reliability causes;     ///< each cause of each forecast: not apart from each other, as one of them comes
  Reliability likeliest;  ///< one a forecast
  Off money, hours, days;
  learning::Tries within;  ///< how often the money came between low and high, which should be 4 in 5
  Interval within_range;   ///< Jeffreys' interval of that, with kShownLevel
};
ForecastsHeld forecasts_held(const std::vector<ForecastOutcome>& outcomes);

}  // namespace secondpull::lessons
