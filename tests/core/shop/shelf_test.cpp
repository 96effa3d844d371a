#include "core/shop/shelf.h"

#include <gmock/gmock.h>

#include "core/shop/codes.h"
#include "core/shop/stage.h"
#include "core/shop/stock_days.h"
#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;

std::string field_of(const Result<Change>& made) {
  return made ? "" : made.error().field;
}

NewOrder two_lines(const SmallShop& s) {
  NewOrder order{.date = day("2026-04-01"), .freight = dollars(5)};
  order.supplier.known = s.supplier;
  order.lines.push_back({.part = {.known = s.plug}, .quantity = 2, .price = dollars(3)});
  order.lines.push_back({.part = {.new_name = "Air filter", .new_number = "AF-9"}, .price = dollars(7)});
  return order;
}

TEST(PlaceOrder, AddsNewPartsOnceAndComesInOnTheDayItArrives) {
  SmallShop s;
  NewOrder order = two_lines(s);
  order.lines.push_back({.part = {.new_name = "air FILTER", .new_number = "af-9"}, .price = dollars(8)});
  const auto change = place_order(s.shop, order);
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Ordered 4 parts from Pellundry Spares");
  s.carry_out(change);
  EXPECT_EQ(s.shop.all<Part>().size(), 3u);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
  const OrderId id = std::prev(s.shop.all<Order>().end())->id;
  EXPECT_EQ(in_stock_on(s.shop, s.plug, day("2026-12-31")), 1);
  s.carry_out(receive_order(s.shop, id, day("2026-04-05"), dollars(6), {}));
  EXPECT_EQ(in_stock_on(s.shop, s.plug, day("2026-04-05")), 3);
  EXPECT_EQ(s.shop.find(id)->freight, dollars(6));
  EXPECT_EQ(field_of(receive_order(s.shop, id, day("2026-04-06"), {}, {})), "arrived");
}

TEST(PlaceOrder, RefusesWhatIsNoOrder) {
  const SmallShop s;
  const auto field = [&](auto&& edit) {
    NewOrder order = two_lines(s);
    edit(order);
    return field_of(place_order(s.shop, order));
  };
  EXPECT_EQ(field([](NewOrder& o) { o.lines.clear(); }), "order");
  EXPECT_EQ(field([](NewOrder& o) { o.arrived = day("2026-03-31"); }), "arrived");
  EXPECT_EQ(field([](NewOrder& o) { o.opening = true; }), "arrived");
  EXPECT_EQ(field([](NewOrder& o) { o.lines[0].quantity = 0; }), "quantity");
  EXPECT_EQ(field([](NewOrder& o) { o.lines[0].price = dollars(-1); }), "price");
  EXPECT_EQ(field([](NewOrder& o) { o.lines[0].price = Money::from_minor(kLargestAmount); }), "price");
  EXPECT_EQ(field([](NewOrder& o) { o.lines[1].part = {}; }), "part");
  EXPECT_EQ(field([](NewOrder& o) { o.lines[0].for_machine = MachineId{9999}; }), "for");
  EXPECT_EQ(field([](NewOrder& o) { o.freight = dollars(-1); }), "freight");
  EXPECT_EQ(field_of(receive_order(s.shop, s.under_way, day("2026-03-19"), {}, {})), "arrived");
}

TEST(EditPart, RefusesACodeInUseAndAnEmptyName) {
  SmallShop s;
  Part part = *s.shop.find(s.plug);
  part.name = "plug, long reach";
  EXPECT_TRUE(edit_part(s.shop, part));
  part.code = "blade";
  EXPECT_EQ(field_of(edit_part(s.shop, part)), "part");
  part.code = "plug";
  part.name = " ";
  EXPECT_EQ(field_of(edit_part(s.shop, part)), "name");
  part.name = "plug";
  part.reorder_at = -1;
  EXPECT_EQ(field_of(edit_part(s.shop, part)), "reorder_at");
}

TEST(PartOut, TakesTheDonorOffThePlaceAndItsPartsIntoStock) {
  SmallShop s;
  const auto change = part_out(s.shop, s.m4, day("2026-04-01"),
                               {{.part = {.known = s.blade}, .quantity = 2, .value = dollars(20)},
                                {.part = {.new_name = "Chute"}, .value = dollars(5)}},
                               dollars(3), {}, {}, true);
  ASSERT_TRUE(change) << change.error().sentence;
  EXPECT_EQ(change->title(), "Parted out #4: 3 parts");
  s.carry_out(change);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
  EXPECT_EQ(stage_of(lines_of(s.shop, s.m4)), Stage::parted_out);
  EXPECT_EQ(s.shop.find(s.listing_now)->ended, day("2026-04-01"));
  EXPECT_EQ(in_stock_on(s.shop, s.blade, day("2026-04-01")), 2);
  const auto more = part_out(s.shop, s.m4, day("2026-04-09"),
                             {{.part = {.new_name = "Belt"}, .value = dollars(2)}}, {}, {}, {}, false);
  ASSERT_TRUE(more);
  EXPECT_EQ(more->title(), "Took 1 part more from #4");
  s.carry_out(more);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
}

TEST(PartOut, RefusesAHulkThatIsHereAndGone) {
  const SmallShop s;
  const Date date = day("2026-04-01");
  EXPECT_EQ(field_of(part_out(s.shop, s.m4, date, {}, {}, {}, date, true)), "hulk_gone");
  EXPECT_EQ(field_of(part_out(s.shop, s.m4, date, {}, {}, {}, day("2026-03-31"), false)), "hulk_gone");
  EXPECT_EQ(field_of(part_out(s.shop, s.m4, date, {}, {}, dollars(4), {}, true)), "proceeds");
  EXPECT_EQ(field_of(part_out(s.shop, s.m4, date, {}, dollars(-4), {}, {}, true)), "hulk_value");
  EXPECT_EQ(field_of(part_out(s.shop, s.m1, date, {}, {}, {}, {}, false)), "machine");  // sold
  EXPECT_EQ(field_of(part_out(s.shop, s.m4, date, {{.part = {}, .value = dollars(1)}}, {}, {}, {}, false)),
            "part");
}

TEST(AddExpense, NeedsACategory) {
  const SmallShop s;
  EXPECT_EQ(add_expense(s.shop, day("2026-04-01"), "supplies", dollars(12, 50), "")->title(),
            "Spent $12.50: supplies");
  EXPECT_EQ(field_of(add_expense(s.shop, day("2026-04-01"), " ", dollars(1), "")), "category");
  EXPECT_EQ(field_of(add_expense(s.shop, day("2026-04-01"), "supplies", dollars(-1), "")), "amount");
}

TEST(AddTrip, IsForOneThingAndNotBeforeItCameIn) {
  const SmallShop s;
  const Trip trip{.date = day("2026-04-01"), .miles = {125}, .purpose = "deliver", .machine = s.m1};
  EXPECT_EQ(add_trip(s.shop, trip)->title(), "Drove 12.5 miles: deliver");
  Trip both = trip;
  both.acquisition = s.lot;
  EXPECT_EQ(field_of(add_trip(s.shop, both)), "acquisition");
  Trip early = trip;
  early.date = day("2026-03-01");
  EXPECT_EQ(field_of(add_trip(s.shop, early)), "date");
  Trip nowhere = trip;
  nowhere.miles = {};
  EXPECT_EQ(field_of(add_trip(s.shop, nowhere)), "miles");
}

TEST(Codes, AreTheNextFreeNumberOfTheirTable) {
  SmallShop s;
  EXPECT_EQ(next_acquisition_code(s.shop), "A3");
  EXPECT_EQ(next_order_code(s.shop), "O3");
  EXPECT_EQ(next_fault_code(s.shop), "F2");
  EXPECT_EQ(next_person_code(s.shop), "P4");
  s.add(Machine{.tag = "O40", .acquisition = s.lot});
  EXPECT_EQ(next_order_code(s.shop), "O41");  // a part may come from an order or a donor by that name
}

TEST(Slug, KeepsLettersAndDigits) {
  EXPECT_EQ(slug("Blade, 20 inch"), "blade-20-inch");
  EXPECT_EQ(slug("  Größe 3!"), "größe-3");
  EXPECT_EQ(slug("--"), "part");
}

}  // namespace
}  // namespace secondpull
