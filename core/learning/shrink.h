#pragma once

#include <span>

namespace secondpull::learning {

// Numbers of one's own, drawn towards the knowledge base's as long as there are few of them.

/// What the knowledge base says of a quantity: mostly between `low` and `high` (four in five), `typical` on
/// average. low <= typical <= high.
struct Range {
  double low = 0;
  double typical = 0;
  double high = 0;
  friend bool operator==(const Range&, const Range&) = default;
};
constexpr Range about(double typical) {  ///< a quantity of which only one number is known
  return {typical, typical, typical};
}

// How much the knowledge base weighs. Common practice, no source: all four.
// Deviations are shares of the typical.
inline constexpr double kShopsDiffer = 0.3;   ///< deviation of one shop's mean from the typical
inline constexpr double kUsualScatter = 0.5;  ///< deviation from job to job, where no range is known
inline constexpr double kMostBelieved = 10;   ///< own numbers that a typical counts as, at most
inline constexpr double kSalesBelieved = 5;   ///< sales that the knowledge base's price counts as

/// The expected length or cost of a step: Z x (own mean) + (1 - Z) x typical, with Z = n / (n + k) for n own
/// numbers and k = v / t, kMostBelieved at most. v is the variance from job to job, from the range (its width
/// is that of the middle four fifths of a normal distribution; kUsualScatter without one); t that from shop
/// to shop, kShopsDiffer. It is a mean, not a median, since hours and money add up; among the formulas that
/// are linear in the own numbers none has a smaller mean squared error, whatever the distributions. Own
/// numbers are >= 0; without any it is `known.typical`.
/// Source: H. Bühlmann, Experience rating and credibility, ASTIN Bulletin 4 (1967) (from memory).
double shrunk_mean(const Range& known, std::span<const double> own);

/// How many own numbers weigh as much as the knowledge base: k above, at most kMostBelieved; 0 where typical
/// is 0.
double weight_of_knowledge(const Range& known);

/// A price by its median and the standard deviation of its logarithm: lognormal.
struct PriceBelief {
  double median = 0;  ///< > 0
  double spread = 0;
  friend bool operator==(const PriceBelief&, const PriceBelief&) = default;
  double mean() const;  ///< median x exp(spread^2 / 2)
};

/// The lognormal whose median is `typical` and whose middle four fifths are as wide, on the scale of
/// logarithms, as low to high. All three > 0.
PriceBelief price_belief(const Range& known);

/// The price after own sales (> 0, any other is left out): with k = `believed` sales that the belief counts
/// as, and mean m and squared deviations Q of the n own prices' logarithms,
///     ln median' = (k ln median + n m) / (k + n)
///     spread'^2  = (k spread^2 + Q + k n / (k + n) (m - ln median)^2) / (k + n)
/// the normal distribution with its conjugate prior (normal, scaled inverse chi-squared).
/// Source: Gelman et al., Bayesian Data Analysis, section 3.3 (from memory).
PriceBelief shrunk_price(const PriceBelief& known, std::span<const double> own,
                         double believed = kSalesBelieved);

}  // namespace secondpull::learning
