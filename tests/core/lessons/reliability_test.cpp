#include "core/lessons/reliability.h"

#include <numeric>

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

namespace secondpull::lessons {
namespace {

using learning::Tries;
using testing::DoubleNear;
using testing::ElementsAre;

TEST(Reliability, OfNothingSaysNothing) {
  const Reliability held = reliability({});
  EXPECT_EQ(held.all, Tries{});
  EXPECT_TRUE(held.tenths.empty());
  EXPECT_EQ(held.differs, Differs::no);
}

// By hand: 0.2^2, 0.3^2, 0.9^2 and 0.05^2 over 4.
TEST(Reliability, ScoresByTheSquaresOfWhatWasOff) {
  const Said said[] = {{0.8, true}, {0.3, false}, {0.9, false}, {0.95, true}};
  const Reliability held = reliability(said);
  EXPECT_EQ(held.all, (Tries{4, 2}));
  EXPECT_NEAR(held.said, 0.7375, 1e-12);
  EXPECT_NEAR(held.brier, (0.04 + 0.09 + 0.81 + 0.0025) / 4, 1e-12);
  EXPECT_EQ(held.brier_of_the_share, 0.25);
}

TEST(Reliability, CountsByTenthsOfTheChanceTheLastWithCertaintyInIt) {
  const Said said[] = {{0, false}, {0.71, true}, {0.78, false}, {0.95, true}, {1, true}};
  const auto tenths = reliability(said).tenths;
  ASSERT_EQ(tenths.size(), 3U);
  EXPECT_EQ(tenths[0].from, 0);
  EXPECT_EQ(tenths[0].seen, (Tries{1, 0}));
  EXPECT_EQ(tenths[1].from, 7);
  EXPECT_EQ(tenths[1].seen, (Tries{2, 1}));
  EXPECT_NEAR(tenths[1].said, 0.745, 1e-12);
  EXPECT_EQ(tenths[1].range, learning::jeffreys_interval({2, 1}, 0.8));
  EXPECT_EQ(tenths[2].from, 9);
  EXPECT_EQ(tenths[2].seen, (Tries{2, 2}));
}

// In R: d <- 1; for (q in c(.1, .5, .8)) d <- c(d * (1 - q), 0) + c(0, d * q).
TEST(HowManyCome, IsTheSumOfUnlikeCoins) {
  const double chances[] = {0.1, 0.5, 0.8};
  EXPECT_THAT(how_many_come(chances), ElementsAre(DoubleNear(0.09, 1e-15), DoubleNear(0.46, 1e-15),
                                                  DoubleNear(0.41, 1e-15), DoubleNear(0.04, 1e-15)));
  EXPECT_THAT(how_many_come({}), ElementsAre(1));
}

// In R: qbinom(c(.025, .1, .9, .975), 10, .8) = 5, 6, 10, 10.
TEST(Reliability, SaysThatChancesWereTooHighOnlyWhenTheCasesCarryIt) {
  const auto held = [](int n, int came) {
    std::vector<Said> said;
    for (int each = 0; each < n; ++each)
      said.push_back({0.8, each < came});
    return reliability(said);
  };
  EXPECT_EQ(held(10, 6).least_expected, 6);
  EXPECT_EQ(held(10, 6).most_expected, 10);
  EXPECT_EQ(held(10, 5).differs, Differs::no);
  EXPECT_EQ(held(10, 4).differs, Differs::lower);
  EXPECT_EQ(held(4, 0).differs, Differs::no) << "four are too few";
  EXPECT_EQ(held(40, 40).differs, Differs::higher);
}

RC_GTEST_PROP(Reliability, TenthsHoldEachChanceOnce, ()) {
  std::vector<Said> said;
  const auto count = *rc::gen::inRange(1, 60);
  for (int each = 0; each < count; ++each)
    said.push_back({*rc::gen::inRange(0, 1001) / 1000.0, *rc::gen::arbitrary<bool>()});
  const Reliability held = reliability(said);
  Tries sum;
  double chances = 0;
  for (const Tenth& tenth : held.tenths) {
    sum.tried += tenth.seen.tried;
    sum.cured += tenth.seen.cured;
    chances += tenth.said * static_cast<double>(tenth.seen.tried);
    RC_ASSERT(tenth.said >= tenth.from / 10.0 - 1e-12 && tenth.said <= (tenth.from + 1) / 10.0 + 1e-12);
  }
  RC_ASSERT(sum == held.all);
  RC_ASSERT(std::abs(chances / count - held.said) < 1e-12);
  RC_ASSERT(held.brier >= 0 && held.brier <= 1);
  RC_ASSERT(held.least_expected <= held.most_expected);
}

}  // namespace
}  // namespace secondpull::lessons
