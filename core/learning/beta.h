#pragma once

#include <cstdint>

namespace secondpull::learning {

/// Between which bounds a chance lies.
struct Interval {
  double low = 0;
  double high = 1;
  friend bool operator==(const Interval&, const Interval&) = default;
};

/// How often something was tried, and how often it worked. 0 <= cured <= tried.
struct Tries {
  std::int64_t tried = 0;
  std::int64_t cured = 0;
  friend bool operator==(const Tries&, const Tries&) = default;
};

/// What is known of a chance: the Beta distribution, a and b > 0 and finite. a counts what worked and b what
/// did not, seen or believed beforehand.
struct Beta {
  double a = 0.5;
  double b = 0.5;
  friend bool operator==(const Beta&, const Beta&) = default;

  bool is_proper() const;  ///< a and b are finite and above 0
  double mean() const { return a / (a + b); }
  double deviation() const;  ///< standard deviation

  /// After these tries as well: Beta(a + cured, b + tried - cured). In whatever order and in however many
  /// pieces the tries come in, the outcome is the same.
  Beta updated(Tries seen) const;

  /// P(chance <= x). 0 below 0, 1 above 1.
  double probability_below(double x) const;
  /// The smallest double x with P(chance <= x) >= p, for p in [0, 1]; 0 where even the smallest
  /// double is too large.
  double quantile(double p) const;
  /// The central interval that holds the chance with probability `level`, in [0, 1].
  Interval central(double level) const;
};

/// Nothing known beforehand: Beta(1/2, 1/2). Source: H. Jeffreys, Theory of Probability (from memory).
inline constexpr Beta kJeffreys{0.5, 0.5};

/// What the tries alone say of a chance: the central interval of the updated Jeffreys prior, reaching down to
/// 0 if nothing worked and up to 1 if everything did.
/// Source: L. D. Brown, T. T. Cai, A. DasGupta, Interval estimation for a binomial proportion, Statistical
/// Science 16 (2001), section 3 (from memory).
Interval jeffreys_interval(Tries seen, double level);

/// The level at which a screen shows how sure a chance is.
inline constexpr double kShownLevel = 0.8;

}  // namespace secondpull::learning
