#include "core/money/money.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <stdexcept>

namespace secondpull {
namespace {

__extension__ typedef unsigned __int128 Wide;  // ISO C++ has no name for it; products of two amounts fit

[[noreturn]] void overflow() {
  throw std::overflow_error{"an amount of money does not fit 64 bits"};
}

std::uint64_t magnitude(std::int64_t value) {
  const auto bits = static_cast<std::uint64_t>(value);
  return value < 0 ? 0 - bits : bits;
}

/// The amount of that size and sign; throws where it does not fit.
Money with_sign(Wide size, bool negative) {
  const auto largest = static_cast<Wide>(std::numeric_limits<std::int64_t>::max());
  if (size > largest + (negative ? 1 : 0)) overflow();
  const auto bits = static_cast<std::uint64_t>(size);
  return Money::from_minor(static_cast<std::int64_t>(negative ? 0 - bits : bits));
}

std::int64_t sum_of(std::span<const std::int64_t> weights) {
  std::int64_t sum = 0;
  for (const std::int64_t weight : weights) {
    if (weight < 0) throw std::invalid_argument{"a negative weight in a split"};
    if (__builtin_add_overflow(sum, weight, &sum))
      throw std::overflow_error{"the weights of a split do not fit 64 bits"};
  }
  return sum;
}

}  // namespace

Money operator+(Money a, Money b) {
  std::int64_t sum = 0;
  if (__builtin_add_overflow(a.minor_, b.minor_, &sum)) overflow();
  return Money{sum};
}

Money operator-(Money a, Money b) {
  std::int64_t difference = 0;
  if (__builtin_sub_overflow(a.minor_, b.minor_, &difference)) overflow();
  return Money{difference};
}

Money operator*(Money a, std::int64_t n) {
  std::int64_t product = 0;
  if (__builtin_mul_overflow(a.minor_, n, &product)) overflow();
  return Money{product};
}

Money Money::operator-() const {
  return Money{} - *this;
}

std::vector<Money> split(Money total, std::span<const std::int64_t> weights) {
  if (weights.empty()) throw std::invalid_argument{"a split among nobody"};
  const std::int64_t sum = sum_of(weights);
  if (sum == 0) return split_evenly(total, weights.size());

  const bool negative = total.minor() < 0;
  const std::uint64_t whole = magnitude(total.minor());
  const auto divisor = static_cast<std::uint64_t>(sum);
  std::vector<std::uint64_t> shares(weights.size());
  std::vector<std::uint64_t> remainders(weights.size());
  std::uint64_t left_over = whole;
  for (std::size_t i = 0; i < weights.size(); ++i) {
    const Wide product = static_cast<Wide>(whole) * static_cast<std::uint64_t>(weights[i]);
    shares[i] = static_cast<std::uint64_t>(product / divisor);
    remainders[i] = static_cast<std::uint64_t>(product % divisor);
    left_over -= shares[i];
  }
  if (left_over > 0) {
    std::vector<std::size_t> order(weights.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return remainders[a] > remainders[b]; });
    // The remainders add up to left_over x divisor, so fewer units are left than there are positions.
    for (std::uint64_t i = 0; i < left_over; ++i)
      ++shares[order[i]];
  }
  std::vector<Money> parts;
  parts.reserve(shares.size());
  for (const std::uint64_t share : shares)
    parts.push_back(with_sign(share, negative));
  return parts;
}

std::vector<Money> split(Money total, std::span<const Money> weights) {
  std::vector<std::int64_t> units;
  units.reserve(weights.size());
  for (const Money weight : weights)
    units.push_back(weight.minor());
  return split(total, units);
}

std::vector<Money> split_evenly(Money total, std::size_t pieces) {
  if (pieces == 0) throw std::invalid_argument{"a split among nobody"};
  const bool negative = total.minor() < 0;
  const std::uint64_t whole = magnitude(total.minor());
  const std::uint64_t share = whole / pieces;
  const std::uint64_t left_over = whole % pieces;
  std::vector<Money> parts;
  parts.reserve(pieces);
  for (std::size_t i = 0; i < pieces; ++i)
    parts.push_back(with_sign(share + (i < left_over ? 1 : 0), negative));
  return parts;
}

Money scale(Money amount, std::int64_t numerator, std::int64_t denominator) {
  if (denominator <= 0) throw std::invalid_argument{"a rate over a denominator that is not positive"};
  const Wide product = static_cast<Wide>(magnitude(amount.minor())) * magnitude(numerator);
  const auto divisor = static_cast<std::uint64_t>(denominator);
  const auto remainder = static_cast<std::uint64_t>(product % divisor);
  const bool up = remainder >= divisor - remainder;  // half or more, without doubling past 64 bits
  return with_sign(product / divisor + (up ? 1 : 0), (amount.minor() < 0) != (numerator < 0));
}

}  // namespace secondpull
