#include "core/lessons/seasons.h"

#include <gmock/gmock.h>

#include "core/learning/season.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::lessons {
namespace {

using learning::OwnSale;
using learning::Season;
using test::day;

OwnSale sold(std::string_view date, double price, std::string_view listed = "",
             MachineKind kind = MachineKind::push, SoldAs as = SoldAs::running) {
  OwnSale sale;
  sale.kind = kind;
  sale.as = as;
  sale.price = price;
  sale.date = day(date);
  if (!listed.empty()) sale.listed = day(listed);
  return sale;
}

TEST(Seasons, PriceAMonthAgainstTheKindsOwnMean) {
  const auto months = seasons(
      {sold("2026-04-15", 120), sold("2026-10-15", 80), sold("2026-04-15", 1'000, "", MachineKind::zero_turn),
       sold("2026-04-15", 5, "", MachineKind::push, SoldAs::as_is)},
      Season{});
  EXPECT_EQ(months[3].sold, 2U);
  EXPECT_NEAR(months[3].price.mean, (1.2 + 1) / 2, 1e-12);
  EXPECT_NEAR(months[9].price.mean, 0.8, 1e-12);
  EXPECT_EQ(months[0].sold, 0U);
  EXPECT_EQ(months[0].usual_price, 1);
}

TEST(Seasons, OfAShopThatFollowsTheTradeAreTheTrades) {
  Season season;
  season.price[3] = 1.2;
  season.price[9] = 0.8;
  const auto price_on = [&](std::string_view date) {
    return sold(date, 100 * learning::price_level(season, day(date)));
  };
  const auto months =
      seasons({price_on("2026-04-03"), price_on("2026-04-15"), price_on("2026-10-20")}, season);
  EXPECT_NEAR(months[3].price.mean, months[3].usual_price, 1e-12);
  EXPECT_NEAR(months[9].price.mean, months[9].usual_price, 1e-12);
  EXPECT_EQ(months[3].price_differs, Differs::no);
}

TEST(Seasons, CountDaysToTheSaleByTheMonthOfTheListing) {
  const auto months = seasons({sold("2026-05-04", 100, "2026-04-24"), sold("2026-05-04", 100)}, Season{});
  EXPECT_EQ(months[3].days, (Mean{.count = 1, .mean = 10}));
  EXPECT_EQ(months[4].days.count, 0U);
  EXPECT_EQ(months[4].sold, 2U);
}

TEST(DaysByKind, AreOfRunningMachinesThatWereListed) {
  const auto kinds =
      days_by_kind({sold("2026-05-04", 100, "2026-04-24"), sold("2026-05-04", 140, "2026-04-30"),
                    sold("2026-05-04", 300, "", MachineKind::zero_turn), sold("2026-05-04", 90),
                    sold("2026-05-04", 9, "2026-05-01", MachineKind::push, SoldAs::as_is)});
  ASSERT_EQ(kinds.size(), 2U);
  EXPECT_EQ(kinds[0].kind, MachineKind::push);
  EXPECT_EQ(kinds[0].sold, 3U);
  EXPECT_EQ(kinds[0].days.count, 2U);
  EXPECT_EQ(kinds[0].days.mean, 7);
  EXPECT_EQ(kinds[0].price, 100);
  EXPECT_EQ(kinds[1].days.count, 0U);
}

}  // namespace
}  // namespace secondpull::lessons
