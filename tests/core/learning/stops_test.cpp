#include "core/learning/stops.h"

#include <cmath>

#include <gmock/gmock.h>

#include "core/learning/supply.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::learning {
namespace {

using test::BareShop;
using test::cents;
using test::day;
using testing::ElementsAre;
using testing::Pair;

const Currency kDollars{"USD", 2};

TEST(Stops, SellAsIsForTheMeanPriceLessWhatSellingTakes) {
  const diagnosis::Stop stop = sell_as_is({20, 0.5}, 0.1, 0.75, 6, kDollars);
  EXPECT_EQ(stop.id, "sell-as-is");
  EXPECT_EQ(stop.value, std::round(20 * std::exp(0.125) * 0.9 * 100) / 100);
  EXPECT_EQ(stop.hours, 0.75);
  EXPECT_EQ(stop.days, 6);
}

TEST(Stops, PartOutTheMachineForThePartsThatPayTheirMinutes) {
  const std::vector<PartWorth> parts{{.price = 60, .chance = 0.5, .minutes = 60, .spoiled_by = {"rod"}},
                                     {.price = 12, .chance = 1, .minutes = 15, .spoiled_by = {"jet", "rod"}},
                                     {.price = 12, .chance = 0.5, .minutes = 30, .spoiled_by = {"deck"}}};
  const diagnosis::Stop stop = part_out(parts, 4, 20, kDollars);  // the last one: 6 for 10 of work
  EXPECT_EQ(stop.value, 30 + 12 + 4);
  EXPECT_EQ(stop.hours, 1.25);
  EXPECT_THAT(stop.value_by_cause, ElementsAre(Pair("jet", 34), Pair("rod", 4)));
  EXPECT_EQ(part_out(parts, 4, 0, kDollars).value, 30 + 12 + 6 + 4);
}

TEST(Stops, APartTakenUnderSomeCausesAloneAddsToTheValueUnderThose) {
  const std::vector<PartWorth> parts{
      {.price = 60, .chance = 0.5, .minutes = 60, .spoiled_by = {"rod", "crank"}},
      {.price = 20, .chance = 0.5, .minutes = 15, .spoiled_by = {"jet"}, .only_under = {"rod"}},
      {.price = 20, .chance = 0.5, .minutes = 30, .only_under = {"rod"}}};  // 10 for 10 of work: left on
  const diagnosis::Stop stop = part_out(parts, 4, 20, kDollars);
  EXPECT_EQ(stop.value, 34);
  EXPECT_EQ(stop.hours, 1);
  EXPECT_THAT(stop.value_by_cause, ElementsAre(Pair("crank", 4), Pair("rod", 4 + 10 - 5)));
}

TEST(Stops, ScrapItByWeightLessItsShareOfTheHaul) {
  const diagnosis::Stop stop = scrap(65, 0.08, {.cost = 9, .hours = 1.5, .machines = 3}, kDollars);
  EXPECT_DOUBLE_EQ(stop.value, 2.2);
  EXPECT_EQ(stop.hours, 0.5);
  EXPECT_DOUBLE_EQ(scrap(65, 0.08, {.cost = 9}, kDollars).value, -3.8);
}

TEST(Stops, HaveNoMoreDigitsThanTheCurrency) {
  EXPECT_EQ(scrap(65, 0.0812, {}, kDollars).value, 5.28);
  EXPECT_EQ(scrap(65, 8.12, {}, {"JPY", 0}).value, 528);
}

struct Shelf : BareShop {
  PersonId near = add(Person{.code = "P1", .name = "Pellundry Spares"});
  PersonId far = add(Person{.code = "P2", .name = "Odda Venn"});
  PartId plug = add(Part{.code = "plug", .name = "spark plug", .reorder_at = 2});
  PartId tank = add(Part{.code = "tank", .name = "fuel tank"});
  OrderId order(std::string_view placed, std::string_view arrived, PersonId from, std::int64_t freight = 0) {
    return add(
        Order{.date = day(placed), .supplier = from, .arrived = day(arrived), .freight = cents(freight)});
  }
  void line(OrderId order, PartId part, std::int64_t quantity, std::int64_t price) {
    add(OrderLine{.order = order, .part = part, .quantity = quantity, .price = cents(price)});
  }
};

TEST(Supply, OfAPartKeptInStockCostsWhatReplacingItWill) {
  Shelf s;
  EXPECT_EQ(from_shelf(s.shop, s.plug, 1), std::nullopt);
  s.add(PartSale{.part = s.plug, .quantity = 2, .price = cents(1'200)});
  EXPECT_EQ(from_shelf(s.shop, s.plug, 1), (Supply{6, 0}));  // it never was bought
  const OrderId latest = s.order("2026-04-01", "2026-04-03", s.near, 600);
  s.line(latest, s.plug, 3, 400);  // 12 of 24: half of the freight of 6, over three pieces
  s.line(latest, s.tank, 1, 1'200);
  s.line(s.order("2026-03-01", "2026-05-03", s.far), s.plug, 1, 900);  // ordered before, though it came later
  EXPECT_EQ(from_shelf(s.shop, s.plug, 2), (Supply{10, 0}));
}

TEST(Supply, OfAnyOtherPartCostsWhatItWouldFetch) {
  Shelf s;
  s.line(s.order("2026-04-01", "2026-04-03", s.near), s.tank, 1, 2'000);
  EXPECT_EQ(from_shelf(s.shop, s.tank, 1), (Supply{20, 0}));  // none was sold yet
  s.add(PartSale{.part = s.tank, .quantity = 1, .price = cents(1'500), .fee = cents(100)});
  s.add(PartSale{.part = s.tank, .quantity = 2, .price = cents(2'600)});
  EXPECT_EQ(from_shelf(s.shop, s.tank, 1), (Supply{40.0 / 3, 0}));
  EXPECT_EQ(from_shelf(s.shop, PartId{999}, 1), std::nullopt);
}

TEST(Supply, TakesAsLongAsThatSuppliersOrders) {
  Shelf s;
  s.add(Order{.date = day("2026-03-01"), .supplier = s.near, .arrived = day("2026-03-31"), .opening = true});
  EXPECT_EQ(days_to_arrive(s.shop, s.near), std::nullopt);  // in stock when the books began: no order's time
  s.order("2026-04-01", "2026-04-03", s.near);
  s.order("2026-04-01", "2026-04-05", s.near);
  EXPECT_EQ(days_to_arrive(s.shop, s.near), 3);
  EXPECT_EQ(days_to_arrive(s.shop, s.far), 3);
  s.order("2026-04-01", "2026-04-16", s.far);
  EXPECT_EQ(days_to_arrive(s.shop, s.far), 15);
  EXPECT_EQ(days_to_arrive(s.shop, std::nullopt), 7);
}

}  // namespace
}  // namespace secondpull::learning
