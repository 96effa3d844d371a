#include <limits>
#include <stdexcept>

#include <gmock/gmock.h>
#include <rapidcheck.h>

#include "core/money/money.h"

namespace secondpull {
namespace {

__extension__ typedef __int128 Exact;

constexpr std::int64_t kMost = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t kLeast = std::numeric_limits<std::int64_t>::min();

Money cents(std::int64_t units) {
  return Money::from_minor(units);
}

/// The operation gives the exact result, or throws where 64 bits do not hold it; it never wraps.
template <class Operation>
void exact_or_throws(Exact expected, Operation&& operation) {
  if (expected >= kLeast && expected <= kMost)
    RC_ASSERT(operation().minor() == static_cast<std::int64_t>(expected));
  else
    RC_ASSERT_THROWS_AS(operation(), std::overflow_error);
}

rc::Gen<std::int64_t> near_the_edges() {
  return rc::gen::oneOf(rc::gen::arbitrary<std::int64_t>(), rc::gen::inRange<std::int64_t>(kMost - 10, kMost),
                        rc::gen::inRange<std::int64_t>(kLeast, kLeast + 10),
                        rc::gen::inRange<std::int64_t>(-10, 10));
}

TEST(MoneyArithmetic, IsExactOrThrowsButNeverWraps) {
  EXPECT_TRUE(rc::check("+ - * and unary minus", [] {
    const auto a = *near_the_edges();
    const auto b = *near_the_edges();
    exact_or_throws(Exact{a} + b, [&] { return cents(a) + cents(b); });
    exact_or_throws(Exact{a} - b, [&] { return cents(a) - cents(b); });
    exact_or_throws(Exact{a} * b, [&] { return cents(a) * b; });
    exact_or_throws(-Exact{a}, [&] { return -cents(a); });
  }));
}

TEST(Scale, RoundsHalfAwayFromZeroOnce) {
  // The money model: a fee of 2.5 % of 185.00 is 4.625, and 4.63 is paid.
  EXPECT_EQ(scale(cents(18'500), 25, 1000), cents(463));
  EXPECT_EQ(scale(cents(-18'500), 25, 1000), cents(-463));
  EXPECT_EQ(scale(cents(1), 1, 2), cents(1));
  EXPECT_EQ(scale(cents(1), -1, 2), cents(-1));
  EXPECT_EQ(scale(cents(1), 1, 3), cents(0));
  EXPECT_EQ(scale(cents(2), 1, 3), cents(1));
}

TEST(Scale, IsNearestToTheExactValueOrThrows) {
  EXPECT_TRUE(rc::check("|scale - exact| <= 1/2", [] {
    const auto amount = *near_the_edges();
    const auto numerator = *near_the_edges();
    const auto denominator = *rc::gen::suchThat(near_the_edges(), [](std::int64_t d) { return d > 0; });
    const Exact product = Exact{amount} * numerator;
    const Exact quotient = product / denominator;
    RC_PRE(quotient != kMost && quotient != kLeast);  // where the last rounding decides whether it fits
    if (quotient > kMost || quotient < kLeast) {
      RC_ASSERT_THROWS_AS(scale(cents(amount), numerator, denominator), std::overflow_error);
      return;
    }
    const Exact off = Exact{scale(cents(amount), numerator, denominator).minor()} * denominator - product;
    const Exact size = off < 0 ? -off : off;
    RC_ASSERT(size <= denominator - size);
    if (size == denominator - size) RC_ASSERT((off > 0) == (product > 0));  // a half goes away from zero
  }));
}

TEST(Scale, RefusesADenominatorThatIsNotPositive) {
  EXPECT_THROW(scale(cents(1), 1, 0), std::invalid_argument);
  EXPECT_THROW(scale(cents(1), 1, -1), std::invalid_argument);
}

}  // namespace
}  // namespace secondpull
