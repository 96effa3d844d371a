#include "core/learning/repair_parts.h"

#include <gmock/gmock.h>

#include "tests/core/learning/small_knowledge.h"

namespace secondpull::learning {
namespace {

using test::BareShop;
using test::cents;
using test::day;

/// A trade of which two repairs name their part: a plug bought over the counter, a carburettor sent for.
Knowledge with_parts() {
  Knowledge k = test::small_knowledge();
  for (Repair& repair : k.repairs) {
    if (repair.id == "new-plug") repair.parts_named = {"spark plug"};
    if (repair.id == "new-plug") repair.days = 0;
    if (repair.id == "clean") repair.parts_named = {"carburetor", "carburettor"};
    if (repair.id == "clean") repair.days = 4;
  }
  return k;
}

struct Shelf : BareShop {
  Knowledge knowledge = with_parts();
  PersonId supplier = add(Person{.code = "P1", .name = "Pellundry Spares"});
  MachineId mower = add(Machine{.tag = "11", .acquisition = curb, .make = "Brindle", .model = "B2"});
  MachineId twin = add(Machine{.tag = "12", .acquisition = curb, .make = "Brindle", .model = "B2"});
  MachineId other = add(Machine{.tag = "13", .acquisition = curb, .make = "Orrin", .model = "X"});
  PartId plug = add(Part{.code = "plug", .name = "Spark plug"});
  PartId carb = add(Part{.code = "carb", .name = "carburettor, side float"});

  /// Two pieces.
  OrderId order(PartId part, std::string_view placed, std::string_view arrived, std::int64_t price,
                std::optional<MachineId> for_machine = {}) {
    Order record{.date = day(placed), .supplier = supplier};
    if (!arrived.empty()) record.arrived = day(arrived);
    const OrderId id = add(record);
    add(OrderLine{
        .order = id, .part = part, .quantity = 2, .price = cents(price), .for_machine = for_machine});
    return id;
  }
  RepairPart of(const std::string& repair, MachineId machine) const {
    const ByMachine by_machine{shop};
    const Date today = day("2026-04-01");
    for (const RepairPart& part :
         repair_parts(parts_at_hand(shop, by_machine, knowledge, today), by_machine.of(machine), knowledge,
                      shop.settings.currency, today))
      if (part.repair == repair) return part;
    ADD_FAILURE() << repair;
    return {};
  }
};

TEST(RepairParts, AreToBeOrderedAtTheUsualCostWhereTheRecordSaysNothing) {
  Shelf s;
  EXPECT_EQ(s.of("clean", s.mower), (RepairPart{"clean", ComesFrom::to_order, std::nullopt, {9, 4}}));
  EXPECT_EQ(s.of("new-plug", s.mower), (RepairPart{"new-plug", ComesFrom::to_order, s.plug, {4, 0}}));
}

TEST(RepairParts, InStockCostWhatUsingThemUpGivesAwayAndNoDays) {
  Shelf s;
  s.order(s.plug, "2026-03-02", "2026-03-12", 300);
  EXPECT_EQ(s.of("new-plug", s.other), (RepairPart{"new-plug", ComesFrom::shelf, s.plug, {3, 0}}));
  s.add(Fitted{.machine = s.twin, .date = day("2026-03-13"), .part = s.plug, .quantity = 2});
  EXPECT_EQ(s.of("new-plug", s.other).from, ComesFrom::to_order);
}

TEST(RepairParts, WithMoreToTheirNameMustBeKnownToFit) {
  Shelf s;
  s.order(s.carb, "2026-03-02", "2026-03-12", 1'500);
  EXPECT_EQ(s.of("clean", s.mower).part, std::nullopt);
  s.add(Fitted{.machine = s.twin, .date = day("2026-03-13"), .part = s.carb});
  EXPECT_EQ(s.of("clean", s.mower), (RepairPart{"clean", ComesFrom::shelf, s.carb, {15, 0}}));
  EXPECT_EQ(s.of("clean", s.other).part, std::nullopt);
}

TEST(RepairParts, OrderedForAMachineFitIt) {
  Shelf s;
  s.order(s.carb, "2026-03-02", "2026-03-12", 1'500, s.other);
  EXPECT_EQ(s.of("clean", s.other).from, ComesFrom::shelf);
  EXPECT_EQ(s.of("clean", s.mower).part, std::nullopt);
}

TEST(RepairParts, OfAnotherSortAreNotTakenForIt) {
  Shelf s;
  const PartId cable = s.add(Part{.code = "pc", .name = "spark plug wire"});
  s.order(cable, "2026-03-02", "2026-03-12", 300);
  EXPECT_EQ(s.of("new-plug", s.mower).from, ComesFrom::to_order);
}

TEST(RepairParts, OnOrderTakeTheDaysThatAreLeft) {
  Shelf s;
  s.order(s.carb, "2026-03-30", "", 1'500, s.mower);
  // Four days as the knowledge base has it, two of them gone.
  EXPECT_EQ(s.of("clean", s.mower), (RepairPart{"clean", ComesFrom::ordered, s.carb, {15, 2}}));
  EXPECT_EQ(s.of("clean", s.twin).from, ComesFrom::to_order);  // it is for the other one
  s.order(s.plug, "2026-03-01", "2026-03-11", 300);            // that supplier takes ten days
  EXPECT_EQ(s.of("clean", s.mower).supply.days, 8);
  s.order(s.carb, "2026-03-01", "", 1'500);  // overdue
  EXPECT_EQ(s.of("clean", s.mower).supply.days, 0);
  EXPECT_EQ(s.of("clean", s.twin), (RepairPart{"clean", ComesFrom::ordered, s.carb, {15, 0}}));
}

TEST(RepairParts, OnOrderWithADayThatIsKnownArriveThen) {
  Shelf s;
  s.order(s.carb, "2026-03-30", "2026-04-07", 1'500, s.mower);
  EXPECT_EQ(s.of("clean", s.mower), (RepairPart{"clean", ComesFrom::ordered, s.carb, {15, 6}}));
}

TEST(RepairParts, OnceBoughtCostWhatTheyDidLastAndTakeAsLong) {
  Shelf s;
  s.order(s.carb, "2026-03-02", "2026-03-12", 2'100, s.mower);
  s.add(Fitted{.machine = s.mower, .date = day("2026-03-13"), .part = s.carb, .quantity = 2});
  EXPECT_EQ(s.of("clean", s.mower), (RepairPart{"clean", ComesFrom::to_order, s.carb, {21, 10}}));
  // Nobody sends for a plug, however long orders take.
  EXPECT_EQ(s.of("new-plug", s.mower).supply, (Supply{4, 0}));
}

TEST(RepairParts, AreThoseOfTheMachinesKind) {
  Shelf s;
  s.knowledge.repairs[0].kinds = {MachineKind::zero_turn};
  const ByMachine by_machine{s.shop};
  const auto parts = repair_parts({}, by_machine.of(s.mower), s.knowledge, {"USD", 2}, day("2026-04-01"));
  ASSERT_EQ(parts.size(), 1U);
  EXPECT_EQ(parts[0].repair, "new-plug");
}

}  // namespace
}  // namespace secondpull::learning
