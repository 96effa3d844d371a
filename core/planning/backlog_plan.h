#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/decision/hours.h"
#include "core/planning/situation.h"

namespace secondpull::planning {

/// What an hour is worth to this shop.
struct HourValue {
  enum class From { said, computed, unknown };
  double value = 0;  ///< in whole units of the currency
  /// `said` by the owner; `computed`: what one more hour would earn, given the hours there are; `unknown`:
  /// the hours there are can neither be read nor guessed, and an hour is taken for worth nothing.
  From from = From::unknown;
};

/// For how many weeks of work machines compete where the owner says no hour value. Common practice, no
/// source.
inline constexpr double kWeeksAhead = 4;

/// A plan in a list takes no more states than these: the same answer on any machine, and a yard full of
/// machines in seconds. Measured on the knowledge base's largest symptoms, its worth is within some 3 % of
/// the firm one's, for a fifth of the time.
inline constexpr std::size_t kStatesEach = 400;

/// The plan of a machine that a person works on, before it is refined.
inline constexpr std::size_t kStatesFirm = 4000;

/// What the owner says, or the shadow price of an hour over kWeeksAhead weeks for the cases given.
/// `per_solve` is the budget of one solving. Problems: those of decision::hours.
Result<HourValue> hour_value(const Situation& situation, const std::vector<decision::BacklogCase>& cases,
                             const decision::Budget& per_solve);

/// A machine that waits: its plan, or why there is none. Cheap to copy.
struct Waiting {
  MachineId machine{};
  std::optional<Problem> problem;
  std::shared_ptr<const learning::MachineCase> asked;
  std::shared_ptr<const decision::Answer> answer;  ///< null: there is no plan, or not yet
};

/// How much earns the next hour on it: the worth per hour of its plan, more than any for one that beats
/// stopping even at the highest hour value; below 0 without a plan. What it sorts by.
double worth_per_hour(const Waiting& waiting);

/// Highest worth per hour first, else as they were; those without a plan last.
void sort_by_worth(std::vector<Waiting>& machines);

/// The plans of all machines that wait and the hour value behind them, what earns most per hour first, those
/// without a plan last.
struct BacklogPlan {
  HourValue hour_value;
  std::vector<Waiting> machines;
};
Result<BacklogPlan> plan_backlog(const Situation& situation, const decision::Budget& each);

/// This week's hours against the queue.
struct WeekAhead {
  double hours_left = 0;         ///< of this week
  std::vector<MachineId> work;   ///< worth more per hour than an hour is: highest first, as far as they fit
  std::vector<MachineId> later;  ///< likewise, for which this week has no hours left
  std::vector<MachineId> stop_now;  ///< hours earn more elsewhere, or nothing is to be gained
};
/// Machines of `plan` that have a plan, in its order. `hours_left` below 0 counts as 0. One that is begun
/// counts whole against the hours; the first always fits while any hours are left.
WeekAhead week_ahead(const BacklogPlan& plan, double hours_left);

}  // namespace secondpull::planning
