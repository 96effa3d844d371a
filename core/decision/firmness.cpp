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

/// Going on at an hour value.
class OverHourValue {
 public:
  OverHourValue(const Case& of, const Budget& budget) : case_{of}, budget_{budget} {}

  const BestPlan& at(double hour_value) {
    if (hour_value != solved_at_) {
      case_.hour_value = hour_value;
      plan_ = best_going_on(case_, model_of(case_), budget_);
      solved_at_ = hour_value;
      exact = exact && plan_.exact;
    }
    return plan_;
  }

  bool exact = true;

 private:
  Case case_;
  const Budget& budget_;
  double solved_at_ = -1;
  BestPlan plan_;
};

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

Figure break_even_price(const Case& of, const Budget& budget) {
  Case at = of;
  bool exact = true;
  const auto go_on_at = [&](double price) {
    at.revived.price = price;
    const GoingOn out = going_on(at, budget);
    exact = exact && out.exact;
    return out;
  };
  if (go_on_at(0).ahead > tie) return {0, exact};
  const Model model = model_of(of);
  const bool mendable =
      of.revived.fee_rate < 1 &&
      std::any_of(model.repairs.begin(), model.repairs.end(), [](const Model::Repair& repair) {
        return std::any_of(repair.cures.begin(), repair.cures.end(),
                           [](double chance) { return chance > 0; });
      });
  if (!mendable) return {std::nullopt, exact};
  double price = std::max(1.0, of.revived.price);
  bool came_down = false;
  for (int step = 0; step < most_steps; ++step) {
    const GoingOn here = go_on_at(price);
    const double slope = here.expected.revived * (1 - of.revived.fee_rate);
    if (slope <= 0) {
      // The best plan mends nothing at so low a price. Coming down to it, the gain was above 0 all the way
      // and lies flat at 0 from here (a free test that changes nothing is as good as stopping).
      if (came_down) return {price, exact};
      price *= 2;
      continue;
    }
    came_down = true;
    const double next = price - here.ahead / slope;
    if (is_there(price, next)) return {next, exact};
    price = next;
  }
  return {price, false};
}

Figure worth_per_hour(const Case& of, const Budget& budget) {
  OverHourValue plans{of, budget};
  const std::vector<StopLine> stops = stop_lines(of);
  const auto ahead_of = [&](const StopLine& stop, double hour_value) {
    return plans.at(hour_value).value - stop.at(hour_value);
  };
  double hour_value = highest_hour_value;
  if (ahead_of(best_at(stops, hour_value), hour_value) > tie) return {std::nullopt, plans.exact};
  for (int step = 0; step < most_steps; ++step) {
    // Here going on does not beat this stop. Against it alone the gain is convex: below here it stays behind
    // up to the point that is looked for, and is ahead from there on down.
    const StopLine stop = best_at(stops, hour_value);
    const double ahead = ahead_of(stop, hour_value);
    if (!std::isfinite(ahead)) return {0, plans.exact};
    if (ahead > tie) return {hour_value, plans.exact};
    const double slope = stop.hours - plans.at(hour_value).expected.hours;
    if (std::abs(ahead) <= tie && slope < 0) return {hour_value, plans.exact};
    double below = slope < 0 ? std::max(0.0, hour_value - ahead / slope) : 0;
    if (ahead_of(stop, below) < -tie || (below == 0 && ahead_of(stop, below) <= tie)) return {0, plans.exact};
    for (; step < most_steps; ++step) {
      const double gain = ahead_of(stop, below);
      const double falls = stop.hours - plans.at(below).expected.hours;
      if (gain <= tie || falls >= 0) break;
      const double next = below - gain / falls;
      if (is_there(below, next)) break;
      below = std::min(next, hour_value);
    }
    if (below >= hour_value) return {hour_value, plans.exact};
    hour_value = below;
  }
  return {hour_value, false};
}

}  // namespace secondpull::decision
