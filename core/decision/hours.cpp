#include "core/decision/hours.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/decision/hour_curve.h"

namespace secondpull::decision {
namespace {

/// Hour values that differ by no more than this, relative, are the same.
constexpr double same_hour_value = 1e-9;
/// Beyond this hour value nobody works at anything that takes an hour.
constexpr double beyond_all = 1e9;
constexpr int most_steps = 200;

bool exceeds(double a, double b) {
  return a - b > same_hour_value * std::max(1.0, std::abs(b));
}

std::optional<Problem> problem_of(const Backlog& backlog) {
  if (!std::isfinite(backlog.hours) || backlog.hours < 0)
    return Problem{fmt::format("hours is {}; it must be 0 or more.", backlog.hours), "hours",
                   fmt::to_string(backlog.hours)};
  std::set<std::string> ids;
  for (std::size_t i = 0; i < backlog.cases.size(); ++i) {
    const BacklogCase& entry = backlog.cases[i];
    const std::string field = fmt::format("cases[{}]", i);
    if (entry.id.empty()) return Problem{field + ".id is empty; every machine needs one.", field + ".id", ""};
    if (!ids.insert(entry.id).second)
      return Problem{fmt::format("{}.id is \"{}\", which stands twice.", field, entry.id), field + ".id",
                     entry.id};
    for (Problem problem : diagnosis::problems_of(entry.of)) {
      problem.field = field + ".case." + problem.field;
      problem.sentence = field + ".case." + problem.sentence;
      return problem;
    }
  }
  return std::nullopt;
}

/// The sum of all machines' curves.
class BacklogCurve {
 public:
  BacklogCurve(const Backlog& backlog, const Budget& per_solve) : hours_{backlog.hours} {
    std::vector<diagnosis::Case> seen;
    for (const BacklogCase& entry : backlog.cases) {
      diagnosis::Case of = entry.of;
      of.hour_value = 0;
      of.sunk = {};  // neither plays a part
      const auto same = std::find(seen.begin(), seen.end(), of);
      if (same != seen.end()) {
        ++curves_[static_cast<std::size_t>(same - seen.begin())].machines;
        continue;
      }
      seen.push_back(of);
      curves_.push_back({HourCurve{std::move(of), per_solve}});
    }
  }

  struct Point {
    double hour_value = 0;
    double dual = 0;   ///< g(h)
    double asked = 0;  ///< hours that all plans ask for
    double spare = 0;  ///< hours there are less those asked: the slope of g
    double line_at(double other) const { return dual + spare * (other - hour_value); }
  };

  Point at(double hour_value) {
    Point out{.hour_value = hour_value, .dual = hour_value * hours_};
    for (Curve& each : curves_) {
      const HourCurve::Point point = each.curve.at(hour_value);
      out.dual += each.machines * point.value;
      out.asked += each.machines * point.hours;
    }
    out.spare = hours_ - out.asked;
    return out;
  }

  /// Of machines whose cases are equal.
  struct Curve {
    HourCurve curve;
    double machines = 1;
  };
  std::vector<Curve>& curves() { return curves_; }
  bool exact() const {
    return std::all_of(curves_.begin(), curves_.end(), [](const Curve& each) { return each.curve.exact(); });
  }

 private:
  double hours_;
  std::vector<Curve> curves_;
};

/// The least minimiser of g, or nothing if g falls for ever.
std::optional<BacklogCurve::Point> least_of(BacklogCurve& curve) {
  BacklogCurve::Point left = curve.at(0);
  const auto enough = [](const BacklogCurve::Point& point) {
    return point.spare >= -same_hour_value * std::max(1.0, point.asked);
  };
  if (enough(left)) return left;
  BacklogCurve::Point right = curve.at(highest_hour_value);
  while (!enough(right) && right.hour_value < beyond_all)
    right = curve.at(right.hour_value * 8);
  if (!enough(right)) return std::nullopt;
  for (int step = 0; step < most_steps; ++step) {
    // g lies above both tangents, so it is least where they meet, or a point there is closer than one of
    // them.
    const double meet = (left.line_at(0) - right.line_at(0)) / (right.spare - left.spare);
    const BacklogCurve::Point there = curve.at(std::clamp(meet, left.hour_value, right.hour_value));
    const double below = there.dual - left.line_at(there.hour_value);
    if (below <= 1e-11 * std::max(1.0, std::abs(there.dual))) return there;
    (enough(there) ? right : left) = there;
  }
  return right;
}

ShadowPrice priced(BacklogCurve& curve) {
  const auto least = least_of(curve);
  const BacklogCurve::Point chosen = least ? *least : curve.at(highest_hour_value);
  return {chosen.hour_value, chosen.asked, curve.exact(), !least};
}

}  // namespace

Result<ShadowPrice> shadow_price(const Backlog& backlog, const Budget& per_solve) {
  if (const auto problem = problem_of(backlog)) return tl::unexpected<Problem>(*problem);
  BacklogCurve curve{backlog, per_solve};
  return priced(curve);
}

Result<HoursAnswer> hours(const Backlog& backlog, const Budget& per_solve) {
  if (const auto problem = problem_of(backlog)) return tl::unexpected<Problem>(*problem);
  BacklogCurve curve{backlog, per_solve};
  const ShadowPrice price = priced(curve);
  HoursAnswer out{.hour_value = price.hour_value,
                  .hours_asked = price.hours_asked,
                  .exact = price.exact,
                  .too_few_hours = price.too_few_hours};
  for (std::size_t i = 0; i < backlog.cases.size(); ++i) {
    diagnosis::Case of = backlog.cases[i].of;
    of.hour_value = out.hour_value;
    const GoingOn ahead = going_on(of, per_solve);
    const Figure worth = worth_per_hour(of, per_solve, ahead);
    out.exact = out.exact && worth.exact;
    if (worth.value && !exceeds(*worth.value, out.hour_value)) {
      out.stop_now.push_back(backlog.cases[i].id);
      continue;
    }
    out.queue.push_back({backlog.cases[i].id, worth.value, ahead.expected.hours, std::max(0.0, ahead.ahead)});
  }
  std::stable_sort(out.queue.begin(), out.queue.end(), [](const Queued& a, const Queued& b) {
    return a.worth_per_hour.value_or(beyond_all) > b.worth_per_hour.value_or(beyond_all);
  });
  return out;
}

Result<std::vector<Demand>> demand(const Backlog& backlog, double highest, const Budget& per_solve) {
  if (const auto problem = problem_of(backlog)) return tl::unexpected<Problem>(*problem);
  BacklogCurve curve{backlog, per_solve};
  std::map<double, double> change;  // by hour value: hours asked more (or less) from there on
  for (BacklogCurve::Curve& each : curve.curves()) {
    double asked = 0;
    for (const HourPiece& piece : each.curve.pieces(0, highest)) {
      change[piece.from] += each.machines * (piece.hours - asked);
      asked = piece.hours;
    }
  }
  std::vector<Demand> out;
  double asked = 0;
  for (const auto& [hour_value, more] : change) {
    asked += more;
    out.push_back({hour_value, asked});
  }
  return out;
}

double most_to_offer(double value, double hour_value, double pickup_money, double pickup_hours,
                     double margin) {
  return value - pickup_money - hour_value * pickup_hours - margin;
}

}  // namespace secondpull::decision
