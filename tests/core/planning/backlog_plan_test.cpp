#include "core/planning/backlog_plan.h"

#include <gmock/gmock.h>

#include "tests/core/learning/small_knowledge.h"

namespace secondpull::planning {
namespace {

using test::BareShop;
using test::cents;
using test::day;

class ABacklog : public testing::Test {
 protected:
  MachineId waiting(const std::string& symptom) {
    const MachineId id = bare.machine();
    Machine machine = *bare.shop.find(id);
    machine.symptom = symptom;
    bare.shop.all<Machine>().replace(machine);
    return id;
  }
  Situation situation() const {
    const auto books = Books::of(std::make_shared<const Shop>(bare.shop), MileageRates{});
    learning::KnowledgeBase base;
    base.knowledge = test::small_knowledge();
    return {std::make_shared<const Books>(*books), std::make_shared<const learning::KnowledgeBase>(base),
            day("2026-04-01")};
  }
  BareShop bare;
};

TEST_F(ABacklog, LeavesOutWhatIsForSaleOrGone) {
  const MachineId here = waiting("Surges");
  const MachineId listed = waiting("Surges");
  bare.add(Listing{.machine = listed, .date = day("2026-03-20"), .asking = cents(9'000)});
  const MachineId sold = waiting("Surges");
  bare.add(Sale{.machine = sold, .date = day("2026-03-20"), .price = cents(9'000)});
  EXPECT_EQ(situation().waiting(), std::vector<MachineId>{here});
}

TEST_F(ABacklog, SortsByWorthPerHourAndPutsWhatHasNoPlanLast) {
  const MachineId unknown = waiting("");
  const MachineId surges = waiting("Surges");
  const MachineId no_start = waiting("Pulls over, does not start");
  const auto plan = plan_backlog(situation(), {});
  ASSERT_TRUE(plan);
  ASSERT_EQ(plan->machines.size(), 3U);
  EXPECT_EQ(plan->machines.back().machine, unknown);
  EXPECT_TRUE(plan->machines.back().problem);
  EXPECT_GE(worth_per_hour(plan->machines[0]), worth_per_hour(plan->machines[1]));
  EXPECT_THAT((std::vector{plan->machines[0].machine, plan->machines[1].machine}),
              testing::UnorderedElementsAre(surges, no_start));
}

TEST_F(ABacklog, TakesTheHourValueThatIsSaidBeforeOneThatIsComputed) {
  waiting("Surges");
  bare.shop.settings.hours_a_week = Tenths{5};
  EXPECT_EQ(plan_backlog(situation(), {})->hour_value.from, HourValue::From::computed);
  bare.shop.settings.hour_value = cents(1'800);
  const auto plan = plan_backlog(situation(), {});
  EXPECT_EQ(plan->hour_value.from, HourValue::From::said);
  EXPECT_EQ(plan->hour_value.value, 18);
  EXPECT_EQ(plan->machines.front().asked->of.hour_value, 18);
}

TEST_F(ABacklog, GuessesTheHoursAWeekFromTheLastEightWeeks) {
  const MachineId machine = waiting("Surges");
  EXPECT_EQ(situation().hours_a_week().hours, 0);
  EXPECT_EQ(plan_backlog(situation(), {})->hour_value.from, HourValue::From::unknown);
  bare.add(Labour{.machine = machine, .date = day("2026-03-30"), .minutes = Minutes{120}});
  bare.add(Labour{.machine = machine, .date = day("2026-02-05"), .minutes = Minutes{120}});
  bare.add(Labour{.machine = machine, .date = day("2026-02-04"), .minutes = Minutes{600}});  // too long ago
  EXPECT_NEAR(situation().hours_a_week().hours, 0.5, 1e-12);
  EXPECT_TRUE(situation().hours_a_week().guessed);
  // 1 April 2026 is a Wednesday: this week began on Monday, 30 March.
  EXPECT_NEAR(situation().hours_this_week(), 2, 1e-12);
}

TEST_F(ABacklog, AFindingCanBeThoughtAway) {
  const MachineId machine = bare.machine();
  const FaultId fault = bare.fault(machine, "Surges");
  const FindingId mended = bare.finding(machine, "2026-03-03", "Carburettor cleaned", "mended", fault);
  EXPECT_FALSE(situation().case_of(machine, 0));
  EXPECT_TRUE(situation().case_before(mended, 0));
}

TEST_F(ABacklog, GivesThisWeeksHoursToTheBestPaidUntilTheyAreUsed) {
  BacklogPlan plan;
  const auto add = [&](MachineId machine, decision::Move::Kind kind, double hours) {
    auto answer = std::make_shared<decision::Answer>();
    answer->next.kind = kind;
    answer->expected.hours = hours;
    plan.machines.push_back({.machine = machine, .answer = answer});
  };
  const MachineId first{1}, second{2}, third{3}, stopped{4};
  add(first, decision::Move::Kind::test, 2);
  add(second, decision::Move::Kind::repair, 2);
  add(third, decision::Move::Kind::test, 2);
  add(stopped, decision::Move::Kind::stop, 0.3);
  plan.machines.push_back({.machine = MachineId{5}});  // no plan yet
  const WeekAhead week = week_ahead(plan, 3);
  EXPECT_EQ(week.work, (std::vector{first, second}));
  EXPECT_EQ(week.later, std::vector{third});
  EXPECT_EQ(week.stop_now, std::vector{stopped});
  EXPECT_TRUE(week_ahead(plan, -1).work.empty());
}

}  // namespace
}  // namespace secondpull::planning
