#include "core/learning/shrink.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <gmock/gmock.h>
#include <rapidcheck.h>

namespace secondpull::learning {
namespace {

std::vector<double> any_numbers() {
  std::vector<double> numbers;
  for (int left = *rc::gen::inRange(1, 12); left > 0; --left)
    numbers.push_back(*rc::gen::inRange(1, 2000) / 10.0);
  return numbers;
}
Range any_range() {
  const double low = *rc::gen::inRange(1, 500) / 10.0;
  const double typical = low + *rc::gen::inRange(0, 500) / 10.0;
  return {low, typical, typical + *rc::gen::inRange(0, 500) / 10.0};
}
double mean(const std::vector<double>& numbers) {
  double sum = 0;
  for (const double x : numbers)
    sum += x;
  return sum / static_cast<double>(numbers.size());
}

TEST(ShrunkMean, IsTheTypicalUntilThereIsARecord) {
  EXPECT_EQ(shrunk_mean({20, 30, 45}, {}), 30);
  EXPECT_EQ(shrunk_mean({}, {}), 0);
}

TEST(ShrunkMean, WeighsOwnTimesAgainstTheKnowledge) {
  // Scatter 0.5 and shops 0.3 apart: the knowledge weighs 0.25 / 0.09 = 25/9 own times. With 2 of 40 minutes
  // against 30: (25/9 x 30 + 80) / (25/9 + 2) = 1470 / 43.
  const std::vector<double> own{30, 50};
  EXPECT_NEAR(weight_of_knowledge(about(30)), 25.0 / 9, 1e-12);
  EXPECT_NEAR(shrunk_mean(about(30), own), 1470.0 / 43, 1e-12);
}

TEST(ShrunkMean, TrustsOwnTimesSoonerWhereJobsAreAlike) {
  const std::vector<double> own{60, 60};
  EXPECT_GT(shrunk_mean({28, 30, 32}, own), shrunk_mean({10, 30, 90}, own));
}

TEST(ShrunkMean, LiesBetweenTheTypicalAndTheOwnMeanAndEndsThere) {
  EXPECT_TRUE(rc::check("between, in any unit, in any order, and with many the own mean", [] {
    const Range known = any_range();
    std::vector<double> own = any_numbers();
    const double shrunk = shrunk_mean(known, own);
    RC_ASSERT(shrunk >= std::min(known.typical, mean(own)) - 1e-9);
    RC_ASSERT(shrunk <= std::max(known.typical, mean(own)) + 1e-9);
    std::vector<double> seconds = own;
    for (double& x : seconds)
      x *= 60;
    RC_ASSERT(std::abs(shrunk_mean({known.low * 60, known.typical * 60, known.high * 60}, seconds) -
                       60 * shrunk) < 1e-7);
    std::vector<double> many;
    for (int again = 0; again < 2'000; ++again)
      many.insert(many.end(), own.begin(), own.end());
    RC_ASSERT(std::abs(shrunk_mean(known, many) - mean(own)) < 0.02 * (mean(own) + known.typical));
    std::reverse(own.begin(), own.end());
    RC_ASSERT(std::abs(shrunk_mean(known, own) - shrunk) < 1e-9);
  }));
}

TEST(PriceBelief, HasTheRangeAsItsMiddleFourFifths) {
  const PriceBelief belief = price_belief({50, 100, 200});
  EXPECT_EQ(belief.median, 100);
  // P(50 <= price <= 200) for a lognormal of that median and spread.
  const double z = std::log(2.0) / belief.spread;
  EXPECT_NEAR(std::erf(z / std::sqrt(2.0)), 0.8, 1e-12);
  EXPECT_NEAR(belief.mean(), 100 * std::exp(belief.spread * belief.spread / 2), 1e-12);
}

TEST(ShrunkPrice, FollowsTheConjugateUpdateOfANormalMeanAndVariance) {
  // By hand: 5 believed sales at e^4 with spread 0.3, two own ones at e^5 and e^4.4: mean 4.7, squares 0.18.
  const std::vector<double> own{std::exp(5.0), std::exp(4.4)};
  const PriceBelief after = shrunk_price({std::exp(4.0), 0.3}, own, 5);
  EXPECT_NEAR(std::log(after.median), (5 * 4.0 + 2 * 4.7) / 7, 1e-12);
  EXPECT_NEAR(after.spread * after.spread, (5 * 0.09 + 0.18 + 5 * 2 / 7.0 * 0.49) / 7, 1e-12);
}

TEST(ShrunkPrice, IsTheSameWhetherSalesComeOneByOneOrTogether) {
  EXPECT_TRUE(rc::check("one by one, with the weight growing", [] {
    const PriceBelief known{10.0 + *rc::gen::inRange(0, 300), *rc::gen::inRange(1, 90) / 100.0};
    const std::vector<double> own = any_numbers();
    const PriceBelief together = shrunk_price(known, own);
    PriceBelief belief = known;
    double believed = kSalesBelieved;
    for (const double price : own)
      belief = shrunk_price(belief, std::vector<double>{price}, believed++);
    RC_ASSERT(std::abs(belief.median / together.median - 1) < 1e-9);
    RC_ASSERT(std::abs(belief.spread - together.spread) < 1e-9);
  }));
}

TEST(ShrunkPrice, LeavesOutWhatWasGivenAway) {
  const std::vector<double> own{0, 0};
  EXPECT_EQ(shrunk_price({100, 0.2}, own), (PriceBelief{100, 0.2}));
}

}  // namespace
}  // namespace secondpull::learning
