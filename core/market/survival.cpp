#include "core/market/survival.h"

#include <algorithm>
#include <cmath>

#include <boost/math/distributions/normal.hpp>
#include <fmt/format.h>

namespace secondpull::market {
namespace {

/// Parts that differ by less are the same: products of fractions do not come out even.
constexpr double kEven = 1e-12;
constexpr double kShortest = 0.5;  // days between the corners of what was known; common practice, no source
constexpr double kLongest = 1e6;   // days; nothing is looked for beyond
constexpr int kHalvings = 80;

std::vector<Wait> in_order(std::span<const Wait> waits) {
  std::vector<Wait> sorted(waits.begin(), waits.end());
  std::sort(sorted.begin(), sorted.end(), [](const Wait& a, const Wait& b) { return a.days < b.days; });
  return sorted;
}

Interval on_the_log_log_scale(double still, double squares, double z) {
  if (!(still > 0)) return {0, 1};
  const double width = z * std::sqrt(squares) / std::abs(std::log(still));
  return {std::pow(still, std::exp(width)), std::pow(still, std::exp(-width))};
}

/// The least number of days after which `there` holds, which it does from then on.
template <class There>
double first_day(There there) {
  double low = 0;
  double high = 1;
  if (there(low)) return low;
  while (high < kLongest && !there(high))
    high *= 2;
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = low + (high - low) / 2;
    (there(middle) ? high : low) = middle;
  }
  return high;
}

}  // namespace

Result<Survival> kaplan_meier(std::span<const Wait> waits, double level) {
  if (!(level > 0 && level < 1))
    return problem("A level lies between 0 and 1.", "level", fmt::format("{}", level));
  for (const Wait& wait : waits)
    if (!(std::isfinite(wait.days) && wait.days >= 0))
      return problem("A wait takes no less than 0 days.", "days", fmt::format("{}", wait.days));
  const std::vector<Wait> sorted = in_order(waits);
  const double z = boost::math::quantile(boost::math::normal(), (1 + level) / 2);
  Survival survival;
  double still = 1;
  double squares = 0;
  for (std::size_t i = 0; i < sorted.size();) {
    std::size_t next = i;
    std::size_t came = 0;
    for (; next < sorted.size() && sorted[next].days == sorted[i].days; ++next)
      if (sorted[next].came) ++came;
    const std::size_t waiting = sorted.size() - i;
    if (came > 0) {
      const auto n = static_cast<double>(waiting);
      const auto d = static_cast<double>(came);
      still *= (n - d) / n;
      if (came < waiting) squares += d / (n * (n - d));
      survival.steps.push_back({.days = sorted[i].days,
                                .waiting = waiting,
                                .came = came,
                                .still = still,
                                .deviation = still * std::sqrt(squares),
                                .interval = on_the_log_log_scale(still, squares, z)});
    }
    i = next;
  }
  return survival;
}

double Survival::still(double days) const {
  const auto after = std::upper_bound(steps.begin(), steps.end(), days,
                                      [](double at, const SurvivalStep& step) { return at < step.days; });
  return after == steps.begin() ? 1 : std::prev(after)->still;
}

WaitQuantile Survival::quantile(double p) const {
  const auto reached = [&](auto part) -> std::optional<double> {
    for (const SurvivalStep& step : steps)
      if (part(step) <= 1 - p + kEven) return step.days;
    return std::nullopt;
  };
  // Where nothing is left the interval says nothing, so that it reaches nothing.
  return {reached([](const SurvivalStep& step) { return step.still; }),
          reached([](const SurvivalStep& step) { return step.still > 0 ? step.interval.low : 1; }),
          reached([](const SurvivalStep& step) { return step.interval.high; })};
}

KnownWait::KnownWait(const learning::Range& days) : corners_{{0, 0}} {
  constexpr double kParts[] = {0.9, 0.5, 0.1};
  const double wanted[] = {days.low, days.typical, days.high};
  for (std::size_t i = 0; i < 3; ++i)
    corners_.push_back({std::max(wanted[i], corners_.back().days + kShortest), -std::log(kParts[i])});
}

double KnownWait::still(double days) const {
  if (!(days > 0)) return 1;
  std::size_t to = 1;
  while (to + 1 < corners_.size() && corners_[to].days < days)
    ++to;
  const Corner& a = corners_[to - 1];
  const Corner& b = corners_[to];
  return std::exp(-(a.hazard + (b.hazard - a.hazard) * (days - a.days) / (b.days - a.days)));
}

MixedWait::MixedWait(KnownWait known, double believed, std::span<const Wait> own)
    : known_{std::move(known)}, believed_{believed}, own_{in_order(own)} {}

MixedWait::Moments MixedWait::moments(double days) const {
  // The masses before and after a stretch without censoring, A and B: the part that stays is Beta(B, A - B).
  Moments moments;
  const auto take = [&](double from, double to) {
    moments.first *= to / from;
    moments.second *= to * (to + 1) / (from * (from + 1));
  };
  double from = believed_ + static_cast<double>(own_.size());
  for (std::size_t i = 0; i < own_.size() && own_[i].days <= days;) {
    std::size_t next = i;
    double censored = 0;
    for (; next < own_.size() && own_[next].days == own_[i].days; ++next)
      if (!own_[next].came) ++censored;
    if (censored > 0) {
      const double longer = believed_ * known_.still(own_[i].days) + static_cast<double>(own_.size() - next);
      take(from, longer + censored);
      from = longer;
    }
    i = next;
  }
  const auto after = std::upper_bound(own_.begin(), own_.end(), days,
                                      [](double at, const Wait& wait) { return at < wait.days; });
  take(from, believed_ * known_.still(days) + static_cast<double>(own_.end() - after));
  return moments;
}

double MixedWait::still(double days) const {
  return moments(days).first;
}

learning::Beta MixedWait::chance_still(double days) const {
  const Moments of = moments(days);
  const double variance = of.second - of.first * of.first;
  // What is as good as certain has no width that a double could hold.
  constexpr double kNone = 1e-300;
  const double count = variance > kNone ? (of.first - of.second) / variance : 1 / kEven;
  return {std::max(of.first * count, kNone), std::max((1 - of.first) * count, kNone)};
}

double MixedWait::quantile(double p) const {
  return first_day([&](double days) { return still(days) <= 1 - p + kEven; });
}

Interval MixedWait::quantile_interval(double p, double level) const {
  const auto day = [&](double chance) {
    return first_day([&](double days) {
      return days > 0 && chance_still(days).probability_below(1 - p + kEven) >= chance;
    });
  };
  return {day((1 - level) / 2), day((1 + level) / 2)};
}

}  // namespace secondpull::market
