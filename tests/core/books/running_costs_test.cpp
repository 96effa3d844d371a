#include <gtest/gtest.h>

#include "tests/core/books/shop_builder.h"

namespace secondpull {
namespace {

using test::day;
using test::money;
using test::ShopBuilder;

MileageRates a_dollar_a_mile() {
  return *MileageRates::make({{day("2026-01-01"), day("2026-12-31"), 1000, "made up for this test"}});
}

/// Three machines that came in together without values, tagged against the order of entry.
struct Lot : ShopBuilder {
  AcquisitionId lot = add(Acquisition{.code = "L", .date = day("2026-03-01"), .price = money("100.00")});
  MachineId c = machine("C", lot);
  MachineId b = machine("B", lot);
  MachineId a = machine("A", lot);
};

TEST(Lot, IsSharedEquallyInOrderOfEntryIfAnyMachineHasNoValue) {
  Lot shop;
  Machine valued = *shop.shop().find(shop.b);
  valued.value_then = money("90.00");
  shop.shop().all<Machine>().replace(valued);
  const Books books = shop.books();
  EXPECT_EQ(books.machine(shop.c)->cost_basis, money("33.34"));
  EXPECT_EQ(books.machine(shop.b)->cost_basis, money("33.33"));
  EXPECT_EQ(books.machine(shop.a)->cost_basis, money("33.33"));
}

TEST(Lot, SplitsPriceAndPickupAsOneSum) {
  ShopBuilder shop;
  const AcquisitionId lot =
      shop.add(Acquisition{.date = day("2026-03-01"), .price = money("0.01"), .pickup_cost = money("0.01")});
  const MachineId first = shop.machine("A", lot);
  const MachineId second = shop.machine("B", lot);
  EXPECT_EQ(shop.books().machine(first)->cost_basis, money("0.01"));
  EXPECT_EQ(shop.books().machine(second)->cost_basis, money("0.01"));
}

TEST(Lot, WithoutMachinesIsRefused) {
  ShopBuilder shop;
  shop.add(Acquisition{.code = "L", .date = day("2026-03-01"), .price = money("0.01")});
  ASSERT_FALSE(shop.try_books());
  EXPECT_EQ(shop.try_books().error().field, "acquisition");
}

TEST(Hours, OfAnAcquisitionAreSharedLineByLine) {
  Lot shop;
  for (int i = 0; i < 2; ++i)
    shop.add(
        Labour{.acquisition = shop.lot, .date = day("2026-03-01"), .minutes = {10}, .work = Work::pickup});
  const Books books = shop.books();
  EXPECT_EQ(books.machine(shop.c)->minutes, Minutes{8});  // 4 + 4
  EXPECT_EQ(books.machine(shop.b)->minutes, Minutes{6});
  EXPECT_EQ(books.machine(shop.a)->minutes, Minutes{6});
}

TEST(Hours, CountEveryKindOfWorkButNotTheMinutesOfFindings) {
  Lot shop;
  for (const Work kind : all_words<Work>())
    shop.work(shop.a, day("2026-03-02"), 5, kind);
  shop.add(Finding{.machine = shop.a, .date = day("2026-03-02"), .step = "spark", .minutes = Minutes{90}});
  shop.add(Labour{.date = day("2026-03-02"), .minutes = {500}});
  EXPECT_EQ(shop.books().machine(shop.a)->minutes, Minutes{50});
}

TEST(Hours, NoneMeansPayPerHourIsNotDefined) {
  Lot shop;
  shop.sell(shop.a, day("2026-03-05"), money("80.00"));
  EXPECT_EQ(shop.books().machine(shop.a)->pay_per_hour, std::nullopt);
  EXPECT_EQ(shop.books().if_sold(shop.b, money("80.00"), {}, {}, day("2026-03-05"))->pay_per_hour,
            std::nullopt);
}

TEST(Hours, PayIsRoundedHalfAwayFromZeroFromTheMinutes) {
  ShopBuilder shop;
  const MachineId gain = shop.bought("A", day("2026-03-01"), Money{});
  const MachineId loss = shop.bought("B", day("2026-03-01"), money("1.01"));
  shop.work(gain, day("2026-03-01"), 120);
  shop.work(loss, day("2026-03-01"), 120);
  shop.sell(gain, day("2026-03-02"), money("1.01"));
  shop.sell(loss, day("2026-03-02"), Money{});
  EXPECT_EQ(shop.books().machine(gain)->pay_per_hour, money("0.51"));
  EXPECT_EQ(shop.books().machine(loss)->pay_per_hour, money("-0.51"));
}

TEST(Trips, OfAnAcquisitionAreSharedTripByTrip) {
  Lot shop;
  for (int i = 0; i < 2; ++i)
    shop.add(Trip{.date = day("2026-03-01"), .miles = {1}, .purpose = "look", .acquisition = shop.lot});
  const Books books = shop.books(a_dollar_a_mile());
  EXPECT_EQ(books.machine(shop.c)->running_costs, money("0.08"));  // 10 cents: 4, 3, 3; twice
  EXPECT_EQ(books.machine(shop.b)->running_costs, money("0.06"));
  EXPECT_EQ(books.machine(shop.a)->running_costs, money("0.06"));
}

TEST(Trips, OfAMachineAreItsOwnAndCountAgainstItsProfit) {
  Lot shop;
  shop.add(Trip{.date = day("2026-03-04"), .miles = {125}, .purpose = "deliver", .machine = shop.a});
  shop.sell(shop.a, day("2026-03-04"), money("80.00"));
  const Books books = shop.books(a_dollar_a_mile());
  EXPECT_EQ(books.machine(shop.a)->running_costs, money("12.50"));
  EXPECT_EQ(books.machine(shop.a)->profit, money("34.17"));  // 80.00 - 33.33 - 12.50
  EXPECT_EQ(books.machine(shop.b)->running_costs, money("0.00"));
}

TEST(Trips, OnADayWithoutARateAreRefusedNamingTheDay) {
  Lot shop;
  shop.add(Trip{.date = day("2027-01-01"), .miles = {125}, .purpose = "deliver", .machine = shop.a});
  const auto books = shop.try_books(a_dollar_a_mile());
  ASSERT_FALSE(books);
  EXPECT_EQ(books.error().field, "date");
  EXPECT_EQ(books.error().value, "2027-01-01");
  EXPECT_NE(books.error().sentence.find("2027-01-01"), std::string::npos);
}

TEST(Trips, CostNothingInOtherCurrencies) {
  Lot shop;
  shop.shop().settings.currency = Currency{"KWD", 3};
  shop.add(Trip{.date = day("2027-01-01"), .miles = {125}, .purpose = "deliver", .machine = shop.a});
  shop.add(Trip{.date = day("2027-01-01"), .miles = {125}, .purpose = "shop"});
  shop.work(shop.b, day("2027-01-01"), 10);
  const Books books = shop.books();
  EXPECT_EQ(books.machine(shop.a)->running_costs, money("0.00"));
  EXPECT_EQ(books.machine(shop.b)->running_costs, money("0.00"));
}

TEST(Overheads, AreSharedByTheMinutesOfTheirYear) {
  Lot shop;
  shop.add(Expense{.date = day("2026-01-10"), .category = "rent", .amount = money("90.00")});
  shop.add(Trip{.date = day("2026-12-30"), .miles = {100}, .purpose = "shop"});
  shop.add(Expense{.date = day("2027-01-01"), .category = "rent", .amount = money("5.00")});
  shop.work(shop.a, day("2026-03-02"), 40);
  shop.work(shop.a, day("2026-11-02"), 20);
  shop.work(shop.b, day("2026-12-31"), 30);
  shop.work(shop.c, day("2027-02-02"), 30);
  shop.add(Labour{.date = day("2026-03-02"), .minutes = {500}});
  const Books books = shop.books(a_dollar_a_mile());
  EXPECT_EQ(books.machine(shop.a)->running_costs, money("66.67"));
  EXPECT_EQ(books.machine(shop.b)->running_costs, money("33.33"));
  EXPECT_EQ(books.machine(shop.c)->running_costs, money("5.00"));
}

TEST(Overheads, GiveALeftOverCentToTheEarlierTag) {
  Lot shop;
  shop.add(Expense{.date = day("2026-01-10"), .category = "rent", .amount = money("0.01")});
  shop.work(shop.b, day("2026-03-02"), 30);
  shop.work(shop.a, day("2026-03-02"), 30);
  const Books books = shop.books();
  EXPECT_EQ(books.machine(shop.a)->running_costs, money("0.01"));
  EXPECT_EQ(books.machine(shop.b)->running_costs, money("0.00"));
}

TEST(Overheads, CountTheHoursOfAnAcquisitionForItsMachines) {
  Lot shop;
  shop.add(Expense{.date = day("2026-01-10"), .category = "rent", .amount = money("10.00")});
  shop.add(Labour{.acquisition = shop.lot, .date = day("2026-03-01"), .minutes = {10}, .work = Work::pickup});
  const Books books = shop.books();
  EXPECT_EQ(books.machine(shop.c)->running_costs, money("4.00"));
  EXPECT_EQ(books.machine(shop.a)->running_costs, money("3.00"));
}

TEST(Overheads, StayWithTheShopInAYearWithoutMinutes) {
  Lot shop;
  shop.add(Expense{.date = day("2026-01-10"), .category = "rent", .amount = money("10.00")});
  shop.work(shop.a, day("2026-03-02"), 0);
  shop.work(shop.a, day("2027-03-02"), 50);
  EXPECT_EQ(shop.books().machine(shop.a)->running_costs, money("0.00"));
}

TEST(Overheads, ArePartOfWhatASaleWithMoreMinutesWouldGive) {
  Lot shop;
  shop.add(Expense{.date = day("2026-01-10"), .category = "rent", .amount = money("10.00")});
  shop.work(shop.a, day("2026-03-02"), 30);
  // Half an hour of selling makes the shares 30 : 30.
  const auto figures = shop.books().if_sold(shop.b, money("50.00"), {}, {}, day("2026-03-05"), Minutes{30});
  ASSERT_TRUE(figures);
  EXPECT_EQ(figures->running_costs, money("5.00"));
  EXPECT_EQ(figures->minutes, Minutes{30});
}

TEST(Wages, AreTakenOffTheProfitRoundedOnce) {
  EXPECT_EQ(after_wages(money("77.76"), Minutes{200}, money("15.00")), money("27.76"));
  EXPECT_EQ(after_wages(money("0.00"), Minutes{1}, money("0.90")), money("-0.02"));  // 0.015
}

TEST(Rates, AreRefusedIfTheyOverlapEndTooEarlyOrAreNegative) {
  EXPECT_FALSE(MileageRates::make(
      {{day("2026-01-01"), day("2026-06-30"), 725, ""}, {day("2026-06-30"), day("2026-12-31"), 760, ""}}));
  EXPECT_FALSE(MileageRates::make({{day("2026-01-01"), day("2025-12-31"), 725, ""}}));
  EXPECT_FALSE(MileageRates::make({{day("2026-01-01"), day("2026-12-31"), -1, ""}}));
}

TEST(Rates, AreFoundOnTheirFirstAndLastDayAndNotInAGap) {
  const auto rates = *MileageRates::make(
      {{day("2027-01-01"), day("2027-12-31"), 800, ""}, {day("2025-01-01"), day("2025-12-31"), 700, ""}});
  const auto cost = [&](std::string_view date) { return rates.cost(Trip{.date = day(date), .miles = {15}}); };
  EXPECT_EQ(cost("2025-01-01"), money("1.05"));
  EXPECT_EQ(cost("2025-12-31"), money("1.05"));
  EXPECT_EQ(cost("2027-01-01"), money("1.20"));
  EXPECT_FALSE(cost("2024-12-31"));
  EXPECT_FALSE(cost("2026-07-01"));
  EXPECT_FALSE(cost("2028-01-01"));
}

TEST(Rates, RoundHalfACentAwayFromZero) {
  const auto rates = *MileageRates::make({{day("2026-01-01"), day("2026-12-31"), 725, ""}});
  EXPECT_EQ(rates.cost(Trip{.date = day("2026-03-01"), .miles = {2}}), money("0.15"));  // 14.5 cents
}

}  // namespace
}  // namespace secondpull
