#include "core/market/backward.h"

#include <cmath>

#include <gmock/gmock.h>
#include <rapidcheck.h>

namespace secondpull::market {
namespace {

/// Buyers come at that rate a day whatever the price is up to `most`, which is then the best to ask.
Buyers paying(double most, double rate) {
  return [=](double, double, double) { return BestPrice{most, rate, most}; };
}
/// Fewer the higher the price, down to none at 2.
Buyers fewer_when_dear(double rate) {
  return [=](double, double floor, double) {
    const double price = std::clamp((floor + 2) / 2, 0.0, 2.0);
    return BestPrice{price, rate * (2 - price), price};
  };
}

TEST(SellByALastDay, IsWorthThePriceTimesTheChanceOfABuyer) {
  const auto path = sell_by_a_last_day({.days = 10, .steps_of_day = 3}, paying(80, 0.2))->front();
  ASSERT_EQ(path.size(), 31U);
  EXPECT_NEAR(path.front().value, 80 * (1 - std::exp(-2.0)), 1e-9);
  EXPECT_EQ(path.front().day, 0);
  EXPECT_EQ(path.back().day, 10);
  EXPECT_EQ(path.back().value, 0);
  EXPECT_TRUE(path.back().given_up);
}

TEST(SellByALastDay, TakesTheHoldingCostOffUntilItIsSold) {
  // Expected days until the first buyer of rate 0.2 or the tenth day: (1 - exp(-2)) / 0.2.
  const auto path =
      sell_by_a_last_day({.days = 10, .steps_of_day = 2'000, .holding_cost = 3}, paying(80, 0.2))->front();
  EXPECT_NEAR(path.front().value, (80 - 3 / 0.2) * (1 - std::exp(-2.0)), 0.01);
}

TEST(SellByALastDay, GivesUpAtOnceWhereWaitingCostsMoreThanItBrings) {
  const auto path =
      sell_by_a_last_day({.days = 10, .holding_cost = 3, .salvage = 70}, paying(80, 0.2))->front();
  EXPECT_EQ(path.front().value, 70);
  EXPECT_TRUE(path.front().given_up);
  EXPECT_EQ(path.front().rate, 0);
  const auto none = sell_by_a_last_day({.days = 0, .salvage = 7}, paying(80, 0.2))->front();
  ASSERT_EQ(none.size(), 1U);
  EXPECT_EQ(none.front().value, 7);
}

TEST(SellByALastDay, RefusesWhatIsNoSellingAndNamesIt) {
  const auto field = [](Selling selling) { return sell_by_a_last_day(selling, paying(1, 1)).error().field; };
  EXPECT_EQ(field({.days = -1}), "days");
  EXPECT_EQ(field({.days = NAN}), "days");
  EXPECT_EQ(field({.days = kLongestDays + 1}), "days");
  EXPECT_EQ(field({.days = 1, .steps_of_day = 0}), "steps_of_day");
  EXPECT_EQ(field({.days = 1, .holding_cost = -1}), "holding_cost");
  EXPECT_EQ(field({.days = 1, .salvage = NAN}), "salvage");
  EXPECT_EQ(field({.days = 1, .pieces = 0}), "pieces");
  EXPECT_EQ(sell_by_a_last_day({.days = 1, .holding_cost = -2.5}, paying(1, 1)).error().value, "-2.5");
}

TEST(SellByALastDay, IsWorthMoreWithTimeAndPiecesAndEachPieceLess) {
  EXPECT_TRUE(rc::check("value rises with days left and pieces; a further piece adds less; floors fall", [] {
    const double rate = *rc::gen::inRange(1, 300) / 100.0;
    const auto paths =
        sell_by_a_last_day({.days = 5, .steps_of_day = 4, .pieces = 4}, fewer_when_dear(rate)).value();
    for (std::size_t at = 0; at + 1 < paths[0].size(); ++at) {
      double before = 0;
      double added = 1e9;
      for (const auto& path : paths) {
        RC_ASSERT(path[at].value >= path[at + 1].value - 1e-12);
        RC_ASSERT(path[at].value - before <= added + 1e-12);
        RC_ASSERT(path[at].price >= path[at].floor);
        added = path[at].value - before;
        before = path[at].value;
      }
    }
  }));
}

}  // namespace
}  // namespace secondpull::market
