#include "core/learning/season.h"

#include <gtest/gtest.h>

#include "tests/core/learning/small_knowledge.h"

namespace secondpull::learning {
namespace {

using test::day;
using test::small_knowledge;

/// Prices of 1.2 in April and 0.9 in December, and of 1 in all other months.
Season ups_and_downs() {
  Season season;
  season.price[3] = 1.2;
  season.price[11] = 0.9;
  season.days[11] = 10;
  return season;
}

TEST(Season, AMonthsFigureHoldsOnIts15thAndGoesStraightToTheNext) {
  const Season season = ups_and_downs();
  EXPECT_DOUBLE_EQ(price_level(season, day("2026-04-15")), 1.2);
  EXPECT_DOUBLE_EQ(price_level(season, day("2026-04-30")), 1.1);  // half of 30 days
  EXPECT_DOUBLE_EQ(price_level(season, day("2026-05-15")), 1);
  EXPECT_DOUBLE_EQ(price_level(season, day("2026-12-15")), 0.9);
  EXPECT_DOUBLE_EQ(price_level(season, day("2026-01-01")), 0.9 + 0.1 * 17 / 31);  // over the end of the year
  EXPECT_DOUBLE_EQ(slowness(season, day("2026-12-15")), 10);
  EXPECT_DOUBLE_EQ(slowness(season, day("2026-06-20")), 1);
}

TEST(Season, ADayCostsWhatTheFallingPriceLosesAndEarnsWhatTheRisingOneGains) {
  const Season season = ups_and_downs();
  EXPECT_NEAR(season_cost_of_day(120, season, day("2026-04-15")), 120 * 0.2 / 30 / 1.2, 1e-12);
  EXPECT_NEAR(season_cost_of_day(100, season, day("2026-03-15")), -100 * 0.2 / 31, 1e-12);
  EXPECT_EQ(season_cost_of_day(100, season, day("2026-07-01")), 0);
}

OwnSale sold(std::string_view listed, std::string_view date, SoldAs as = SoldAs::running) {
  OwnSale sale{.as = as, .date = day(date)};
  if (!listed.empty()) sale.listed = day(listed);
  return sale;
}

TEST(Season, DaysToSellAreTheKnowledgesTimesTheSlownessOfTheDayWithoutOwnSales) {
  KindFigures push = *small_knowledge().figures(MachineKind::push);
  push.days_to_sell = {3, 5, 14};
  EXPECT_DOUBLE_EQ(days_to_sell({}, push, SoldAs::running, ups_and_downs(), day("2026-06-15")), 5);
  EXPECT_DOUBLE_EQ(days_to_sell({}, push, SoldAs::running, ups_and_downs(), day("2026-12-15")), 50);
}

TEST(Season, OwnDaysCountAsTheyWouldHaveBeenInTheBestMonths) {
  KindFigures push = *small_knowledge().figures(MachineKind::push);
  push.days_to_sell = about(5);                                     // weighs 0.5 x 0.5 / (0.3 x 0.3) sales
  const std::vector<OwnSale> own{sold("2026-06-15", "2026-06-24"),  // 9 days
                                 sold("2025-12-15", "2026-03-25"),  // 100 days, which are 10
                                 sold("", "2026-06-24"), sold("2026-06-15", "2026-06-16", SoldAs::as_is)};
  const double k = 0.25 / 0.09;
  EXPECT_NEAR(days_to_sell(own, push, SoldAs::running, ups_and_downs(), day("2026-06-15")),
              (k * 5 + 19) / (k + 2), 1e-12);
  EXPECT_NEAR(days_to_sell(own, push, SoldAs::as_is, ups_and_downs(), day("2026-06-15")),
              (k * 5 + 1) / (k + 1), 1e-12);
}

}  // namespace
}  // namespace secondpull::learning
