#include <gtest/gtest.h>

#include "tests/core/books/shop_builder.h"

namespace secondpull {
namespace {

using test::day;
using test::money;
using test::ShopBuilder;

/// What stands on the accounts of a kind (and name) in the end.
Money balance(const Books& books, AccountKind kind, std::string_view name = {}) {
  Money sum;
  for (const Transaction& transaction : books.transactions())
    for (const Posting& posting : transaction.postings)
      if (posting.account.kind == kind && posting.account.name == name) sum += posting.amount;
  return sum;
}

/// A machine bought for 40.00 on 1 March.
struct OneMachine : ShopBuilder {
  MachineId it = bought("M", day("2026-03-01"), money("40.00"));
  MaterialId spend(std::string_view date, std::string_view cost) {
    return add(Material{.machine = it, .date = day(date), .what = "gasket", .cost = money(cost)});
  }
  MachineFigures figures() const { return *books().machine(it); }
};

TEST(Selling, TakesFeeAndDeliveryOffThePriceAndLeavesTaxOut) {
  OneMachine shop;
  shop.add(Sale{.machine = shop.it,
                .date = day("2026-03-11"),
                .price = money("120.00"),
                .sales_tax = money("7.20"),
                .fee = money("3.00"),
                .delivery = money("5.00"),
                .place = "Wend"});
  EXPECT_EQ(shop.figures().net_proceeds, money("112.00"));
  EXPECT_EQ(shop.figures().gross_profit, money("72.00"));
  EXPECT_EQ(shop.figures().days_held, 10);
  EXPECT_EQ(shop.figures().days_for_sale, std::nullopt);  // it was never listed
  const Books books = shop.books();
  EXPECT_EQ(balance(books, AccountKind::sales_tax, "Wend"), money("-7.20"));
  EXPECT_EQ(balance(books, AccountKind::expense, "commissions and fees"), money("3.00"));
  EXPECT_EQ(balance(books, AccountKind::expense, "delivery"), money("5.00"));
  EXPECT_EQ(balance(books, AccountKind::cash), money("79.20"));
}

TEST(Selling, TellsNothingOfEarningsWhileAReturnedMachineIsHere) {
  OneMachine shop;
  shop.sell(shop.it, day("2026-03-11"), money("120.00"), money("3.00"));
  shop.take_back(shop.it, day("2026-03-15"), money("110.00"));
  const MachineFigures figures = shop.figures();
  EXPECT_EQ(figures.sold, std::nullopt);
  EXPECT_EQ(figures.net_proceeds, std::nullopt);
  EXPECT_EQ(figures.days_held, std::nullopt);
  EXPECT_EQ(figures.cost_basis, money("40.00"));
}

TEST(Selling, AddsUpAllSalesAndReturns) {
  OneMachine shop;
  shop.sell(shop.it, day("2026-03-11"), money("120.00"), money("3.00"));
  shop.take_back(shop.it, day("2026-03-15"), money("110.00"));
  shop.spend("2026-03-16", "8.00");
  shop.add(Listing{.machine = shop.it, .date = day("2026-03-10"), .asking = money("130.00")});
  shop.add(Listing{.machine = shop.it, .date = day("2026-03-17"), .asking = money("100.00")});
  shop.sell(shop.it, day("2026-03-20"), money("95.00"));
  const MachineFigures figures = shop.figures();
  EXPECT_EQ(figures.sold, day("2026-03-20"));
  EXPECT_EQ(figures.net_proceeds, money("102.00"));  // 120 - 3 - 110 + 95
  EXPECT_EQ(figures.cost_basis, money("48.00"));
  EXPECT_EQ(figures.gross_profit, money("54.00"));
  EXPECT_EQ(figures.days_held, 19);
  EXPECT_EQ(figures.days_for_sale, 3);  // since it last came in
}

TEST(Selling, CountsEarlierSalesInWhatAnAskingPriceWouldGive) {
  OneMachine shop;
  shop.sell(shop.it, day("2026-03-11"), money("120.00"), money("3.00"));
  shop.take_back(shop.it, day("2026-03-15"), money("110.00"));
  const auto figures =
      shop.books().if_sold(shop.it, money("95.00"), money("1.00"), money("0.50"), day("2026-03-20"));
  ASSERT_TRUE(figures);
  EXPECT_EQ(figures->net_proceeds, money("100.50"));
}

TEST(Selling, TakesTurnsOnOneDay) {
  OneMachine shop;
  const Date one_day = day("2026-03-11");
  shop.sell(shop.it, one_day, money("120.00"));
  shop.take_back(shop.it, one_day, money("120.00"));
  shop.sell(shop.it, one_day, money("90.00"));
  EXPECT_EQ(shop.figures().net_proceeds, money("90.00"));
  EXPECT_EQ(shop.figures().sold, one_day);
  shop.take_back(shop.it, one_day, money("90.00"));
  shop.add(Disposal{.machine = shop.it, .date = one_day, .proceeds = money("2.00")});
  EXPECT_EQ(shop.figures().net_proceeds, money("2.00"));
  EXPECT_EQ(shop.figures().stage, Stage::scrapped);
}

TEST(Selling, CountsWhatIsSpentAfterASaleAndTakesItBackWithTheMachine) {
  OneMachine shop;
  shop.sell(shop.it, day("2026-03-11"), money("120.00"));
  shop.spend("2026-03-13", "6.00");
  EXPECT_EQ(shop.figures().gross_profit, money("74.00"));
  EXPECT_EQ(balance(shop.books(), AccountKind::cost_of_goods), money("46.00"));
  EXPECT_EQ(shop.books().lines(shop.it).back().kind, LineKind::cost_after);
  shop.take_back(shop.it, day("2026-03-15"), money("120.00"));
  EXPECT_EQ(balance(shop.books(), AccountKind::cost_of_goods), money("0.00"));
  EXPECT_EQ(balance(shop.books(), AccountKind::machines), money("46.00"));
}

TEST(Selling, LowersNetProceedsByAnAllowance) {
  OneMachine shop;
  shop.sell(shop.it, day("2026-03-11"), money("120.00"));
  shop.add(Allowance{.machine = shop.it, .date = day("2026-03-11"), .amount = money("15.00")});
  EXPECT_EQ(shop.figures().net_proceeds, money("105.00"));
}

TEST(Selling, GivesAllowancesOnlyOnWhatIsSold) {
  OneMachine shop;
  shop.add(Allowance{.machine = shop.it, .date = day("2026-03-11"), .amount = money("15.00")});
  ASSERT_FALSE(shop.try_books());
  EXPECT_EQ(shop.try_books().error().field, "date");
}

struct TaxedSale : OneMachine {
  SaleId sale = add(Sale{.machine = it,
                         .date = day("2026-03-11"),
                         .price = money("120.00"),
                         .sales_tax = money("7.30"),
                         .place = "Wend"});
  Money owed() const { return -balance(books(), AccountKind::sales_tax, "Wend"); }
};

TEST(SalesTax, GoesBackInProportionToTheRefund) {
  TaxedSale shop;
  shop.take_back(shop.it, day("2026-03-15"), money("50.00"));
  EXPECT_EQ(shop.owed(), money("4.26"));  // 7.30 x 50 / 120 = 3.0417, so 3.04 goes back
}

TEST(SalesTax, GoesBackAtMostAsFarAsAllowancesLeftIt) {
  TaxedSale shop;
  shop.add(Allowance{
      .machine = shop.it, .date = day("2026-03-12"), .amount = money("80.00"), .sales_tax = money("4.87")});
  shop.take_back(shop.it, day("2026-03-15"), money("50.00"));
  EXPECT_EQ(shop.owed(), money("0.00"));
}

TEST(SalesTax, DoesNotGoBackOnASaleForNothing) {
  TaxedSale shop;
  Sale sale = *shop.shop().find(shop.sale);
  sale.price = Money{};
  shop.shop().all<Sale>().replace(sale);
  shop.take_back(shop.it, day("2026-03-15"), money("5.00"));
  EXPECT_EQ(shop.owed(), money("7.30"));
}

TEST(SalesTax, HandedOnIsNoLongerOwedAndNoExpense) {
  TaxedSale shop;
  shop.add(TaxPaid{.date = day("2026-04-15"), .place = "Wend", .amount = money("7.00")});
  EXPECT_EQ(shop.owed(), money("0.30"));
  EXPECT_EQ(shop.figures().running_costs, money("0.00"));
}

TEST(Leaving, ScrappedEarnsTheScrapMoneyLessTheBasis) {
  OneMachine shop;
  shop.add(Disposal{.machine = shop.it, .date = day("2026-03-11"), .proceeds = money("9.00")});
  EXPECT_EQ(shop.figures().net_proceeds, money("9.00"));
  EXPECT_EQ(shop.figures().gross_profit, money("-31.00"));
  EXPECT_EQ(shop.figures().sold, std::nullopt);
  EXPECT_EQ(shop.figures().days_held, 10);
}

TEST(Leaving, KeptIsWithdrawnWithWhatIsSpentOnItLater) {
  OneMachine shop;
  shop.add(Disposal{.machine = shop.it, .date = day("2026-03-11"), .how = DisposalKind::kept});
  shop.spend("2026-03-20", "6.00");
  const MachineFigures figures = shop.figures();
  EXPECT_EQ(figures.stage, Stage::kept);
  EXPECT_EQ(figures.cost_basis, money("46.00"));
  EXPECT_EQ(figures.net_proceeds, std::nullopt);
  EXPECT_EQ(figures.profit, std::nullopt);
  EXPECT_EQ(figures.days_held, 10);
  EXPECT_EQ(balance(shop.books(), AccountKind::owner), money("46.00"));
  EXPECT_EQ(balance(shop.books(), AccountKind::cost_of_goods), money("0.00"));
}

TEST(Leaving, OutOfTurnIsRefusedWithItsDay) {
  OneMachine twice;
  twice.sell(twice.it, day("2026-03-11"), money("1.00"));
  twice.sell(twice.it, day("2026-03-12"), money("1.00"));
  ASSERT_FALSE(twice.try_books());
  EXPECT_EQ(twice.try_books().error().field, "date");
  EXPECT_EQ(twice.try_books().error().value, "2026-03-12");

  OneMachine never_sold;
  never_sold.take_back(never_sold.it, day("2026-03-12"), money("1.00"));
  EXPECT_FALSE(never_sold.try_books());

  OneMachine scrapped;
  scrapped.add(Disposal{.machine = scrapped.it, .date = day("2026-03-11")});
  scrapped.take_back(scrapped.it, day("2026-03-12"), money("1.00"));
  EXPECT_FALSE(scrapped.try_books());

  OneMachine too_early;
  too_early.sell(too_early.it, day("2026-02-28"), money("1.00"));
  EXPECT_FALSE(too_early.try_books());
}

TEST(Leaving, ACorrectedEventChangesWhatFollowsFromIt) {
  OneMachine shop;
  const PartId cable = shop.part("cable");
  const OrderId dear = shop.bought_parts(cable, day("2026-03-02"), 1, money("12.00"));
  shop.bought_parts(cable, day("2026-03-03"), 1, money("7.00"));
  shop.fit(shop.it, day("2026-03-05"), cable);
  shop.sell(shop.it, day("2026-03-11"), money("120.00"));
  EXPECT_EQ(shop.figures().gross_profit, money("68.00"));
  // The first order came later than was written down: the cable fitted was the other one.
  Order order = *shop.shop().find(dear);
  order.arrived = day("2026-03-10");
  shop.shop().all<Order>().replace(order);
  EXPECT_EQ(shop.figures().gross_profit, money("73.00"));
  EXPECT_EQ(shop.books().cost_of_next(cable, 1), money("12.00"));
}

}  // namespace
}  // namespace secondpull
