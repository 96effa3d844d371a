#include "core/planning/forecast.h"

#include <gmock/gmock.h>

namespace secondpull::planning {
namespace {

using testing::DoubleNear;
using testing::ElementsAre;
using testing::Pair;

// The worked example of the decision model, with $30 spent on it before: 0.993 of $100 less 15 and a
// hundredth of 5; what was spent is no part of what lies ahead.
TEST(Promise, IsOfWhatLiesAheadWithoutWhatWasSpent) {
  diagnosis::Case of;
  of.causes = {{.id = "needle-leak", .weight = 1}};
  of.repairs = {{.id = "new-seat", .cost = 5, .cures = {{"needle-leak", 0.3}}},
                {.id = "new-carburettor", .cost = 15, .cures = {{"needle-leak", 0.99}}}};
  of.revived.price = 100;
  of.stops = {{.id = "scrap"}};
  of.sunk = {.cash = 30, .hours = 1.5};
  const auto answer = decision::verdict(of);
  ASSERT_TRUE(answer) << answer.error().sentence;
  const Promise promise = promise_of(of, *answer);
  EXPECT_NEAR(promise.figures.cash, 84.25, 1e-9);
  EXPECT_NEAR(promise.figures.chance_revived, 0.993, 1e-9);
  EXPECT_NEAR(promise.figures.low, 85, 1e-9) << "one repair and the sale, with no spread of the price";
  EXPECT_NEAR(promise.figures.high, 85, 1e-9);
  EXPECT_EQ(promise.figures.price, 100);
  EXPECT_EQ(promise.figures.sunk_cash, 30);
  EXPECT_EQ(promise.figures.sunk_hours, 1.5);
  EXPECT_THAT(promise.causes, ElementsAre(Pair("needle-leak", DoubleNear(1, 1e-12))));
}

}  // namespace
}  // namespace secondpull::planning
