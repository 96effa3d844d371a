#include "core/lessons/mean.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include <boost/math/distributions/students_t.hpp>

namespace secondpull::lessons {

Mean mean_of(std::span<const double> numbers) {
  Mean all{.count = numbers.size()};
  if (numbers.empty()) return all;
  const auto n = static_cast<double>(numbers.size());
  all.mean = std::accumulate(numbers.begin(), numbers.end(), 0.0) / n;
  if (numbers.size() < 2) return all;
  double squares = 0;
  for (const double number : numbers)
    squares += (number - all.mean) * (number - all.mean);
  all.deviation = std::sqrt(squares / (n - 1));
  return all;
}

std::optional<Interval> Mean::interval(double level) const {
  if (count < 2) return std::nullopt;
  const auto n = static_cast<double>(count);
  const double half = student_quantile((1 + level) / 2, n - 1) * deviation / std::sqrt(n);
  return Interval{mean - half, mean + half};
}

Differs differs(const Mean& own, double expected, double level) {
  if (own.count < kLeastCases) return Differs::no;
  const auto within = own.interval(level);
  if (within->high < expected) return Differs::lower;
  return within->low > expected ? Differs::higher : Differs::no;
}

std::optional<double> quantile_of(std::span<const double> numbers, double p) {
  if (numbers.empty()) return std::nullopt;
  std::vector<double> sorted{numbers.begin(), numbers.end()};
  std::sort(sorted.begin(), sorted.end());
  const double place = p * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  return sorted[below] + (place - static_cast<double>(below)) * (sorted[above] - sorted[below]);
}

double student_quantile(double p, double degrees) {
  return boost::math::quantile(boost::math::students_t{degrees}, p);
}

}  // namespace secondpull::lessons
