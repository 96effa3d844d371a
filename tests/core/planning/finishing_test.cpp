#include "core/planning/finishing.h"

#include <gmock/gmock.h>

#include "core/shop/steps.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::planning {
namespace {

using test::BareShop;
using test::day;

learning::KnowledgeBase base_with_checks() {
  learning::KnowledgeBase base;
  base.knowledge = test::small_knowledge();
  base.checks = {
      {.id = "stop", .name = "Blade stops within 3 s", .kinds = {MachineKind::push}, .must = true},
      {.id = "brake", .name = "Parking brake holds", .kinds = {MachineKind::lawn_tractor}, .must = true},
      {.id = "clean", .name = "Deck is clean"}};
  return base;
}

TEST(Finishing, ListsTheTestRunAndTheLooksForThatKindOfMachine) {
  BareShop bare;
  const MachineId machine = bare.machine();
  const auto items = finishing(lines_of(bare.shop, machine), base_with_checks());
  ASSERT_EQ(items.size(), 3U);
  EXPECT_EQ(items[0].what, FinishItem::What::test_run);
  EXPECT_EQ(items[1].step, "Safety check: Blade stops within 3 s");
  EXPECT_TRUE(items[1].must);
  EXPECT_EQ(items[2].step, "Look before the sale: Deck is clean");
  EXPECT_EQ(items[1].outcome, "");
}

TEST(Finishing, ShowsWhatCameOfEachLast) {
  BareShop bare;
  const MachineId machine = bare.machine();
  bare.finding(machine, "2026-03-04", "Safety check: Blade stops within 3 s", "failed");
  bare.finding(machine, "2026-03-05", "Safety check: Blade stops within 3 s", "passed");
  EXPECT_EQ(finishing(lines_of(bare.shop, machine), base_with_checks())[1].outcome, "passed");
}

TEST(Finishing, ATestRunBeforeTheLastRepairCountsNoMore) {
  BareShop bare;
  const MachineId machine = bare.machine();
  const FaultId fault = bare.fault(machine, "Surges", "jet", "2026-03-04");
  bare.finding(machine, "2026-03-04", "Test run", "ran through");
  EXPECT_EQ(finishing(lines_of(bare.shop, machine), base_with_checks())[0].outcome, "ran through");
  // Work on the fault that was written down after the run, on the same day.
  bare.finding(machine, "2026-03-04", "Carburettor cleaned", "mended", fault);
  EXPECT_EQ(finishing(lines_of(bare.shop, machine), base_with_checks())[0].outcome, "");
  bare.finding(machine, "2026-03-05", "Test run", "ran through");
  EXPECT_EQ(finishing(lines_of(bare.shop, machine), base_with_checks())[0].outcome, "ran through");
}

}  // namespace
}  // namespace secondpull::planning
