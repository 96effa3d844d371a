#include "core/shop/steps.h"

#include <gmock/gmock.h>

#include "core/shop/safety.h"
#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;
using testing::HasSubstr;

StepMade prime_test(const SmallShop& s) {
  StepMade step;
  step.finding.machine = s.m2;
  step.finding.date = day("2026-03-16");
  step.finding.step = "Prime test";
  step.finding.outcome = "Runs, then dies";
  step.finding.minutes = step.finding.labour = Minutes{6};
  return step;
}

const Finding& newest_finding(const Shop& shop) {
  return *std::prev(shop.all<Finding>().end());
}
const Fault& newest_fault(const Shop& shop) {
  return *std::prev(shop.all<Fault>().end());
}

TEST(RecordStep, OpensTheFaultThatTheMachineCameWithAndWritesTheHoursInOneAction) {
  SmallShop s;
  StepMade step = prime_test(s);
  step.opens = "does not start";
  const auto change = record_step(s.shop, step);
  ASSERT_TRUE(change) << change.error().sentence;
  EXPECT_EQ(change->title(), "#2: Prime test, Runs, then dies");
  s.carry_out(change);
  EXPECT_EQ(newest_fault(s.shop).symptom, "does not start");
  EXPECT_EQ(newest_finding(s.shop).fault, newest_fault(s.shop).id);
  EXPECT_EQ(std::prev(s.shop.all<Labour>().end())->minutes, Minutes{6});
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
}

TEST(RecordStep, KeepsWhatThePlanPromisedWithTheFirstStepOfAFaultAlone) {
  SmallShop s;
  StepMade step = prime_test(s);
  step.opens = "does not start";
  step.promise = Promise{.figures = {.chance_revived = 0.75, .cash = 80, .hours = 1.5},
                         .causes = {{"needle-leaks", 0.5}, {"jet-clogged", 0.5}}};
  const std::size_t before = s.shop.all<Forecast>().size();
  s.carry_out(record_step(s.shop, step));
  ASSERT_EQ(s.shop.all<Forecast>().size(), before + 1);
  const Forecast& kept = *std::prev(s.shop.all<Forecast>().end());
  EXPECT_EQ(kept.fault, newest_fault(s.shop).id);
  EXPECT_EQ(kept.machine, s.m2);
  EXPECT_EQ(kept.date, day("2026-03-16"));
  EXPECT_EQ(kept.cash, 80);
  EXPECT_EQ(std::prev(s.shop.all<ForecastCause>().end())->forecast, kept.id);
  EXPECT_EQ(std::prev(s.shop.all<ForecastCause>().end())->chance, 0.5);
  step.opens.clear();
  step.finding.fault = kept.fault;
  step.promise->figures.cash = 95;
  s.carry_out(record_step(s.shop, step));
  EXPECT_EQ(s.shop.all<Forecast>().size(), before + 1) << "a forecast is not made over";
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
}

TEST(RecordStep, TakesTheOldestPieceOfAPartFromTheShelf) {
  SmallShop s;
  StepMade step = prime_test(s);
  step.part = PartUsed{.part = {.known = s.plug}};
  s.carry_out(record_step(s.shop, step));
  const Fitted& fitted = *std::prev(s.shop.all<Fitted>().end());
  EXPECT_EQ(fitted.machine, s.m2);
  EXPECT_EQ(fitted.part, s.plug);
  EXPECT_EQ(fitted.quantity, 1);
}

TEST(RecordStep, DoesNothingAtAllWhenThePartIsNotThere) {
  SmallShop s;
  StepMade step = prime_test(s);
  step.part = PartUsed{.part = {.known = s.plug}, .quantity = 9};
  const auto change = record_step(s.shop, step);
  ASSERT_FALSE(change);
  EXPECT_EQ(change.error().field, "quantity");
}

TEST(RecordStep, TakesInAPartThatTheHandHas) {
  SmallShop s;
  StepMade step = prime_test(s);
  step.part = PartUsed{.part = {.new_name = "float bowl"}, .found_at = dollars(0)};
  s.carry_out(record_step(s.shop, step));
  EXPECT_EQ(s.shop.find(std::prev(s.shop.all<Fitted>().end())->part)->name, "float bowl");
}

/// #2 with a fault that a repair is said to have mended.
struct MendedShop : SmallShop {
  FaultId trouble = add(Fault{.code = "F9",
                              .machine = m2,
                              .date = day("2026-03-16"),
                              .symptom = "dies",
                              .cause = "main jet",
                              .ended = day("2026-03-17"),
                              .how = FaultEnd::mended});
  FindingId repair = add(Finding{.machine = m2,
                                 .date = day("2026-03-17"),
                                 .step = "clean the bowl",
                                 .outcome = "mended",
                                 .fault = trouble});
  NewFinding run() const {
    NewFinding run;
    run.machine = m2;
    run.date = day("2026-03-18");
    run.step = kTestRun;
    run.outcome = kDied;
    run.minutes = run.labour = Minutes{4};
    run.work = Work::test_run;
    return run;
  }
};

TEST(SameTrouble, OpensTheFaultAgainAndCountsTheRepairAsFailed) {
  MendedShop s;
  const auto change = same_trouble(s.shop, s.run());
  ASSERT_TRUE(change) << change.error().sentence;
  EXPECT_EQ(change->title(), "#2: same trouble again, dies");
  s.carry_out(change);
  const Fault& fault = *s.shop.find(s.trouble);
  EXPECT_FALSE(fault.ended);
  EXPECT_FALSE(fault.how);
  EXPECT_EQ(fault.cause, "");
  EXPECT_EQ(s.shop.find(s.repair)->outcome, "failed");
  EXPECT_EQ(newest_finding(s.shop).fault, s.trouble);
  EXPECT_EQ(std::prev(s.shop.all<Labour>().end())->work, Work::test_run);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
}

TEST(SameTrouble, NeedsAFaultThatWasCalledMended) {
  SmallShop s;
  NewFinding run;
  run.machine = s.m2;
  run.date = day("2026-03-18");
  run.step = kTestRun;
  run.outcome = kDied;
  const auto change = same_trouble(s.shop, run);
  ASSERT_FALSE(change);
  EXPECT_EQ(change.error().field, "fault");
}

TEST(NewTrouble, LeavesTheMendedFaultAloneAndOpensAnother) {
  MendedShop s;
  s.carry_out(new_trouble(s.shop, s.run(), "surges"));
  EXPECT_EQ(s.shop.find(s.trouble)->how, FaultEnd::mended);
  EXPECT_EQ(s.shop.find(s.repair)->outcome, "mended");
  EXPECT_EQ(newest_fault(s.shop).symptom, "surges");
  EXPECT_EQ(newest_finding(s.shop).fault, newest_fault(s.shop).id);
}

TEST(LastMended, IsNoneWhileAFaultIsOpen) {
  MendedShop s;
  EXPECT_EQ(last_mended(lines_of(s.shop, s.m2))->id, s.trouble);
  s.add(Fault{.code = "F8", .machine = s.m2, .date = day("2026-03-18"), .symptom = "surges"});
  EXPECT_EQ(last_mended(lines_of(s.shop, s.m2)), nullptr);
}

TEST(CautionRead, IsRememberedForTheMachineAloneUntilItIsBroughtBack) {
  SmallShop s;
  s.carry_out(acknowledge_caution(s.shop, s.m2, day("2026-03-16"), "Exhaust gas"));
  EXPECT_TRUE(is_acknowledged(lines_of(s.shop, s.m2), "Exhaust gas"));
  EXPECT_FALSE(is_acknowledged(lines_of(s.shop, s.m2), "Bent crankshaft"));
  EXPECT_FALSE(is_acknowledged(lines_of(s.shop, s.m4), "Exhaust gas"));
  // #1 was brought back on 25 March: what was read before is read again.
  s.add(Finding{
      .machine = s.m1, .date = day("2026-03-20"), .step = "Caution read: Exhaust gas", .outcome = "read"});
  EXPECT_FALSE(is_acknowledged(lines_of(s.shop, s.m1), "Exhaust gas"));
}

TEST(RecordCheck, AFailedMustKeepsTheMachineFromBeingSoldAsRunning) {
  SmallShop s;
  const std::string must = check_step("Blade stops within 3 s", true);
  s.carry_out(record_check(s.shop, s.m2, day("2026-03-16"), must, std::string{kFailed}, ""));
  EXPECT_TRUE(against_running(lines_of(s.shop, s.m2), SoldAs::running));
  s.carry_out(record_check(s.shop, s.m2, day("2026-03-16"), must, std::string{kPassed}, ""));
  EXPECT_FALSE(against_running(lines_of(s.shop, s.m2), SoldAs::running));
}

TEST(RecordCheck, AFailedLookThatIsNoMustStopsNothing) {
  SmallShop s;
  s.carry_out(record_check(s.shop, s.m2, day("2026-03-16"), check_step("Deck is clean", false),
                           std::string{kFailed}, ""));
  EXPECT_FALSE(against_running(lines_of(s.shop, s.m2), SoldAs::running));
}

TEST(AboutCare, TellsRunsChecksAndCautionsFromTestsAndRepairs) {
  EXPECT_TRUE(is_about_care("test run"));
  EXPECT_TRUE(is_about_care("Safety check: guards"));
  EXPECT_TRUE(is_about_care(" Caution read: Exhaust gas"));
  EXPECT_TRUE(is_about_care("Look before the sale: deck"));
  EXPECT_FALSE(is_about_care("Test run of the new belt"));
  EXPECT_FALSE(is_about_care("Prime test"));
}

}  // namespace
}  // namespace secondpull
