#include "app/shelf/stock_rows.h"

#include <gmock/gmock.h>

#include "app/shelf/parting.h"
#include "tests/app/bench/test_shop.h"

namespace secondpull::app {
namespace {

using testing::ElementsAre;

/// The order of the worked month: a carburettor 15.99, a plug 3.49, freight 5.95.
OrderId workedMonthsOrder(TestShop& test, std::optional<MachineId> machine) {
  NewOrder order;
  order.date = day(2026, 5, 4);
  order.supplier.new_name = "Aldric Parts";
  order.freight = cents(5'95);
  order.lines = {{test.choose("carburettor"), 1, cents(15'99), machine},
                 {test.choose("plug"), 1, cents(3'49), {}}};
  test.perform(place_order(*test.shop(), order));
  return std::prev(test.shop()->all<Order>().end())->id;
}

// The shares are those of the worked month in the money model: 4.88 and 1.07, landed 20.87 and 4.56.
TEST(LandedLines, ShareFreightByTheValueOfTheLines) {
  TestShop test;
  const auto lines = landedLines(*test.shop(), workedMonthsOrder(test, {}));
  ASSERT_EQ(lines.size(), 2u);
  EXPECT_EQ(lines[0].extra, cents(4'88));
  EXPECT_EQ(lines[1].extra, cents(1'07));
  EXPECT_EQ(lines[0].landed, cents(20'87));
  EXPECT_EQ(lines[1].landed, cents(4'56));
}

TEST(StockRows, SayForWhichMachineAPartIsOnOrder) {
  TestShop test;
  const MachineId machine = test.logMachine(day(2026, 5, 1), cents(0));
  workedMonthsOrder(test, machine);
  const auto rows = stockRows(*test.books());
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_EQ(rows[0].name, "carburettor");
  EXPECT_EQ(rows[0].on_hand, 0);
  EXPECT_EQ(rows[0].on_order, 1);
  EXPECT_EQ(rows[0].ordered_for, QString("1 for #%1").arg(test.session().tagOf(machine)));
  EXPECT_EQ(rows[1].ordered_for, "");
}

TEST(StockRows, RunLowAtTheOwnersNumberUnlessEnoughIsOnTheWay) {
  TestShop test;
  const PartId part = test.buy("plug", 2, cents(3'49), day(2026, 5, 1));
  Part changed = *test.shop()->find(part);
  changed.reorder_at = 2;
  test.perform(edit_part(*test.shop(), changed));
  EXPECT_TRUE(stockRows(*test.books())[0].low);
  EXPECT_EQ(stockRows(*test.books())[0].says, "runs low: 2 left, order at 2");
  NewOrder order;
  order.date = day(2026, 5, 6);
  order.lines = {{test.choose("plug"), 4, cents(3'49), {}}};
  test.perform(place_order(*test.shop(), order));
  EXPECT_FALSE(stockRows(*test.books())[0].low);
}

TEST(OrderRows, WhatIsUnderWayComesFirst) {
  TestShop test;
  test.buy("belt", 1, cents(12'00), day(2026, 5, 6));
  const OrderId order = workedMonthsOrder(test, {});
  const auto rows = orderRows(*test.shop());
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_EQ(rows[0].order, order);
  EXPECT_EQ(rows[0].landed, cents(25'43));
  EXPECT_TRUE(rows[0].under_way());
  EXPECT_FALSE(rows[1].under_way());
}

TEST(CanGoOn, IsTheMachineThatWaitsForNoOtherOrder) {
  TestShop test;
  const MachineId one = test.logMachine(day(2026, 5, 1), cents(0));
  const MachineId two = test.logMachine(day(2026, 5, 1), cents(0));
  NewOrder first, second;
  first.date = second.date = day(2026, 5, 6);
  first.lines = {{test.choose("belt"), 1, cents(12'00), one}, {test.choose("belt"), 1, cents(12'00), two}};
  test.perform(place_order(*test.shop(), first));
  const OrderId order = std::prev(test.shop()->all<Order>().end())->id;
  second.lines = {{test.choose("wheel"), 1, cents(5'00), two}};
  test.perform(place_order(*test.shop(), second));
  EXPECT_THAT(canGoOnWith(*test.shop(), order), ElementsAre(one));
}

// Values and shares of the worked month in the money model: 10.00 over 15:10:5 is 5.00, 3.33 and 1.67.
TEST(PartingSplit, AddsUpToWhatTheDonorHasCostAndIsWhatTheBooksMakeOfIt) {
  TestShop test;
  const MachineId donor = test.logMachine(day(2026, 5, 1), cents(10'00));
  const auto parting = partingSplit(*test.books(), donor, {cents(15'00), cents(10'00)}, cents(5'00), Money{});
  ASSERT_TRUE(parting.has_value());
  EXPECT_THAT(parting->lines, ElementsAre(cents(5'00), cents(3'33)));
  EXPECT_EQ(parting->hulk, cents(1'67));
  EXPECT_EQ(parting->lines[0] + parting->lines[1] + parting->hulk, parting->basis);

  test.perform(
      part_out(*test.shop(), donor, day(2026, 5, 20),
               {{test.choose("blade"), 1, cents(15'00)}, {test.choose("wheel set"), 1, cents(10'00)}},
               cents(5'00), Money{}, std::nullopt, true));
  EXPECT_EQ(test.books()->cost_of_next(*test.find("blade"), 1), parting->lines[0]);
  EXPECT_EQ(test.books()->cost_of_next(*test.find("wheel set"), 1), parting->lines[1]);
  EXPECT_EQ(test.books()->machine(donor)->cost_basis, parting->hulk);
  EXPECT_FALSE(partingSplit(*test.books(), donor, {}, {}, Money{}).has_value());
}

}  // namespace
}  // namespace secondpull::app
