#include "core/paper/condition.h"

#include <gmock/gmock.h>

#include "tests/core/paper/paper_base.h"

namespace secondpull::paper {
namespace {

using test::BareShop;
using test::day;
using testing::ElementsAre;
using testing::IsEmpty;

Condition seen(const BareShop& bare, MachineId machine, std::string_view on = "2026-05-04") {
  return condition_of(bare.shop, lines_of(bare.shop, machine), test::paper_base(), day(on));
}

TEST(Condition, OfAMachineThatNobodyLookedIntoIsWhatItCameInWith) {
  BareShop bare;
  const MachineId machine =
      bare.add(Machine{.tag = "7", .acquisition = bare.curb, .symptom = "will not start"});
  EXPECT_THAT(seen(bare, machine).wrong,
              ElementsAre("came in with: will not start; nobody looked into it here"));
  bare.fault(machine, "Surges", "leak", "2026-03-05");
  EXPECT_THAT(seen(bare, machine).wrong, IsEmpty());
}

TEST(Condition, SaysWhatIsOpenGivenUpAndMended) {
  BareShop bare;
  const MachineId machine = bare.machine();
  bare.fault(machine, "Surges", "Intake leak");
  bare.fault(machine, "Knocks", "bent rod", "2026-03-05", FaultEnd::given_up);
  bare.fault(machine, "Shakes", "", "2026-03-05", FaultEnd::mistaken);
  const FaultId mended = bare.fault(machine, "Does not start", "Main jet clogged", "2026-03-06");
  bare.finding(machine, "2026-03-06", "New plug", "failed", mended);
  bare.finding(machine, "2026-03-06", "Carburettor cleaned", "mended", mended);
  const Condition condition = seen(bare, machine);
  EXPECT_THAT(condition.wrong, ElementsAre("Surges (perhaps: Intake leak)", "Knocks (bent rod), not mended"));
  EXPECT_THAT(condition.mended, ElementsAre("Does not start (Main jet clogged): Carburettor cleaned"));
}

TEST(Condition, AFaultGivenUpAndMendedLaterIsWrongNoMore) {
  BareShop bare;
  const MachineId machine = bare.machine();
  bare.fault(machine, "Knocks", "bent rod", "2026-03-05", FaultEnd::given_up);
  bare.fault(machine, "knocks ", "loose blade", "2026-03-09");
  EXPECT_THAT(seen(bare, machine).wrong, IsEmpty());
}

TEST(Condition, LeavesOutWorkThatIsDone) {
  BareShop bare;
  const MachineId machine = bare.add(
      Machine{.tag = "7", .acquisition = bare.curb, .condition = "blade dull, scratched hood; black oil"});
  EXPECT_THAT(seen(bare, machine).wrong, ElementsAre("blade dull", "scratched hood", "black oil"));
  bare.finding(machine, "2026-03-06", "Dull blade", "done");
  EXPECT_THAT(seen(bare, machine).wrong, ElementsAre("scratched hood", "black oil"));
  EXPECT_THAT(seen(bare, machine).work, ElementsAre("Dull blade"));
}

TEST(Condition, CountsPartsFittedAndTellsUsedOnes) {
  BareShop bare;
  const MachineId machine = bare.machine();
  const MachineId donor = bare.machine();
  const PartId plug = bare.add(Part{.code = "plug", .name = "spark plug"});
  const PartId blade = bare.add(Part{.code = "blade", .name = "blade"});
  for (int i = 0; i < 2; ++i)
    bare.add(Fitted{.machine = machine, .date = day("2026-03-05"), .part = plug, .quantity = 1});
  bare.add(Fitted{.machine = machine, .date = day("2026-03-05"), .part = blade, .from_donor = donor});
  EXPECT_THAT(seen(bare, machine).fitted, ElementsAre("2 x spark plug", "blade (used)"));
}

TEST(Condition, TellsLooksTheTestRunAndTheRecallLookUp) {
  BareShop bare;
  const MachineId machine = bare.machine();
  bare.finding(machine, "2026-03-06", "Test run", "ran through", std::nullopt, Minutes{15});
  bare.finding(machine, "2026-03-06", "Safety check: Blade stops within 3 s", "passed");
  bare.finding(machine, "2026-03-06", "Look before the sale: Deck is clean", "rust below");
  bare.finding(machine, "2026-03-07", "Safety check: Recall list checked", "passed");
  bare.finding(machine, "2026-03-07", "Safety check: Permits and taxes seen to", "passed");
  const Condition condition = seen(bare, machine);
  EXPECT_EQ(condition.test_run, "ran through, 15 min, on 6 March 2026");
  EXPECT_TRUE(condition.ran_through);
  EXPECT_THAT(condition.passed, ElementsAre("Blade stops within 3 s"));
  EXPECT_THAT(condition.wrong, ElementsAre("Deck is clean: rust below"));
  EXPECT_EQ(condition.recall, "looked up on 7 March 2026: none found");
}

TEST(Condition, OfPraiseIsNoDefect) {
  BareShop bare;
  const MachineId machine = bare.machine();
  Machine changed = *bare.shop.find(machine);
  changed.condition = "clean, kept in a shed, no rust, handle bent";
  bare.shop.all<Machine>().replace(changed);
  EXPECT_THAT(seen(bare, machine).wrong, ElementsAre("handle bent"));
}

TEST(Condition, AtASaleKnowsNeitherHowAFaultEndedNorItsCause) {
  BareShop bare;
  const MachineId machine = bare.machine();
  bare.finding(machine, "2026-03-10", "Test run", "died");
  const FaultId fault = bare.fault(machine, "Surges");
  const SaleId sale = bare.add(Sale{.machine = machine, .date = day("2026-03-20"), .price = Money{}});
  const auto then = [&] {
    const auto lines = lines_of(bare.shop, machine);
    return condition_of(bare.shop, before_sale(lines, *bare.shop.find(sale)).lines, test::paper_base(),
                        day("2026-03-20"))
        .wrong;
  };
  const std::vector<std::string> when_sold = then();
  EXPECT_THAT(when_sold, ElementsAre("Surges", "test run: died, on 10 March 2026"));
  Fault ended = *bare.shop.find(fault);
  ended.ended = day("2026-03-28");
  ended.how = FaultEnd::mended;
  ended.cause = "jet";
  bare.shop.all<Fault>().replace(ended);
  EXPECT_EQ(then(), when_sold);
}

TEST(Condition, TellsOfARecall) {
  BareShop bare;
  const MachineId machine = bare.machine();
  bare.finding(machine, "2026-03-07", "Safety check: Recall list checked", "failed");
  EXPECT_EQ(seen(bare, machine).recall, "looked up on 7 March 2026: recalled by its maker");
}

TEST(Condition, ATestRunThatDiedIsWrong) {
  BareShop bare;
  const MachineId machine = bare.machine();
  bare.finding(machine, "2026-03-06", "Test run", "died");
  EXPECT_FALSE(seen(bare, machine).ran_through);
  EXPECT_THAT(seen(bare, machine).wrong, ElementsAre("test run: died, on 6 March 2026"));
}

TEST(Condition, AtASaleKnowsNothingOfWhatCameAfterIt) {
  BareShop bare;
  const MachineId machine = bare.machine();
  bare.fault(machine, "Surges", "", "2026-03-25");  // open when it was sold, mended after it came back
  bare.finding(machine, "2026-03-10", "Safety check: Recall list checked", "passed");
  const SaleId sale = bare.add(Sale{.machine = machine, .date = day("2026-03-20"), .price = Money{}});
  bare.finding(machine, "2026-03-20", "Look before the sale: Deck is clean", "failed");
  bare.add(Return{.machine = machine, .date = day("2026-03-22")});
  bare.add(Fault{.machine = machine, .date = day("2026-03-22"), .symptom = "Does not start"});
  const auto lines = lines_of(bare.shop, machine);
  const Condition then = condition_of(bare.shop, before_sale(lines, *bare.shop.find(sale)).lines,
                                      test::paper_base(), day("2026-03-20"));
  EXPECT_THAT(then.wrong, ElementsAre("Surges"));
  EXPECT_EQ(then.recall, "looked up on 10 March 2026: none found");
  const Condition now = seen(bare, machine);
  EXPECT_THAT(now.wrong, ElementsAre("Does not start"));
  EXPECT_EQ(now.recall, "");  // not since it came back
}

}  // namespace
}  // namespace secondpull::paper
