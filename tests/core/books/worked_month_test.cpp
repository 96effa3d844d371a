#include "tests/core/books/worked_month.h"

#include <gtest/gtest.h>

namespace secondpull {
namespace {

using test::day;
using test::money;
using test::WorkedMonth;

// All figures: the worked month of the money model, worked by hand there.

TEST(WorkedMonth, SplitsTheLotByTheValuesGiven) {
  const WorkedMonth month{false, false};
  const Books books = month.books();
  EXPECT_EQ(books.machine(month.m2)->cost_basis, money("30.00"));
  EXPECT_EQ(books.machine(month.m3)->cost_basis, money("10.00"));
}

TEST(WorkedMonth, TellsWhatTheFirstMachineEarnedWithoutDonorAndTrip) {
  const WorkedMonth month{false, false};
  const Books books = month.books();
  const MachineFigures& figures = *books.machine(month.m1);
  EXPECT_EQ(figures.stage, Stage::sold);
  EXPECT_EQ(figures.acquired, day("2026-03-02"));
  EXPECT_EQ(figures.sold, day("2026-03-21"));
  EXPECT_EQ(figures.cost_basis, money("85.43"));  // 60.00 + 20.87 + 4.56
  EXPECT_EQ(figures.net_proceeds, money("180.37"));
  EXPECT_EQ(figures.gross_profit, money("94.94"));
  EXPECT_EQ(figures.running_costs, money("0.00"));
  EXPECT_EQ(figures.profit, money("94.94"));
  EXPECT_EQ(figures.minutes, Minutes{200});
  EXPECT_EQ(figures.pay_per_hour, money("28.48"));  // 94.94 x 60 / 200 = 28.482
  EXPECT_EQ(figures.days_held, 19);
  EXPECT_EQ(figures.days_for_sale, 7);
}

TEST(WorkedMonth, AddsTheDonorsBladeAndWithoutTripsPays26_98AnHour) {
  const WorkedMonth month{true, false};
  const Books books = month.books();
  const MachineFigures& figures = *books.machine(month.m1);
  EXPECT_EQ(figures.cost_basis, money("90.43"));
  EXPECT_EQ(figures.gross_profit, money("89.94"));
  EXPECT_EQ(figures.pay_per_hour, money("26.98"));
}

TEST(WorkedMonth, SharesThePickupTripAndPays23_33AnHour) {
  const WorkedMonth month{true, true};
  const Books books = month.books();
  const MachineFigures& first = *books.machine(month.m1);
  EXPECT_EQ(first.running_costs, money("12.18"));
  EXPECT_EQ(first.profit, money("77.76"));
  EXPECT_EQ(first.pay_per_hour, money("23.33"));
  EXPECT_EQ(books.machine(month.m2)->running_costs, money("6.09"));
}

TEST(WorkedMonth, KeepsTheHulkUntilItGoes) {
  const WorkedMonth month{true, true};
  const Books books = month.books();
  const MachineFigures& hulk = *books.machine(month.m3);
  EXPECT_EQ(hulk.stage, Stage::parted_out);
  EXPECT_EQ(hulk.sold, std::nullopt);
  EXPECT_EQ(hulk.cost_basis, money("1.67"));
  EXPECT_EQ(hulk.net_proceeds, money("4.20"));
  EXPECT_EQ(hulk.gross_profit, money("2.53"));
  EXPECT_EQ(hulk.running_costs, money("2.03"));
  EXPECT_EQ(hulk.profit, money("0.50"));
  EXPECT_EQ(hulk.pay_per_hour, std::nullopt);
  EXPECT_EQ(hulk.days_held, 26);
}

TEST(WorkedMonth, TellsNothingAboutEarningsOfTheMachineStillHere) {
  const WorkedMonth month{true, true};
  const Books books = month.books();
  const MachineFigures& here = *books.machine(month.m2);
  EXPECT_EQ(here.stage, Stage::in_the_yard);
  EXPECT_EQ(here.sold, std::nullopt);
  EXPECT_EQ(here.net_proceeds, std::nullopt);
  EXPECT_EQ(here.gross_profit, std::nullopt);
  EXPECT_EQ(here.profit, std::nullopt);
  EXPECT_EQ(here.pay_per_hour, std::nullopt);
  EXPECT_EQ(here.days_held, std::nullopt);
  EXPECT_EQ(here.minutes, Minutes{0});
}

TEST(WorkedMonth, LeavesTheWheelsInStockAtTheirShareOfTheDonor) {
  const WorkedMonth month{true, true};
  const Books books = month.books();
  ASSERT_EQ(books.stock().size(), 1u);
  EXPECT_EQ(books.stock()[0].part, month.wheels);
  EXPECT_EQ(books.stock()[0].donor, month.m3);
  EXPECT_EQ(books.stock()[0].cost, money("3.33"));
  EXPECT_EQ(books.on_hand(month.wheels), 1);
  EXPECT_EQ(books.cost_of_next(month.wheels, 1), money("3.33"));
  EXPECT_EQ(books.cost_of_next(month.wheels, 2), std::nullopt);
}

TEST(WorkedMonth, ExplainsTheFirstMachineLineByLine) {
  const WorkedMonth month{true, true};
  const std::vector<FigureLine> lines = month.books().lines(month.m1);
  const std::vector<std::pair<std::string, Money>> expected{{"share of lot L1", money("-60.00")},
                                                            {"fetch the lot, 28.0 miles", money("-12.18")},
                                                            {"carburettor x 1", money("-20.87")},
                                                            {"plug x 1", money("-4.56")},
                                                            {"blade x 1", money("-5.00")},
                                                            {"price", money("185.00")},
                                                            {"fee", money("-4.63")}};
  ASSERT_EQ(lines.size(), expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    EXPECT_EQ(lines[i].what, expected[i].first);
    EXPECT_EQ(lines[i].amount, expected[i].second);
  }
}

TEST(WorkedMonth, SaysWhatTheSaleWouldGiveBeforeItIsEntered) {
  WorkedMonth sold{true, true};
  const MachineFigures after = *sold.books().machine(sold.m1);
  // The same shop, before the sale and the half hour of selling.
  Shop& shop = sold.build.shop();
  shop.all<Sale>().erase(shop.all<Sale>().begin()->id);
  for (const Labour& labour : Table<Labour>{shop.all<Labour>()})
    if (labour.work == Work::sell) shop.all<Labour>().erase(labour.id);
  const Books books = sold.books();
  EXPECT_EQ(books.machine(sold.m1)->profit, std::nullopt);
  const auto before =
      books.if_sold(sold.m1, money("185.00"), money("4.63"), Money{}, day("2026-03-21"), Minutes{30});
  ASSERT_TRUE(before);
  EXPECT_EQ(before->profit, after.profit);
  EXPECT_EQ(before->pay_per_hour, after.pay_per_hour);
  EXPECT_EQ(before->days_held, after.days_held);
  EXPECT_EQ(before->days_for_sale, after.days_for_sale);
  EXPECT_EQ(books.if_sold(sold.m3, money("10.00"), {}, {}, day("2026-03-21")), std::nullopt);
}

}  // namespace
}  // namespace secondpull
