// What another knowledge base would do to the machines that wait. Figures invented.
#include "core/planning/would_change.h"

#include <gmock/gmock.h>

#include "tests/core/learning/small_knowledge.h"

namespace secondpull::planning {
namespace {

using test::BareShop;
using test::day;
using testing::ElementsAre;
using testing::IsEmpty;

class OtherKnowledge : public testing::Test {
 protected:
  MachineId waiting(const std::string& symptom) {
    const MachineId id = bare.machine();
    Machine machine = *bare.shop.find(id);
    machine.symptom = symptom;
    bare.shop.all<Machine>().replace(machine);
    return id;
  }
  Situation with(learning::Knowledge knowledge) const {
    const auto books = Books::of(std::make_shared<const Shop>(bare.shop), MileageRates{});
    learning::KnowledgeBase base;
    base.knowledge = std::move(knowledge);
    return {std::make_shared<const Books>(*books), std::make_shared<const learning::KnowledgeBase>(base),
            day("2026-04-01")};
  }
  /// The small knowledge with another weight for the leak behind surging.
  static learning::Knowledge leaky(double weight) {
    learning::Knowledge other = test::small_knowledge();
    for (learning::Symptom& symptom : other.symptoms)
      for (auto& [cause, count] : symptom.causes)
        if (cause == "leak") count = weight;
    return other;
  }
  BareShop bare;
};

TEST_F(OtherKnowledge, TouchesOnlyTheMachinesWhoseCaseDiffers) {
  waiting("Pulls over, does not start");
  const MachineId surges = waiting("Surges");
  waiting("");
  const Situation before = with(test::small_knowledge());
  EXPECT_THAT(machines_touched(before, with(leaky(500)), 10), ElementsAre(surges));
  EXPECT_THAT(machines_touched(before, with(test::small_knowledge()), 10), IsEmpty());
}

TEST_F(OtherKnowledge, ANameAloneTouchesNothing) {
  waiting("Surges");
  learning::Knowledge renamed = test::small_knowledge();
  for (learning::Test& each : renamed.tests)
    each.name += " as we call it";
  EXPECT_THAT(machines_touched(with(test::small_knowledge()), with(renamed), 10), IsEmpty());
}

TEST_F(OtherKnowledge, TouchesAMachineThatIsUnderstoodOnlyThen) {
  const MachineId odd = waiting("goes up and down");
  learning::Knowledge knows = test::small_knowledge();
  for (learning::Symptom& symptom : knows.symptoms)
    if (symptom.id == "surges") symptom.also.emplace_back("goes up and down");
  const Situation before = with(test::small_knowledge());
  const Situation after = with(knows);
  EXPECT_THAT(machines_touched(before, after, 10), ElementsAre(odd));
  const PlanChange change = plan_change(before, after, odd, 10, {});
  EXPECT_TRUE(change.before.problem);
  EXPECT_FALSE(change.after.problem);
  EXPECT_TRUE(change.tells());
}

TEST_F(OtherKnowledge, SaysNextStepVerdictAndValueBeforeAndAfter) {
  const MachineId surges = waiting("Surges");
  learning::Knowledge hopeless = test::small_knowledge();
  for (learning::Repair& repair : hopeless.repairs)
    for (auto& [cause, counts] : repair.cures)
      counts = {0.001, 1000};
  const Situation before = with(test::small_knowledge());
  const Situation after = with(hopeless);
  const PlanChange change = plan_change(before, after, surges, 10, {});
  const auto made = before.case_of(surges, 10);
  ASSERT_TRUE(made);
  const auto answer = decision::verdict(made->of);
  ASSERT_TRUE(answer);
  EXPECT_EQ(change.before.next, answer->next);
  EXPECT_EQ(change.before.verdict, answer->verdict);
  EXPECT_EQ(change.before.value, answer->value);
  EXPECT_NE(change.after.verdict, "revive") << "no repair mends it";
  EXPECT_LT(change.after.value, change.before.value);
  EXPECT_TRUE(change.tells());
  EXPECT_FALSE(plan_change(before, before, surges, 10, {}).tells());
}

TEST_F(OtherKnowledge, LessThanHalfAUnitTellsNothing) {
  PlanChange change;
  change.before.value = 10;
  change.after.value = 10.4;
  EXPECT_FALSE(change.tells());
  change.after.value = 10.5;
  EXPECT_TRUE(change.tells());
  change.after.value = 10;
  change.after.next.id = "other";
  EXPECT_TRUE(change.tells());
}

}  // namespace
}  // namespace secondpull::planning
