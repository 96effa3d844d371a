#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/decision/plan.h"
#include "core/decision/profit.h"
#include "core/decision/search.h"
#include "core/diagnosis/case.h"

namespace secondpull::decision {

/// The largest hour value at which `worth_per_hour` is looked for.
inline constexpr double highest_hour_value = 500;

/// "stop", "repair" or "test".
std::string_view word(Move::Kind kind);

/// A move by its name in the case.
struct NamedMove {
  Move::Kind kind = Move::Kind::stop;
  std::string id;
  friend bool operator==(const NamedMove&, const NamedMove&) = default;
};

/// What a step is worth if it is done next and the best plan follows.
struct Ranked {
  NamedMove move;
  double value = 0;
  double at_most = 0;  ///< proved; more than `value` only where the search had to stop early
};

/// A figure that took more solving: exact, or that of the best plan found when the budget ran out.
struct Figure {
  std::optional<double> value;
  bool exact = true;
};

/// Everything the planner says of a case: decision-model.md, "Result", has the fields' meaning.
struct Answer {
  Model model;  ///< the numbers that the plan's places refer to
  NamedMove next;
  std::string verdict;  ///< "revive", or the stop's id
  double value = 0;
  double gap = 0;  ///< no plan is worth more than value + gap; 0: the answer is exact
  NamedMove stop_now;
  double stop_now_value = 0;
  double gain = 0;  ///< value less that of stopping now
  Expected expected;
  std::vector<double> chance_of_stop;  ///< by stop of the case
  std::vector<double> posterior;       ///< by cause of the case
  Figure break_even_price;             ///< no value: going on beats stopping at no price
  Figure worth_per_hour;               ///< no value: it still does at the highest hour value
  Profit profit;
  Plan plan;
  std::vector<Ranked> ranking;  ///< all first moves, best first
  std::size_t states = 0;       ///< solved on the way to `value`
  std::size_t bytes = 0;
};

/// The name of a move in the case.
NamedMove named(const diagnosis::Case& of, const Model& model, const Move& move);

/// Which figures of an answer are worked out besides the plan.
enum class Figures {
  all,
  for_a_queue,  ///< without the break-even price: it has no value and is not exact
  plan_alone    ///< nothing that costs more solving: the worth per hour is what this very plan proves
};

/// Plans a case. The budget is that of the plan; break-even price and worth per hour may take as much again
/// together. Errors: the first of diagnosis::problems_of.
Result<Answer> verdict(const diagnosis::Case& of, const Budget& budget = {}, Figures figures = Figures::all);

/// The distribution of profit for an answer and a case that differs from the one it answers in what it has
/// cost so far alone: that changes nothing else.
Profit profit_of(const Answer& answer, const diagnosis::Case& of);

/// The worth of the best plan alone: Answer::value without the rest. Errors as for verdict().
Result<double> value_of(const diagnosis::Case& of, const Budget& budget = {});

/// What going on is worth when the first move is not a stop, against the best stop now.
struct GoingOn {
  double ahead = 0;       ///< worth of the best plan that goes on less that of the best stop; minus infinity:
                          ///< nothing left to do
  double stop_value = 0;  ///< of the best stop now
  Expected expected;      ///< of that plan
  bool exact = true;
};

/// @name The figures that tell how firm a verdict is. `of` has no problems; its own price and hour value are
/// where they begin, and the last argument is going_on there. Where a budget runs out, the figure is that of
/// the best plan found (a break-even price no lower, a worth per hour no higher than the true one) and not
/// exact.
/// @{
GoingOn going_on(const diagnosis::Case& of, const Budget& budget);
/// The lowest price at which going on beats stopping now: right to 1e-6 relative where exact.
/// Method: the gain is convex, piecewise linear and rising in the price, so Newton's steps come down to it in
/// finitely many.
Figure break_even_price(const diagnosis::Case& of, const Budget& budget, const GoingOn& at_its_price);
/// The highest hour value in [0, 500] at which going on beats stopping now; 0 if none does.
/// Method: against each single stop the gain is convex in the hour value, so where it fails, Newton's steps
/// from beyond find the next hour value below at which it does not.
Figure worth_per_hour(const diagnosis::Case& of, const Budget& budget, const GoingOn& at_its_hour_value);
/// No more than the worth per hour: up to where this very plan, which goes on, beats every stop. Solves
/// nothing; not exact.
Figure proved_worth_per_hour(const diagnosis::Case& of, const GoingOn& at_its_hour_value);
/// @}

}  // namespace secondpull::decision
