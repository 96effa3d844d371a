#include "core/books/year_sums.h"

#include <climits>

#include <gtest/gtest.h>

#include "core/books/unfinished.h"
#include "tests/core/books/shop_builder.h"

namespace secondpull {
namespace {

using test::day;
using test::money;
using test::ShopBuilder;

std::vector<Unfinished> kinds(const std::vector<UnfinishedItem>& items) {
  std::vector<Unfinished> all;
  for (const UnfinishedItem& item : items)
    all.push_back(item.what);
  return all;
}

MileageRates rates_of_2026() {
  return *MileageRates::make({{day("2026-01-01"), day("2026-12-31"), 725, "test"}});
}

TEST(ExpensesOf, HoldTheYearByDayAndAddUp) {
  ShopBuilder s;
  s.add(Expense{.date = day("2026-05-01"), .category = "tools", .amount = money("12.50")});
  s.add(Expense{.date = day("2026-02-01"), .category = "office", .amount = money("3.00")});
  s.add(Expense{.date = day("2025-12-31"), .category = "tools", .amount = money("99.00")});
  const ExpensesOfYear year = expenses_of(s.shop(), 2026);
  ASSERT_EQ(year.expenses.size(), 2u);
  EXPECT_EQ(year.expenses[0].category, "office");
  EXPECT_EQ(year.total, money("15.50"));
}

TEST(Together, AddsMonthsAndDividesOnce) {
  const MonthFigures months[] = {
      {.month = 1, .receipts = money("10.00"), .net_profit = money("5.00"), .minutes = {20}},
      {.month = 2, .receipts = money("2.00"), .net_profit = money("-1.00"), .minutes = {40}}};
  const MonthFigures sum = together(months);
  EXPECT_EQ(sum.receipts, money("12.00"));
  EXPECT_EQ(sum.net_profit, money("4.00"));
  EXPECT_EQ(sum.pay_per_hour, money("4.00"));
  EXPECT_EQ(together(std::span<const MonthFigures>{}).pay_per_hour, std::nullopt);
}

TEST(ByAge, EveryClassIsThereAndEverythingIsInOne) {
  std::vector<TiedUp> all;
  for (const int days : {-1, 0, 30, 31, 90, 91, 365, 366, 5000})
    all.push_back({.machine = MachineId{1}, .amount = money("1.00"), .days = days});
  const auto classes = by_age(all);
  ASSERT_EQ(classes.size(), 5u);
  EXPECT_EQ(classes[0].count, 3u);
  EXPECT_EQ(classes[1].count, 2u);
  EXPECT_EQ(classes[2].count, 1u);
  EXPECT_EQ(classes[3].count, 1u);
  EXPECT_EQ(classes[4].count, 2u);
  EXPECT_EQ(classes[4].to_days, INT_MAX);
  EXPECT_EQ(together(all).total(), money("9.00"));
}

TEST(Unfinished, ASoundYearThatIsOverHasNothing) {
  ShopBuilder s;
  s.bought("1", day("2026-03-02"), money("40.00"));
  const auto books = Books::of(std::make_shared<const Shop>(s.shop()), rates_of_2026());
  ASSERT_TRUE(books);
  EXPECT_TRUE(unfinished(*books, rates_of_2026(), 2026, day("2026-12-31")).empty());
  const auto early = unfinished(*books, rates_of_2026(), 2026, day("2026-12-30"));
  ASSERT_EQ(kinds(early), std::vector{Unfinished::year_not_over});
  EXPECT_TRUE(early[0].blocks);
}

TEST(Unfinished, NamesWhatIsWorthALookWithItsRecords) {
  ShopBuilder s;
  const MachineId machine = s.bought("1", day("2026-03-02"), money("40.00"));
  const TripId bare = s.add(Trip{.date = day("2026-04-01"), .miles = {100}, .purpose = "fetch"});
  s.add(Trip{.date = day("2026-04-02"), .miles = {100}, .purpose = "fetch", .destination = "Tolver yard"});
  const SaleId sale = s.add(Sale{.machine = machine,
                                 .date = day("2026-05-02"),
                                 .price = money("90.00"),
                                 .sales_tax = money("5.40"),
                                 .place = "Corrow"});
  const PartId part = s.part("plug");
  const OrderId order = s.add(Order{.code = "O9", .date = day("2026-12-20"), .arrived = day("2027-01-03")});
  s.add(OrderLine{.order = order, .part = part, .quantity = 1, .price = money("3.00")});
  const auto books = Books::of(std::make_shared<const Shop>(s.shop()), rates_of_2026());
  ASSERT_TRUE(books) << books.error().sentence;
  const auto items = unfinished(*books, rates_of_2026(), 2026, day("2027-02-01"));
  ASSERT_EQ(kinds(items), (std::vector{Unfinished::trips_lacking, Unfinished::sales_unpaid_word,
                                       Unfinished::orders_under_way, Unfinished::tax_owed}));
  EXPECT_EQ(items[0].records, std::vector<AnyId>{bare});
  EXPECT_EQ(items[1].records, std::vector<AnyId>{sale});
  EXPECT_EQ(items[2].records, std::vector<AnyId>{order});
  EXPECT_NE(items[3].sentence.find("$5.40"), std::string::npos);
  for (const UnfinishedItem& item : items)
    EXPECT_FALSE(item.blocks);
}

TEST(Unfinished, ATripWithoutARateBlocks) {
  ShopBuilder s;
  const TripId trip = s.add(
      Trip{.date = day("2027-04-01"), .miles = {100}, .purpose = "fetch", .destination = "Tolver yard"});
  const auto books = Books::without_unrated_trips(std::make_shared<const Shop>(s.shop()), rates_of_2026());
  ASSERT_TRUE(books);
  const auto items = unfinished(*books, rates_of_2026(), 2027, day("2028-02-01"));
  ASSERT_EQ(kinds(items), std::vector{Unfinished::trips_no_rate});
  EXPECT_TRUE(items[0].blocks);
  EXPECT_EQ(items[0].records, std::vector<AnyId>{trip});
}

}  // namespace
}  // namespace secondpull
