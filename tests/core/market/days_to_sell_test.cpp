#include "core/market/days_to_sell.h"

#include <gmock/gmock.h>

#include "tests/core/learning/small_knowledge.h"

namespace secondpull::market {
namespace {

using learning::Knowledge;
using test::BareShop;
using test::cents;
using test::day;

Knowledge knowledge() {
  Knowledge k = test::small_knowledge();
  k.kinds[0].days_to_sell = {3, 5, 14};
  k.season.days[11] = 10;
  return k;
}
std::vector<TimeForSale> times_of(const BareShop& s, std::string_view today = "2026-07-01") {
  const ByMachine by_machine{s.shop};
  return times_for_sale(by_machine, s.shop, price_model(by_machine, s.shop, knowledge(), day(today)),
                        day(today));
}
void list(BareShop& s, MachineId machine, std::string_view date, std::optional<SoldAs> as = SoldAs::running,
          std::string_view ended = "", std::int64_t asking = 10'000) {
  Listing listing{.machine = machine, .date = day(date), .asking = cents(asking), .sold_as = as};
  if (!ended.empty()) listing.ended = day(ended);
  s.add(listing);
}
void sell(BareShop& s, MachineId machine, std::string_view date, std::optional<SoldAs> as = SoldAs::running) {
  s.add(Sale{.machine = machine, .date = day(date), .price = cents(9'000), .sold_as = as});
}

TEST(TimesForSale, GoFromTheFirstListingToTheSale) {
  BareShop s;
  const MachineId m = s.machine();
  list(s, m, "2026-05-01", SoldAs::running, "2026-05-08");
  list(s, m, "2026-05-10");
  sell(s, m, "2026-05-13");
  const auto times = times_of(s);
  ASSERT_EQ(times.size(), 1U);
  EXPECT_EQ(times[0].machine, m);
  EXPECT_EQ(times[0].listed, day("2026-05-01"));
  EXPECT_EQ(times[0].days, 12);
  EXPECT_TRUE(times[0].sold);
  EXPECT_EQ(times[0].band, PriceBand::about);
}

TEST(TimesForSale, AreCutOffWhereItWasNotSold) {
  BareShop s;
  const MachineId open = s.machine();
  list(s, open, "2026-06-01");
  const MachineId taken_down = s.machine();
  list(s, taken_down, "2026-06-01", SoldAs::running, "2026-06-11");
  const MachineId scrapped = s.machine();
  list(s, scrapped, "2026-06-01");
  s.add(Disposal{.machine = scrapped, .date = day("2026-06-08")});
  std::vector<int> days;
  for (const TimeForSale& time : times_of(s)) {
    EXPECT_FALSE(time.sold);
    days.push_back(time.days);
  }
  EXPECT_THAT(days, testing::ElementsAre(30, 10, 7));
}

TEST(TimesForSale, OfferedInTwoWaysAreTwo) {
  BareShop s;
  const MachineId m = s.machine();
  list(s, m, "2026-05-01", SoldAs::as_is, "2026-05-06");
  list(s, m, "2026-05-20", SoldAs::running);
  sell(s, m, "2026-05-22");
  const auto times = times_of(s);
  ASSERT_EQ(times.size(), 2U);
  EXPECT_EQ(times[0].as, SoldAs::running);
  EXPECT_EQ(times[0].days, 2);
  EXPECT_TRUE(times[0].sold);
  EXPECT_EQ(times[1].as, SoldAs::as_is);
  EXPECT_EQ(times[1].days, 5);
  EXPECT_FALSE(times[1].sold);
}

TEST(TimesForSale, BeginAnewWhenItIsBroughtBack) {
  BareShop s;
  const MachineId m = s.machine();
  list(s, m, "2026-05-01");
  sell(s, m, "2026-05-04");
  s.add(Return{.machine = m, .date = day("2026-05-10")});
  list(s, m, "2026-06-21");
  const auto times = times_of(s);
  ASSERT_EQ(times.size(), 2U);
  EXPECT_EQ(times[0].days, 3);
  EXPECT_EQ(times[1].days, 10);
  EXPECT_FALSE(times[1].sold);
}

TEST(TimesForSale, TakeTheWayOfSellingFromTheSaleWhereTheListingIsSilent) {
  BareShop s;
  const MachineId said = s.machine();
  list(s, said, "2026-05-01", std::nullopt);
  sell(s, said, "2026-05-04", SoldAs::as_is);
  const MachineId nobody = s.machine();
  list(s, nobody, "2026-05-01", std::nullopt);
  sell(s, nobody, "2026-05-04", std::nullopt);
  const auto times = times_of(s);
  ASSERT_EQ(times.size(), 1U);
  EXPECT_EQ(times[0].as, SoldAs::as_is);
}

TEST(TimesForSale, HaveTheBandOfTheFirstPriceAsked) {
  EXPECT_EQ(price_band(89, 100), PriceBand::below);
  EXPECT_EQ(price_band(90, 100), PriceBand::about);
  EXPECT_EQ(price_band(110, 100), PriceBand::about);
  EXPECT_EQ(price_band(111, 100), PriceBand::above);
  BareShop s;
  const MachineId m = s.machine();
  list(s, m, "2026-05-01", SoldAs::running, "2026-05-09", 20'000);
  list(s, m, "2026-05-10", SoldAs::running, "", 5'000);
  list(s, s.machine(), "2026-05-10", SoldAs::running, "", 0);
  const auto times = times_of(s);
  EXPECT_EQ(times[0].band, PriceBand::above);
  EXPECT_EQ(times[1].band, std::nullopt);
}

DaysToSell days_of(const std::vector<TimeForSale>& own, std::optional<PriceBand> band = {},
                   std::string_view listed = "2026-06-15", MachineKind kind = MachineKind::push) {
  return days_to_sell(own, knowledge(), kind, SoldAs::running, band, day(listed));
}
TimeForSale sold_after(int days, PriceBand band = PriceBand::about, std::string_view listed = "2026-06-15") {
  return {.listed = day(listed), .days = days, .sold = true, .band = band};
}

TEST(DaysToSell, WithoutListingsAreTheTradesTimesTheSeason) {
  EXPECT_NEAR(days_of({}).median, 5, 1e-9);
  EXPECT_NEAR(days_of({}).p10, 3, 1e-9);
  EXPECT_NEAR(days_of({}).p90, 14, 1e-9);
  EXPECT_NEAR(days_of({}).chance_by(5), 0.5, 1e-9);
  EXPECT_NEAR(days_of({}, {}, "2026-12-15").median, 50, 1e-9);
  EXPECT_NEAR(days_of({}, {}, "2026-12-15").chance_by(50), 0.5, 1e-9);
  EXPECT_LT(days_of({}, PriceBand::below).median, 5);
  EXPECT_GT(days_of({}, PriceBand::above).median, 5);
  EXPECT_NEAR(days_of({}, {}, "2026-06-15", MachineKind::zero_turn).median, kDaysOfUnknown.typical, 1e-9);
}

TEST(DaysToSell, WithManyListingsAreTheShopsOwn) {
  std::vector<TimeForSale> own(60, sold_after(20));
  const DaysToSell days = days_of(own);
  EXPECT_NEAR(days.median, 20, 0.01);
  EXPECT_EQ(days.listings, 60U);
  EXPECT_EQ(days.sold, 60U);
  EXPECT_EQ(days.own.quantile(0.5).days, 20);
  EXPECT_NEAR(days.median_interval.low, 20, 0.01);
  EXPECT_NEAR(days.median_interval.high, 20, 0.01);
}

TEST(DaysToSell, CountOwnListingsAsTheyWouldHaveBeenInTheBestMonths) {
  const std::vector<TimeForSale> own(60, sold_after(200, PriceBand::about, "2025-12-15"));
  EXPECT_NEAR(days_of(own).median, 20, 0.01);
  EXPECT_NEAR(days_of(own, {}, "2026-12-15").median, 200, 0.1);
}

TEST(DaysToSell, AreOfTheKindTheWayAndTheBandAskedFor) {
  std::vector<TimeForSale> own{sold_after(9, PriceBand::above), sold_after(4)};
  own.push_back({.kind = MachineKind::zero_turn, .listed = day("2026-06-15"), .days = 3, .sold = true});
  own.push_back({.as = SoldAs::as_is, .listed = day("2026-06-15"), .days = 3, .sold = true});
  EXPECT_EQ(days_of(own).listings, 2U);
  EXPECT_EQ(days_of(own, PriceBand::above).listings, 1U);
  EXPECT_EQ(days_of(own, PriceBand::below).listings, 0U);
}

}  // namespace
}  // namespace secondpull::market
