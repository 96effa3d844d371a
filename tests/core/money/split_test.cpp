#include <limits>
#include <numeric>
#include <stdexcept>

#include <gmock/gmock.h>
#include <rapidcheck.h>

#include "core/money/money.h"

namespace secondpull {
namespace {

using testing::ElementsAre;

__extension__ typedef __int128 Exact;  // sums and products that 64 bits would not hold

constexpr std::int64_t kMost = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t kLeast = std::numeric_limits<std::int64_t>::min();

Money cents(std::int64_t units) {
  return Money::from_minor(units);
}

std::vector<Money> split_by(std::int64_t total, std::vector<std::int64_t> weights) {
  return split(cents(total), weights);
}

/// One to twenty weights, of which some sum is not zero, small ones and huge ones; their sum fits 64 bits.
rc::Gen<std::vector<std::int64_t>> weights() {
  constexpr std::int64_t kTwenty = 20;
  const auto one =
      rc::gen::oneOf(rc::gen::inRange<std::int64_t>(0, 10), rc::gen::inRange<std::int64_t>(0, 1'000'000),
                     rc::gen::inRange<std::int64_t>(0, kMost / kTwenty));
  return rc::gen::suchThat(rc::gen::container<std::vector<std::int64_t>>(one), [](const auto& all) {
    return !all.empty() && all.size() <= static_cast<std::size_t>(kTwenty);
  });
}

rc::Gen<std::int64_t> any_total() {
  return rc::gen::oneOf(rc::gen::inRange<std::int64_t>(-100, 100), rc::gen::arbitrary<std::int64_t>(),
                        rc::gen::element(kLeast, kLeast + 1, kMost, std::int64_t{0}));
}

template <class Property>
void check(const char* what, Property&& property) {
  EXPECT_TRUE(rc::check(what, std::forward<Property>(property)));
}

TEST(Split, LeavesNoUnitBehindForAnyWeights) {
  check("the parts add up", [] {
    const auto by = *weights();
    const auto total = *any_total();
    Exact sum = 0;
    for (const Money part : split_by(total, by))
      sum += part.minor();
    RC_ASSERT(sum == total);
  });
}

TEST(Split, GivesNobodyAWholeUnitMoreOrLessThanTheExactShare) {
  check("|part - total x weight / sum| < 1", [] {
    const auto by = *weights();
    const auto total = *rc::gen::inRange<std::int64_t>(-1'000'000'000'000, 1'000'000'000'000);
    const Exact sum = std::accumulate(by.begin(), by.end(), Exact{0});
    RC_PRE(sum > 0);
    const auto parts = split_by(total, by);
    for (std::size_t i = 0; i < by.size(); ++i) {
      const Exact off = Exact{parts[i].minor()} * sum - Exact{total} * by[i];
      RC_ASSERT(off < sum);
      RC_ASSERT(off > -sum);
    }
  });
}

TEST(Split, MirrorsANegativeTotal) {
  check("split(-total) == -split(total)", [] {
    const auto by = *weights();
    const auto total = *rc::gen::suchThat(any_total(), [](std::int64_t units) { return units != kLeast; });
    auto mirrored = split_by(-total, by);
    for (Money& part : mirrored)
      part = -part;
    RC_ASSERT(mirrored == split_by(total, by));
  });
}

TEST(Split, HasEqualWeightsDifferByAUnitAtMostAndTheEarlierHaveMore) {
  check("equal shares", [] {
    const auto pieces = *rc::gen::inRange<std::size_t>(1, 50);
    const auto total = *rc::gen::inRange<std::int64_t>(0, kMost);
    const auto parts = split_evenly(cents(total), pieces);
    RC_ASSERT(parts == split_by(total, std::vector<std::int64_t>(pieces, 1)));
    RC_ASSERT(std::is_sorted(parts.rbegin(), parts.rend()));
    RC_ASSERT(parts.front().minor() - parts.back().minor() <= 1);
  });
}

TEST(Split, GivesNothingToAWeightOfZero) {
  EXPECT_THAT(split_by(100, {0, 3, 0, 3, 3}),
              ElementsAre(cents(0), cents(34), cents(0), cents(33), cents(33)));
}

TEST(Split, SharesEquallyIfAllWeightsAreZero) {
  EXPECT_THAT(split_by(100, {0, 0, 0}), ElementsAre(cents(34), cents(33), cents(33)));
  EXPECT_THAT(split_by(-100, {0, 0, 0}), ElementsAre(cents(-34), cents(-33), cents(-33)));
}

// The money model's worked month: a donor of 10.00 over 15, 10 and 5; freight of 5.95 over 15.99 and 3.49.
TEST(Split, HandsTheLeftOverUnitToTheLargestRemainder) {
  EXPECT_THAT(split_by(1000, {1500, 1000, 500}), ElementsAre(cents(500), cents(333), cents(167)));
  EXPECT_THAT(split_by(595, {1599, 349}), ElementsAre(cents(488), cents(107)));
}

TEST(Split, LetsTheEarlierPositionWinATie) {
  EXPECT_THAT(split_by(1, {1, 1}), ElementsAre(cents(1), cents(0)));
  EXPECT_THAT(split_by(3, {1, 1}), ElementsAre(cents(2), cents(1)));
}

TEST(Split, WorksBeyond64BitsInside) {
  EXPECT_THAT(split_by(kMost, {kMost}), ElementsAre(cents(kMost)));
  EXPECT_THAT(split_by(kLeast, {kMost}), ElementsAre(cents(kLeast)));
  EXPECT_THAT(split_by(kMost, {kMost / 2, kMost / 2}), ElementsAre(cents(kMost / 2 + 1), cents(kMost / 2)));
}

TEST(Split, RefusesWhatIsNoSplit) {
  EXPECT_THROW(split_by(1, {}), std::invalid_argument);
  EXPECT_THROW(split_by(1, {2, -1}), std::invalid_argument);
  EXPECT_THROW(split_by(1, {kMost, 1}), std::overflow_error);
  EXPECT_THROW(split_evenly(cents(1), 0), std::invalid_argument);
}

}  // namespace
}  // namespace secondpull
