#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "core/learning/beta.h"
#include "core/lessons/said.h"

namespace secondpull::lessons {

using learning::Interval;
using learning::kShownLevel;

/// Several numbers together, in their unit.
struct Mean {
  std::size_t count = 0;
  double mean = 0;       ///< 0 without any
  double deviation = 0;  ///< standard deviation from one to the next (n - 1 below); 0 of fewer than two
  friend bool operator==(const Mean&, const Mean&) = default;

  /// Between which bounds the true mean lies with this level, in (0, 1): mean ± t x deviation / sqrt(n), the
  /// t-interval. Nothing of fewer than two. Source: Student, The probable error of a mean, Biometrika 6
  /// (1908) (from memory).
  std::optional<Interval> interval(double level = kShownLevel) const;
};
Mean mean_of(std::span<const double> numbers);

/// Does the mean differ from what was expected? From kLeastCases numbers on, if that lies outside of the
/// interval of `level`.
Differs differs(const Mean& own, double expected, double level = kSayingLevel);

/// The number below which a part p of them lies, in [0, 1], between two of them on the straight line (Hyndman
/// and Fan's seventh, R's own). Nothing without numbers. Source: R. Hyndman, Y. Fan, Sample quantiles in
/// statistical packages, The American Statistician 50 (1996) (from memory).
std::optional<double> quantile_of(std::span<const double> numbers, double p);

/// The quantile of Student's t distribution: p in (0, 1), degrees > 0.
double student_quantile(double p, double degrees);

}  // namespace secondpull::lessons
