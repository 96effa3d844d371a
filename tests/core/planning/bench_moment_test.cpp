#include "core/planning/bench_moment.h"

#include <gmock/gmock.h>

#include "tests/core/learning/small_knowledge.h"

namespace secondpull::planning {
namespace {

using test::BareShop;
using test::day;
using test::small_knowledge;
using What = BenchMoment::What;

class ABenchMoment : public testing::Test {
 protected:
  BenchMoment moment() const { return bench_moment(lines_of(bare.shop, machine), knowledge); }
  void came_with(const std::string& symptom) {
    Machine changed = *bare.shop.find(machine);
    changed.symptom = symptom;
    bare.shop.all<Machine>().replace(changed);
  }
  learning::Knowledge knowledge = small_knowledge();
  BareShop bare;
  MachineId machine = bare.machine();
};

TEST_F(ABenchMoment, AsksWhatItDoesUntilTheWordsAreKnown) {
  EXPECT_EQ(moment().what, What::symptom);
  came_with("it is a lemon");
  EXPECT_EQ(moment().what, What::symptom);
  EXPECT_EQ(moment().symptom, "it is a lemon");
  came_with("won't pop");
  EXPECT_EQ(moment().what, What::step);
  EXPECT_FALSE(moment().fault);
}

TEST_F(ABenchMoment, IsAboutTheLatestOpenFault) {
  bare.fault(machine, "Surges");
  const FaultId second = bare.fault(machine, "Pulls over, does not start");
  EXPECT_EQ(moment().what, What::step);
  EXPECT_EQ(moment().fault, second);
}

TEST_F(ABenchMoment, AsksWhatItWasOnceARepairHasMendedIt) {
  const FaultId fault = bare.fault(machine, "Surges");
  const FindingId mended = bare.finding(machine, "2026-03-03", "Carburettor cleaned", "mended", fault);
  EXPECT_EQ(moment().what, What::cause);
  EXPECT_EQ(moment().mended, mended);
}

TEST_F(ABenchMoment, GoesOnAfterARepairThatDidNotHelp) {
  const FaultId fault = bare.fault(machine, "Surges");
  bare.finding(machine, "2026-03-03", "Carburettor cleaned", "failed", fault);
  EXPECT_EQ(moment().what, What::step);
}

TEST_F(ABenchMoment, FinishesWhenTheLastFaultIsMendedAndTellsWhenItWasGivenUp) {
  bare.fault(machine, "Surges", "jet", "2026-03-04");
  EXPECT_EQ(moment().what, What::finish);
  bare.fault(machine, "Pulls over, does not start", "", "2026-03-06", FaultEnd::given_up);
  EXPECT_EQ(moment().what, What::given_up);
}

TEST_F(ABenchMoment, IsOverForAMachineThatHasGone) {
  bare.add(Sale{.machine = machine, .date = day("2026-03-09")});
  EXPECT_EQ(moment().what, What::gone);
}

TEST(CausesOfCure, WeighHowLikelyACauseWasByHowOftenTheRepairCuresIt) {
  const learning::Repair repair{.id = "clean", .cures = {{"jet", {3, 1}}, {"leak", {1, 3}}, {"key", {1, 1}}}};
  const auto causes = causes_of_cure(repair, {{"jet", 0.2}, {"leak", 0.6}, {"plug", 0.2}, {"key", 0}});
  // jet 0.2 x 0.75 = 0.15; leak 0.6 x 0.25 = 0.15: a tie, in the order given. Key has no chance, plug no
  // cure.
  ASSERT_EQ(causes.size(), 2U);
  EXPECT_EQ(causes[0].first, "jet");
  EXPECT_NEAR(causes[0].second, 0.5, 1e-12);
  EXPECT_NEAR(causes[1].second, 0.5, 1e-12);
}

}  // namespace
}  // namespace secondpull::planning
