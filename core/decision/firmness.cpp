// How firm a verdict is: the price and the hour value at which it turns.

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/decision/planner.h"

namespace secondpull::decision {
namespace {

using diagnosis::Case;

constexpr double nothing_to_do = -std::numeric_limits<double>::infinity();
/// Newton's steps end in finitely many, one for each plan that is best somewhere; rounding ends them before
/// this.
constexpr int most_steps = 200;
/// A step shorter than this, relative to where it is, has arrived.
constexpr double arrived = 1e-12;

bool is_there(double from, double to) {
  return std::abs(to - from) <= arrived * std::max(1.0, std::abs(from));
}

double mean(const Model& model, const std::vector<double>& by_cause) {
  double sum = 0;
  for (std::size_t c = 0; c < by_cause.size(); ++c)
    sum += model.causes[c].weight * by_cause[c];
  return sum;
}

struct BestPlan {
  double value = nothing_to_do;
  Expected expected;
  bool exact = true;
};

/// The best plan whose first move is no stop.
BestPlan best_going_on(const Case& of, const Model& model, const Budget& budget) {
  if (model.tests.empty() && model.repairs.empty()) return {};
  const auto solution = solve(model, budget, Root::going_on);
  const Plan plan = read_plan(model, *solution, of.revived.price * (1 - of.revived.fee_rate), Root::going_on);
  return {plan.root.worth, plan.expected, has_met(solution->progress())};
}

/// A stop under today's belief, as a line over the hour value.
struct StopLine {
  double value = 0;  ///< with hours at nothing
  double hours = 0;
  double at(double hour_value) const { return value - hour_value * hours; }
};

std::vector<StopLine> stop_lines(const Case& of) {
  Case free_hours = of;
  free_hours.hour_value = 0;
  const Model model = model_of(free_hours);
  std::vector<StopLine> out;
  for (const Model::Stop& stop : model.stops)
    out.push_back({mean(model, stop.worth), stop.cost.hours});
  return out;
}

/// The best stop at an hour value; of two as good, the one that is better just below it.
const StopLine& best_at(const std::vector<StopLine>& stops, double hour_value) {
  const StopLine* best = &stops.front();
  for (const StopLine& stop : stops) {
    const double ahead = stop.at(hour_value) - best->at(hour_value);
    if (ahead > tie || (ahead >= -tie && stop.hours > best->hours)) best = &stop;
  }
  return *best;
}

/// Going on at an hour value. Keeps what the plans seen so far prove.
class OverHourValue {
 public:
  OverHourValue(const Case& of, const Budget& budget, const GoingOn& here)
      : case_{of}, budget_{budget}, stops_{stop_lines(of)} {
    note(of.hour_value, {here.ahead + here.stop_value, here.expected, here.exact});
  }

  const BestPlan& at(double hour_value) {
    if (hour_value == solved_at_) return plan_;
    case_.hour_value = hour_value;
    note(hour_value, best_going_on(case_, model_of(case_), budget_));
    return plan_;
  }

  double ahead_of(const StopLine& stop, double hour_value) {
    return at(hour_value).value - stop.at(hour_value);
  }
  const StopLine& best_stop(double hour_value) const { return best_at(stops_, hour_value); }
  bool exact() const { return exact_; }
  /// Up to this hour value, at most the highest that is looked at, one of the plans seen beats every stop; 0:
  /// none.
  double surely() const { return surely_; }

 private:
  void note(double hour_value, const BestPlan& plan) {
    plan_ = plan;
    solved_at_ = hour_value;
    exact_ = plan_.exact;
    if (!(plan_.value - best_at(stops_, hour_value).at(hour_value) > tie)) return;
    double reach = highest_hour_value;
    for (const StopLine& stop : stops_)
      if (const double falls = plan_.expected.hours - stop.hours; falls > 0)
        reach = std::min(reach, hour_value + (plan_.value - stop.at(hour_value)) / falls);
    surely_ = std::max(surely_, reach);
  }

  Case case_;
  const Budget& budget_;
  std::vector<StopLine> stops_;
  double solved_at_ = -1;
  BestPlan plan_;
  bool exact_ = true;
  double surely_ = 0;
};

/// The point at which a plan that beats `stop` at `from` no longer does, following the best plans upwards; at
/// most `to`.
double end_of_lead(OverHourValue& plans, const StopLine& stop, double from, double to) {
  for (int step = 0; step < most_steps && plans.exact(); ++step) {
    const double gain = plans.ahead_of(stop, from);
    const double falls = stop.hours - plans.at(from).expected.hours;
    if (gain <= tie || falls >= 0) break;
    const double next = from - gain / falls;
    if (next >= to || is_there(from, next)) return std::min(next, to);
    from = next;
  }
  return from;
}

bool can_be_mended(const Case& of) {
  const auto cures_something = [](const Model::Repair& repair) {
    return std::any_of(repair.cures.begin(), repair.cures.end(), [](double chance) { return chance > 0; });
  };
  const Model model = model_of(of);
  return of.revived.fee_rate < 1 && std::any_of(model.repairs.begin(), model.repairs.end(), cures_something);
}

}  // namespace

GoingOn going_on(const Case& of, const Budget& budget) {
  const Model model = model_of(of);
  GoingOn out;
  out.stop_value = nothing_to_do;
  for (const Model::Stop& stop : model.stops)
    out.stop_value = std::max(out.stop_value, mean(model, stop.worth));
  const BestPlan plan = best_going_on(of, model, budget);
  out.ahead = plan.value - out.stop_value;
  out.expected = plan.expected;
  out.exact = plan.exact;
  return out;
}

Figure break_even_price(const Case& of, const Budget& budget, const GoingOn& at_its_price) {
  GoingOn here = at_its_price;
  if (!can_be_mended(of)) return {here.ahead > tie ? std::optional{0.0} : std::nullopt, here.exact};
  Case at = of;
  double price = of.revived.price;
  bool came_down = false;
  for (int step = 0; step < most_steps; ++step) {
    const double slope = here.expected.revived * (1 - of.revived.fee_rate);
    // The price at which this plan breaks even: for a plan that is not proved to be best, no more than a
    // bound.
    const double next = slope > 0 ? price - here.ahead / slope : price;
    if (slope <= 0 && here.ahead > tie) return {0, here.exact};  // worth it without ever mending the machine
    if (!here.exact)
      return {slope > 0 || came_down ? std::optional{std::max(0.0, next)} : std::nullopt, false};
    if (slope > 0) {
      if (next <= 0) return {0, true};
      if (is_there(price, next)) return {next, true};
      came_down = true;
      price = next;
    } else {
      // The best plan mends nothing at so low a price. Coming down to it, the gain was above 0 all the way
      // and lies flat at 0 from here (a free test that changes nothing is as good as stopping).
      if (came_down) return {price, true};
      price = std::max(1.0, 2 * price);
    }
    at.revived.price = price;
    here = going_on(at, budget);
  }
  return {price, false};
}

Figure worth_per_hour(const Case& of, const Budget& budget, const GoingOn& at_its_hour_value) {
  OverHourValue plans{of, budget, at_its_hour_value};
  double hour_value = highest_hour_value;
  if (plans.ahead_of(plans.best_stop(hour_value), hour_value) > tie) return {std::nullopt, plans.exact()};
  for (int step = 0; step < most_steps && plans.exact(); ++step) {
    // Here going on does not beat this stop. Against it alone the gain is convex: below here it stays behind
    // up to the point that is looked for, and is ahead from there on down.
    const StopLine stop = plans.best_stop(hour_value);
    const double ahead = plans.ahead_of(stop, hour_value);
    if (!std::isfinite(ahead)) return {0, true};
    const double slope = stop.hours - plans.at(hour_value).expected.hours;
    if (ahead > tie || (ahead >= -tie && slope < 0)) return {hour_value, plans.exact()};
    // Up to where a plan seen so far surely beats every stop, nothing has to be looked at.
    double below = slope < 0 ? std::max(0.0, hour_value - ahead / slope) : 0;
    if (plans.surely() < hour_value) below = std::max(below, plans.surely());
    const double ahead_below = plans.ahead_of(stop, below);
    if (!plans.exact()) break;
    if (below == 0 && ahead_below <= tie) return {0, true};
    const double end = end_of_lead(plans, stop, below, hour_value);
    if (is_there(hour_value, end)) return {hour_value, plans.exact()};
    hour_value = end;
  }
  return {plans.surely(), false};
}

Figure proved_worth_per_hour(const Case& of, const GoingOn& at_its_hour_value) {
  const Budget none;
  return {OverHourValue{of, none, at_its_hour_value}.surely(), false};
}

}  // namespace secondpull::decision
