#include <map>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/core/books/random_shop.h"
#include "tests/core/books/worked_month.h"

namespace secondpull {
namespace {

using test::RandomShop;

std::map<Account, Money> balances(const Books& books) {
  std::map<Account, Money> sums;
  for (const Transaction& transaction : books.transactions())
    for (const Posting& posting : transaction.postings)
      sums[posting.account] += posting.amount;
  return sums;
}

Money balance(const std::map<Account, Money>& sums, AccountKind kind) {
  Money sum;
  for (const auto& [account, amount] : sums)
    if (account.kind == kind) sum += amount;
  return sum;
}

Money sum_of(const std::vector<FigureLine>& lines, std::initializer_list<LineKind> kinds) {
  Money sum;
  for (const FigureLine& line : lines)
    if (std::find(kinds.begin(), kinds.end(), line.kind) != kinds.end()) sum += line.amount;
  return sum;
}

/// Is the machine, or its hulk, here?
bool stands_here(const MachineFigures& figures) {
  return !figures.net_proceeds && figures.stage != Stage::kept;
}

TEST(Balance, EveryTransactionOfTheWorkedMonthSumsToZero) {
  const test::WorkedMonth month{true, true};
  const Books books = month.books();
  for (const Transaction& transaction : books.transactions()) {
    Money sum;
    for (const Posting& posting : transaction.postings)
      sum += posting.amount;
    EXPECT_EQ(sum, Money{}) << transaction.what;
    EXPECT_FALSE(transaction.what.empty());
    EXPECT_GE(transaction.postings.size(), 2u) << transaction.what;
  }
}

TEST(Balance, AnEmptyShopHasEmptyBooks) {
  const Books books = test::ShopBuilder{}.books();
  EXPECT_TRUE(books.transactions().empty());
  EXPECT_TRUE(books.machines().empty());
  EXPECT_TRUE(books.stock().empty());
  EXPECT_EQ(books.machine(MachineId{1}), nullptr);
  EXPECT_TRUE(books.lines(MachineId{1}).empty());
  EXPECT_EQ(books.on_hand(PartId{1}), 0);
  EXPECT_EQ(books.cost_of_next(PartId{1}, 0), Money{});
  EXPECT_EQ(books.cost_of_next(PartId{1}, -1), std::nullopt);
}

TEST(Balance, AmountsTooLargeToAddAreRefusedWithASentence) {
  test::ShopBuilder shop;
  const Money most = Money::from_minor(std::numeric_limits<std::int64_t>::max());
  const AcquisitionId lot =
      shop.add(Acquisition{.date = test::day("2026-03-01"), .price = most, .pickup_cost = most});
  shop.machine("A", lot);
  ASSERT_FALSE(shop.try_books());
  EXPECT_FALSE(shop.try_books().error().sentence.empty());
}

TEST(Balance, MachinesStandInOrderOfTheBytesOfTheirTags) {
  test::ShopBuilder shop;
  for (const char* tag : {"10", "9", "\xC3\xA4", "B", "a"})
    shop.bought(tag, test::day("2026-03-01"), Money{});
  std::string order;
  const Books books = shop.books();
  for (const MachineFigures& figures : books.machines())
    order += shop.shop().find(figures.machine)->tag + " ";
  EXPECT_EQ(order, "10 9 B a \xC3\xA4 ");
}

RC_GTEST_PROP(Balance, EveryTransactionSumsToZeroAndIsInOrderOfDays, ()) {
  const RandomShop shop;
  const Books books = shop.books();
  Date last{};
  for (const Transaction& transaction : books.transactions()) {
    Money sum;
    for (const Posting& posting : transaction.postings) {
      sum += posting.amount;
      RC_ASSERT(!posting.amount.is_zero());
    }
    RC_ASSERT(sum == Money{});
    RC_ASSERT(last <= transaction.date);
    last = transaction.date;
  }
}

RC_GTEST_PROP(Balance, TheAccountOfAMachineHoldsItsBasisWhileItIsHere, ()) {
  const RandomShop shop;
  const Books books = shop.books();
  const auto sums = balances(books);
  for (const MachineFigures& figures : books.machines()) {
    const auto account = sums.find(Account{AccountKind::machines, figures.machine, {}});
    const Money held = account == sums.end() ? Money{} : account->second;
    RC_ASSERT(held == (stands_here(figures) ? figures.cost_basis : Money{}));
  }
}

RC_GTEST_PROP(Balance, TheAccountOfPartsHoldsTheCostOfTheStock, ()) {
  const RandomShop shop;
  const Books books = shop.books();
  Money stock;
  for (const StockReceipt& receipt : books.stock()) {
    stock += receipt.cost;
    RC_ASSERT(receipt.quantity > 0);
    RC_ASSERT(receipt.order.has_value() != receipt.donor.has_value());
  }
  RC_ASSERT(stock == balance(balances(books), AccountKind::parts));
}

RC_GTEST_PROP(Balance, NothingThatCameInIsLost, ()) {
  const RandomShop random;
  const Shop& shop = random.build.shop();
  const Books books = random.books();
  Money came_in;
  for (const Acquisition& in : shop.all<Acquisition>())
    came_in += in.price + in.pickup_cost;
  for (const Order& order : shop.all<Order>())
    came_in += order.freight + order.tax;
  for (const OrderLine& line : shop.all<OrderLine>())
    came_in += line.price * line.quantity;
  for (const Material& material : shop.all<Material>())
    came_in += material.cost;
  for (const Finding& finding : shop.all<Finding>())
    came_in += finding.cost;

  Money held;
  Money withdrawn;
  Money left_with_machines;
  for (const MachineFigures& figures : books.machines()) {
    came_in -= sum_of(books.lines(figures.machine), {LineKind::gift});
    if (figures.stage == Stage::kept)
      withdrawn += figures.cost_basis;
    else if (stands_here(figures))
      held += figures.cost_basis;
    else
      left_with_machines += figures.cost_basis;
  }
  for (const StockReceipt& receipt : books.stock())
    held += receipt.cost;
  const Money goods = balance(balances(books), AccountKind::cost_of_goods);
  RC_ASSERT(came_in == held + withdrawn + goods);
  RC_ASSERT(goods >= left_with_machines);  // parts written off and sold are the rest
}

RC_GTEST_PROP(Balance, LinesAddUpToTheFigures, ()) {
  const RandomShop shop;
  const Books books = shop.books();
  for (const MachineFigures& figures : books.machines()) {
    const auto lines = books.lines(figures.machine);
    Money all;
    for (const FigureLine& line : lines)
      all += line.amount;
    RC_ASSERT(sum_of(lines, {LineKind::acquisition, LineKind::pickup, LineKind::part, LineKind::material,
                             LineKind::outside_work, LineKind::donor_share, LineKind::gift,
                             LineKind::cost_after}) == -figures.cost_basis);
    RC_ASSERT(sum_of(lines, {LineKind::trip, LineKind::overhead}) == -figures.running_costs);
    const Money proceeds = sum_of(lines, {LineKind::price, LineKind::fee, LineKind::delivery,
                                          LineKind::refund, LineKind::allowance, LineKind::scrap});
    RC_ASSERT(all == proceeds - figures.cost_basis - figures.running_costs);
    if (!figures.net_proceeds) continue;
    RC_ASSERT(proceeds == *figures.net_proceeds);
    RC_ASSERT(*figures.gross_profit == proceeds - figures.cost_basis);
    RC_ASSERT(*figures.profit == all);
    RC_ASSERT(figures.pay_per_hour.has_value() == (figures.minutes.count > 0));
  }
}

RC_GTEST_PROP(Balance, NetProceedsAreWhatSalesAndReturnsSay, ()) {
  const RandomShop random;
  const Shop& shop = random.build.shop();
  const Books books = random.books();
  for (const MachineFigures& figures : books.machines()) {
    if (!figures.net_proceeds) continue;
    Money net;
    for (const Sale& sale : shop.all<Sale>())
      if (sale.machine == figures.machine) net += sale.price - sale.fee - sale.delivery;
    for (const Return& back : shop.all<Return>())
      if (back.machine == figures.machine) net -= back.refunded;
    for (const Allowance& allowance : shop.all<Allowance>())
      if (allowance.machine == figures.machine) net -= allowance.amount;
    for (const Disposal& disposal : shop.all<Disposal>())
      if (disposal.machine == figures.machine) net += disposal.proceeds;
    RC_ASSERT(*figures.net_proceeds == net);
  }
}

RC_GTEST_PROP(Balance, RunningCostsAndMinutesAreSharedWithoutRemainder, ()) {
  const RandomShop random;
  const Shop& shop = random.build.shop();
  const Books books = random.books();
  // Overheads stay with the shop in a year without minutes on any machine.
  std::map<std::chrono::year, std::int64_t> logged_in;
  std::int64_t logged = 0;
  for (const Labour& labour : shop.all<Labour>()) {
    logged += labour.minutes.count;
    logged_in[labour.date.year()] += labour.minutes.count;
  }
  Money spent;
  for (const Trip& trip : shop.all<Trip>())
    if (logged_in[trip.date.year()] > 0 || trip.machine || trip.acquisition)
      spent += *RandomShop::rates().cost(trip);
  for (const Expense& expense : shop.all<Expense>())
    if (logged_in[expense.date.year()] > 0) spent += expense.amount;
  for (const MachineFigures& figures : books.machines()) {
    spent -= figures.running_costs;
    logged -= figures.minutes.count;
  }
  RC_ASSERT(spent == Money{});
  RC_ASSERT(logged == 0);
}

RC_GTEST_PROP(Balance, WhatASaleWouldGiveIsWhatItGives, ()) {
  RandomShop random;
  const Books before = random.books();
  std::vector<MachineId> here;
  for (const MachineFigures& figures : before.machines())
    if (is_here(figures.stage)) here.push_back(figures.machine);
  RC_PRE(!here.empty());
  const MachineId machine = *rc::gen::elementOf(here);
  const Money price = Money::from_minor(*rc::gen::inRange(0, 30000));
  const Minutes selling{*rc::gen::inRange(0, 90)};
  const auto told =
      before.if_sold(machine, price, Money::from_minor(50), Money::from_minor(70), random.today, selling);
  RC_ASSERT(told.has_value());

  random.build.sell(machine, random.today, price, Money::from_minor(50), Money::from_minor(70));
  random.build.work(machine, random.today, selling.count, Work::sell);
  const Books books = random.books();
  const MachineFigures& after = *books.machine(machine);
  RC_ASSERT(told->stage == after.stage);
  RC_ASSERT(told->sold == after.sold);
  RC_ASSERT(told->cost_basis == after.cost_basis);
  RC_ASSERT(told->net_proceeds == after.net_proceeds);
  RC_ASSERT(told->running_costs == after.running_costs);
  RC_ASSERT(told->profit == after.profit);
  RC_ASSERT(told->pay_per_hour == after.pay_per_hour);
  RC_ASSERT(told->days_held == after.days_held);
  RC_ASSERT(told->days_for_sale == after.days_for_sale);
}

}  // namespace
}  // namespace secondpull
