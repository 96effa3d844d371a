#include "core/shop/bench.h"

#include <gmock/gmock.h>

#include "core/shop/stage.h"
#include "core/shop/stock_days.h"
#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;
using testing::HasSubstr;

std::string field_of(const Result<Change>& made) {
  return made ? "" : made.error().field;
}

TEST(OpenFault, GetsACodeOfItsOwnAndNoDayBeforeTheMachineCame) {
  SmallShop s;
  const auto change = open_fault(s.shop, s.m2, day("2026-03-08"), " no spark ", "", "");
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "New fault on #2: no spark");
  s.carry_out(change);
  EXPECT_EQ(std::prev(s.shop.all<Fault>().end())->code, "F2");
  EXPECT_EQ(field_of(open_fault(s.shop, s.m2, day("2026-03-01"), "no spark", "", "")), "date");
  EXPECT_EQ(field_of(open_fault(s.shop, s.m2, day("2026-03-08"), " ", "", "")), "symptom");
  EXPECT_EQ(field_of(open_fault(s.shop, MachineId{9999}, day("2026-03-08"), "x", "", "")), "machine");
}

TEST(EndFault, HappensOnceAndNotBeforeItWasOpened) {
  SmallShop s;
  const FaultId fault =
      s.add(Fault{.code = "F9", .machine = s.m2, .date = day("2026-03-08"), .symptom = "no spark"});
  EXPECT_EQ(field_of(end_fault(s.shop, fault, day("2026-03-07"), FaultEnd::mended, "")), "ended");
  s.carry_out(end_fault(s.shop, fault, day("2026-03-09"), FaultEnd::mended, "worn plug"));
  EXPECT_EQ(s.shop.find(fault)->cause, "worn plug");
  EXPECT_EQ(field_of(end_fault(s.shop, fault, day("2026-03-10"), FaultEnd::mended, "")), "ended");
}

TEST(RecordFinding, LogsItsHoursInTheSameAction) {
  SmallShop s;
  NewFinding finding{.machine = s.m2, .date = day("2026-03-08"), .step = "spark test", .outcome = "no spark"};
  finding.labour = Minutes{15};
  const auto change = record_finding(s.shop, finding);
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Found on #2: spark test, no spark");
  EXPECT_EQ(change->edits().size(), 2u);
  finding.fault = s.fault;  // one of #1
  EXPECT_EQ(field_of(record_finding(s.shop, finding)), "fault");
  finding.fault.reset();
  finding.outcome = "";
  EXPECT_EQ(field_of(record_finding(s.shop, finding)), "outcome");
}

TEST(LogLabour, IsForAMachineOrForTheShop) {
  const SmallShop s;
  EXPECT_EQ(log_labour(s.shop, s.m2, day("2026-03-08"), Minutes{80}, Work::repair, "")->title(),
            "Logged 1 h 20 min repair on #2");
  EXPECT_EQ(log_labour(s.shop, std::nullopt, day("2026-03-08"), Minutes{30}, Work::clean, "")->title(),
            "Logged 30 min clean");
  EXPECT_EQ(field_of(log_labour(s.shop, s.m2, day("2026-03-08"), Minutes{0}, Work::repair, "")), "minutes");
  EXPECT_EQ(field_of(log_labour(s.shop, s.m2, day("2026-03-08"), Minutes{-1}, Work::repair, "")), "minutes");
}

TEST(FitPart, TakesOnlyWhatIsInStockOnThatDay) {
  SmallShop s;
  const auto change = fit_part(s.shop, s.m2, day("2026-03-13"), s.plug, 1, {}, {});
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Fitted 1 x spark plug to #2");
  const auto too_many = fit_part(s.shop, s.m2, day("2026-03-13"), s.plug, 2, {}, {});
  ASSERT_FALSE(too_many);
  EXPECT_EQ(too_many.error().field, "quantity");
  EXPECT_EQ(too_many.error().sentence, "There is 1 x spark plug in stock on 13 March 2026, not 2.");
  EXPECT_EQ(fit_part(s.shop, s.m2, day("2026-03-05"), s.plug, 1, {}, {}).error().sentence,
            "There is no spark plug in stock on 5 March 2026.");
  EXPECT_EQ(field_of(fit_part(s.shop, s.m2, day("2026-03-13"), s.plug, 0, {}, {})), "quantity");
  EXPECT_EQ(field_of(fit_part(s.shop, s.m2, day("2026-03-13"), s.plug, 1, s.order, s.m3)), "from");
  EXPECT_EQ(field_of(fit_part(s.shop, s.m2, day("2026-03-13"), PartId{9999}, 1, {}, {})), "part");
}

TEST(FitPart, LeavesEnoughForWhatWasFittedLater) {
  SmallShop s;
  s.carry_out(fit_part(s.shop, s.m2, day("2026-03-20"), s.plug, 1, {}, {}));
  const auto change = fit_part(s.shop, s.m2, day("2026-03-15"), s.plug, 1, {}, {});
  ASSERT_FALSE(change);
  EXPECT_THAT(change.error().sentence, HasSubstr("too few spark plug for what was used on 20 March 2026"));
}

TEST(FitFoundPart, TakesItInAndFitsItInOneAction) {
  SmallShop s;
  s.carry_out(fit_found_part(s.shop, s.m2, day("2026-03-08"), {.new_name = "Throttle cable"}, 1, {}));
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
  const Part& part = *std::prev(s.shop.all<Part>().end());
  EXPECT_EQ(part.code, "throttle-cable");
  EXPECT_EQ(in_stock_on(s.shop, part.id, day("2026-03-08")), 0);
  const Order& order = *std::prev(s.shop.all<Order>().end());
  EXPECT_EQ(order.code, "O3");
  EXPECT_EQ(order.supplier, std::nullopt);
  s.carry_out(fit_found_part(s.shop, s.m2, day("2026-03-08"), {.new_name = "throttle CABLE"}, 1, {}));
  EXPECT_EQ(std::prev(s.shop.all<Part>().end())->id, part.id);
}

TEST(WriteOffPart, IsAUseWithoutAMachine) {
  SmallShop s;
  const auto change = write_off_part(s.shop, day("2026-03-13"), s.plug, 1);
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Wrote off 1 x spark plug");
  EXPECT_EQ(field_of(write_off_part(s.shop, day("2026-03-13"), s.plug, 2)), "quantity");
}

TEST(SetStage, SaysWhereAMachineHereStands) {
  SmallShop s;
  s.carry_out(set_stage(s.shop, s.m2, Stage::waiting_on_parts));
  EXPECT_EQ(stage_of(lines_of(s.shop, s.m2)), Stage::waiting_on_parts);
  s.carry_out(set_stage(s.shop, s.m2, Stage::in_the_yard));
  EXPECT_EQ(s.shop.find(s.m2)->stage, std::nullopt);
  EXPECT_EQ(field_of(set_stage(s.shop, s.m2, Stage::sold)), "stage");
  EXPECT_EQ(field_of(set_stage(s.shop, s.m1, Stage::test_run)), "stage");
  EXPECT_THAT(set_stage(s.shop, s.m4, Stage::test_run).error().sentence, HasSubstr("end its listing first"));
}

TEST(AddPhoto, NeedsItsContentAndSomethingItIsOf) {
  const SmallShop s;
  EXPECT_EQ(add_photo(s.shop, {.sha256 = std::string(64, 'b'), .machine = s.m2})->title(),
            "Added a photo of #2");
  EXPECT_EQ(field_of(add_photo(s.shop, {.machine = s.m2})), "photo");
  EXPECT_EQ(field_of(add_photo(s.shop, {.sha256 = std::string(64, 'b'), .machine = MachineId{9999}})),
            "machine");
}

}  // namespace
}  // namespace secondpull
