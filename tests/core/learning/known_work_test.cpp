#include "core/learning/known_work.h"

#include <gmock/gmock.h>

#include "core/learning/case_maker.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::learning {
namespace {

using test::BareShop;
using test::cents;
using test::day;
using testing::ElementsAre;
using testing::IsEmpty;

Knowledge with_work() {
  Knowledge k = test::small_knowledge();
  k.known_work = {{.id = "work-blade",
                   .name = "Dull blade",
                   .also = {"blade dull", "Blade sharpened"},
                   .cost = {cents(0), cents(50), cents(200)},
                   .minutes = about(20)},
                  {.id = "work-tire",
                   .name = "Flat tire",
                   .also = {"flat tyre"},
                   .kinds = {MachineKind::lawn_tractor},
                   .cost = {cents(0), cents(1'200), cents(6'000)},
                   .minutes = about(25)},
                  {.id = "work-wash", .name = "Dirty", .also = {"wash"}, .minutes = about(25)}};
  return k;
}

struct Yard : BareShop {
  Knowledge knowledge = with_work();
  MachineId in(std::string condition, MachineKind kind = MachineKind::push) {
    return add(Machine{.tag = std::to_string(shop.next_id),
                       .acquisition = curb,
                       .kind = kind,
                       .condition = std::move(condition)});
  }
  std::vector<TickedWork> ticked(MachineId machine) const {
    const ByMachine by_machine{shop};
    return known_work_of(by_machine.of(machine), knowledge);
  }
  std::vector<std::string> names(MachineId machine) const {
    std::vector<std::string> ids;
    for (const TickedWork& each : ticked(machine))
      ids.push_back(each.work);
    return ids;
  }
};

TEST(KnownWork, IsWhatTheConditionNamesInWholeWordsInTheKnowledgesOrder) {
  Yard yard;
  EXPECT_THAT(yard.names(yard.in("needs a WASH, blade dull; dull blade")),
              ElementsAre("work-blade", "work-wash"));
  EXPECT_THAT(yard.names(yard.in("washed, sound deck")), IsEmpty());
  EXPECT_THAT(yard.names(yard.in("")), IsEmpty());
}

TEST(KnownWork, IsThatOfTheMachinesKind) {
  Yard yard;
  EXPECT_THAT(yard.names(yard.in("flat tyre")), IsEmpty());
  EXPECT_THAT(yard.names(yard.in("flat tyre", MachineKind::lawn_tractor)), ElementsAre("work-tire"));
}

TEST(KnownWork, IsDoneWhenAFindingOfThisStaySaysSo) {
  Yard yard;
  const MachineId machine = yard.in("dull blade, dirty");
  yard.finding(machine, "2026-03-02", "wash", "not yet");
  EXPECT_EQ(yard.ticked(machine)[1].done, std::nullopt);
  const FindingId washed = yard.finding(machine, "2026-03-03", "Wash", "Done");
  const FindingId sharp = yard.finding(machine, "2026-03-04", "Blade sharpened", "mended");
  EXPECT_THAT(yard.ticked(machine),
              ElementsAre(TickedWork{"work-blade", sharp}, TickedWork{"work-wash", washed}));
  yard.add(Sale{.machine = machine, .date = day("2026-03-05"), .price = cents(9'000)});
  yard.add(Return{.machine = machine, .date = day("2026-03-20")});
  EXPECT_THAT(yard.ticked(machine),
              ElementsAre(TickedWork{"work-blade", std::nullopt}, TickedWork{"work-wash", std::nullopt}));
}

TEST(KnownWork, ToDoCostsItsTypicalCostAndOwnMinutes) {
  Yard yard;
  Tallies tallies;
  tallies.minutes["work-blade"] = {10};
  const std::vector<TickedWork> ticked{{"work-blade", {}}, {"work-wash", FindingId{7}}, {"work-tire", {}}};
  const auto rows = work_to_do(ticked, yard.knowledge, tallies, {"USD", 2});
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].cost, 0.5);
  EXPECT_EQ(rows[0].minutes, minutes_of("work-blade", about(20), tallies));
  EXPECT_EQ(rows[1].cost, 12);
  EXPECT_EQ(rows[1].minutes, 25);
}

TEST(KnownWork, TeachesItsMinutesAndIsNoUnreadFindingOnceDone) {
  Yard yard;
  const MachineId machine = yard.in("dirty");
  const FaultId fault = yard.fault(machine, "Surges");
  yard.finding(machine, "2026-03-03", "wash", "done", fault, Minutes{40});
  const FindingId later = yard.finding(machine, "2026-03-03", "wash", "later", fault);
  yard.finding(machine, "2026-03-04", "Blade sharpened", "done", fault);
  const ByMachine by_machine{yard.shop};
  EXPECT_THAT(tallies_of(by_machine, yard.shop, yard.knowledge).minutes["work-wash"], ElementsAre(40));
  const auto question = question_about(by_machine.of(machine), *yard.shop.find(fault), yard.knowledge);
  ASSERT_TRUE(question) << question.error().sentence;
  EXPECT_THAT(question->unread, ElementsAre(Unread{later, Unread::Why::other_work}));
}

}  // namespace
}  // namespace secondpull::learning
