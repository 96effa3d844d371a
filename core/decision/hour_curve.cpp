#include "core/decision/hour_curve.h"

#include <algorithm>
#include <cmath>

namespace secondpull::decision {
namespace {

/// Two plans whose worth differs by no more than this, relative, lie on one line.
constexpr double same_line = 1e-11;

bool is_same(double a, double b) {
  return std::abs(a - b) <= same_line * std::max({1.0, std::abs(a), std::abs(b)});
}

/// Whether the line through `a` is the curve all the way to `b`: a convex curve that meets its tangent again
/// has not left it.
bool is_straight(const HourCurve::Point& a, const HourCurve::Point& b) {
  return is_same(a.line_at(b.hour_value), b.value);
}

HourCurve::Point on_line(const HourCurve::Point& line, double hour_value) {
  return {hour_value, line.line_at(hour_value), line.hours, line.next};
}

}  // namespace

HourCurve::HourCurve(diagnosis::Case of, Budget budget) : case_{std::move(of)}, budget_{std::move(budget)} {}

HourCurve::Point HourCurve::solve(double hour_value) {
  case_.hour_value = hour_value;
  const Model model = model_of(case_);
  const auto solution = decision::solve(model, budget_);
  const Plan plan = read_plan(model, *solution, case_.revived.price * (1 - case_.revived.fee_rate));
  exact_ = exact_ && has_met(solution->progress());
  return {hour_value, plan.root.worth, plan.expected.hours, named(case_, model, plan.root.move)};
}

HourCurve::Point HourCurve::at(double hour_value) {
  const auto right =
      std::lower_bound(known_.begin(), known_.end(), hour_value,
                       [](const Point& point, double value) { return point.hour_value < value; });
  if (right != known_.end() && right->hour_value == hour_value) return *right;
  if (right != known_.end() && right != known_.begin()) {
    const Point& left = *(right - 1);
    if (is_straight(left, *right)) return on_line(left, hour_value);
    if (is_straight(*right, left)) return on_line(*right, hour_value);
  }
  return *known_.insert(right, solve(hour_value));
}

void HourCurve::add_breaks(const Point& left, const Point& right, std::vector<HourPiece>& out) {
  if (is_straight(left, right) || left.hours <= right.hours) return;
  const double meet = (left.line_at(0) - right.line_at(0)) / (left.hours - right.hours);
  const Point there = at(std::clamp(meet, left.hour_value, right.hour_value));
  if (is_same(there.value, left.line_at(there.hour_value))) {
    if (there.hour_value <= out.back().from) out.pop_back();  // `left` stood on the break itself
    out.push_back({there.hour_value, right.hours, there.value, right.next});
    return;
  }
  add_breaks(left, there, out);
  add_breaks(there, right, out);
}

std::vector<HourPiece> HourCurve::pieces(double from, double to) {
  const Point left = at(from);
  std::vector<HourPiece> out{{from, left.hours, left.value, left.next}};
  add_breaks(left, at(to), out);
  return out;
}

}  // namespace secondpull::decision
