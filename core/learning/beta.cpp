#include "core/learning/beta.h"

#include <bit>
#include <cmath>
#include <cstdint>
#include <stdexcept>

#include <boost/math/special_functions/beta.hpp>

namespace secondpull::learning {
namespace {

namespace policies = boost::math::policies;
/// A result too small for a double is 0: no error. Inside, long double, so that the result is good to the
/// last digits of a double.
using Exact = policies::policy<policies::underflow_error<policies::ignore_error>,
                               policies::denorm_error<policies::ignore_error>>;

void check(const Beta& beta) {
  if (!beta.is_proper()) throw std::invalid_argument{"a Beta distribution needs a > 0 and b > 0"};
}

}  // namespace

bool Beta::is_proper() const {
  return std::isfinite(a) && std::isfinite(b) && a > 0 && b > 0;
}

double Beta::deviation() const {
  const double n = a + b;
  return std::sqrt(a / n * (b / n) / (n + 1));
}

Beta Beta::updated(Tries seen) const {
  return {a + static_cast<double>(seen.cured), b + static_cast<double>(seen.tried - seen.cured)};
}

double Beta::probability_below(double x) const {
  check(*this);
  if (!(x > 0)) return 0;
  if (x >= 1) return 1;
  return boost::math::ibeta(a, b, x, Exact{});
}

double Beta::quantile(double p) const {
  check(*this);
  if (!(p >= 0 && p <= 1)) throw std::invalid_argument{"a probability lies between 0 and 1"};
  if (p == 0 || p == 1) return p;
  // Beyond the middle the other tail is compared, so that a chance close to 1 keeps its digits.
  const auto reaches = [&](double x) {
    return p <= 0.5 ? boost::math::ibeta(a, b, x, Exact{}) >= p
                    : boost::math::ibetac(a, b, x, Exact{}) <= 1 - p;
  };
  // Halving the doubles themselves, which are in order of their bits, ends at the very one, however small it
  // is. Boost's own inverse loses up to three digits on the way and gives up on the smallest p.
  auto below = std::bit_cast<std::uint64_t>(0.0);
  auto reached = std::bit_cast<std::uint64_t>(1.0);
  while (reached - below > 1) {
    const std::uint64_t middle = below + (reached - below) / 2;
    (reaches(std::bit_cast<double>(middle)) ? reached : below) = middle;
  }
  return below == 0 ? 0 : std::bit_cast<double>(reached);
}

Interval Beta::central(double level) const {
  const double tail = (1 - level) / 2;
  return {quantile(tail), quantile(1 - tail)};
}

Interval jeffreys_interval(Tries seen, double level) {
  Interval interval = kJeffreys.updated(seen).central(level);
  if (seen.cured == 0) interval.low = 0;
  if (seen.cured == seen.tried) interval.high = 1;
  return interval;
}

}  // namespace secondpull::learning
