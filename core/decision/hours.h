#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/decision/planner.h"

namespace secondpull::decision {

/// A machine (or a lead) among those that compete for the same hours.
struct BacklogCase {
  std::string id;
  diagnosis::Case of;  ///< its own hour value plays no part
};

/// What there is to do and the hours there are for it.
struct Backlog {
  double hours = 0;
  std::vector<BacklogCase> cases;
};

/// A machine worth working on.
struct Queued {
  std::string id;
  std::optional<double> worth_per_hour;  ///< none: more than the highest hour value that is looked at
  double expected_hours = 0;
  double gain = 0;  ///< over stopping now
};

/// What an hour is worth, and what to work on next.
struct HoursAnswer {
  double hour_value = 0;      ///< h*: what one more hour would earn; 0: there are hours to spare
  std::vector<Queued> queue;  ///< highest worth per hour first, then in the order given; figures at h*
  std::vector<std::string> stop_now;  ///< the others, in the order given
  double hours_asked =
      0;  ///< E[hours] of all plans at h*, stops included; the last of them may be worked in part
  bool exact = true;
  /// Even the quickest stops together take more hours than there are: no hour value makes them fit, and
  /// hour_value is the highest that is looked at.
  bool too_few_hours = false;
};

/// The shadow price of an hour alone: HoursAnswer without the queue.
struct ShadowPrice {
  double hour_value = 0;
  double hours_asked = 0;
  bool exact = true;
  bool too_few_hours = false;
};

/// The hour value at which the backlog's demand for hours changes, and what it is from there on.
struct Demand {
  double hour_value = 0;
  double hours = 0;
};

/// The shadow price of an hour and the queue. Errors: the first problem of a case, its field under
/// "cases[i].case"; an id that is empty or stands twice; hours that are negative or no number. `per_solve` is
/// the budget of one solving; its time is that of the whole question. Method: the least h >= 0 that minimises
/// sum of V_m(h) + h x hours, the Lagrangian dual, by tangents that close in on it. Equal
/// cases are solved once.
Result<HoursAnswer> hours(const Backlog& backlog, const Budget& per_solve = {});

/// The same without working out who is in the queue, which takes as much solving again. Errors as for
/// hours().
Result<ShadowPrice> shadow_price(const Backlog& backlog, const Budget& per_solve = {});

/// The whole backlog's demand for hours from hour value 0 up to `highest`, by falling demand: what an extra
/// hour would earn is the hour value at which demand falls to the hours there are. Errors as for hours().
Result<std::vector<Demand>> demand(const Backlog& backlog, double highest = highest_hour_value,
                                   const Budget& per_solve = {});

/// What may at most be offered for a lead so that it is worth fetching: its value at the hour value less what
/// fetching takes, and never more than leaves the margin asked for. Nothing to offer: 0 or less.
double most_to_offer(double value, double hour_value, double pickup_money, double pickup_hours,
                     double margin = 0);

}  // namespace secondpull::decision
