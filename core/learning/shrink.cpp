#include "core/learning/shrink.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace secondpull::learning {
namespace {

/// Nine tenths of a standard normal distribution lie below this: low to high is twice as wide.
constexpr double kNinetiethPercentile = 1.2815515655446004;

double mean_of(std::span<const double> numbers) {
  return std::accumulate(numbers.begin(), numbers.end(), 0.0) / static_cast<double>(numbers.size());
}

}  // namespace

double weight_of_knowledge(const Range& known) {
  if (!(known.typical > 0)) return 0;
  const double width = known.high - known.low;
  const double scatter = width > 0 ? width / (2 * kNinetiethPercentile) / known.typical : kUsualScatter;
  return std::min(scatter * scatter / (kShopsDiffer * kShopsDiffer), kMostBelieved);
}

double shrunk_mean(const Range& known, std::span<const double> own) {
  if (own.empty()) return known.typical;
  const auto n = static_cast<double>(own.size());
  const double k = weight_of_knowledge(known);
  return (k * known.typical + n * mean_of(own)) / (k + n);
}

double PriceBelief::mean() const {
  return median * std::exp(spread * spread / 2);
}

PriceBelief price_belief(const Range& known) {
  return {known.typical, std::log(known.high / known.low) / (2 * kNinetiethPercentile)};
}

PriceBelief shrunk_price(const PriceBelief& known, std::span<const double> own, double believed) {
  std::vector<double> logs;
  for (const double price : own)
    if (price > 0) logs.push_back(std::log(price));
  if (logs.empty()) return known;
  const auto n = static_cast<double>(logs.size());
  const double m = mean_of(logs);
  const double centre = std::log(known.median);
  double squares = 0;
  for (const double x : logs)
    squares += (x - m) * (x - m);
  const double all = believed + n;
  const double between = believed * n / all * (m - centre) * (m - centre);
  return {std::exp((believed * centre + n * m) / all),
          std::sqrt((believed * known.spread * known.spread + squares + between) / all)};
}

}  // namespace secondpull::learning
