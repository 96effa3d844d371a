#include "core/shop/stage.h"

#include <gmock/gmock.h>

#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;

/// One machine that came in on 1 May 2026, and what happens to it.
struct OneMachine : SmallShop {
  AcquisitionId curb = add(Acquisition{.code = "C1", .date = day("2026-05-01")});
  MachineId id = add(Machine{.tag = "61", .acquisition = curb});
  Stage stage() const { return stage_of(lines_of(shop, id)); }
  void list(const char* date) { add(Listing{.machine = id, .date = day(date), .asking = dollars(90)}); }
  FaultId fault(const char* date) {
    return add(Fault{.code = date, .machine = id, .date = day(date), .symptom = "smokes"});
  }
};

TEST(StageOf, IsTheYardUntilSomethingIsDone) {
  OneMachine m;
  EXPECT_EQ(m.stage(), Stage::in_the_yard);
  m.add(Labour{.machine = m.id, .date = day("2026-05-01"), .minutes = {30}, .work = Work::pickup});
  m.add(Labour{.acquisition = m.curb, .date = day("2026-05-01"), .minutes = {30}, .work = Work::pickup});
  EXPECT_EQ(m.stage(), Stage::in_the_yard);
}

TEST(StageOf, IsTheBenchAfterAFindingAPartAMaterialOrLabour) {
  OneMachine finding;
  finding.add(Finding{.machine = finding.id, .date = day("2026-05-02"), .step = "spark", .outcome = "none"});
  EXPECT_EQ(finding.stage(), Stage::on_the_bench);
  OneMachine part;
  part.add(Fitted{.machine = part.id, .date = day("2026-05-02"), .part = part.plug});
  EXPECT_EQ(part.stage(), Stage::on_the_bench);
  OneMachine material;
  material.add(Material{.machine = material.id, .date = day("2026-05-02"), .what = "cord"});
  EXPECT_EQ(material.stage(), Stage::on_the_bench);
  OneMachine labour;
  labour.add(Labour{.machine = labour.id, .date = day("2026-05-02"), .minutes = {5}, .work = Work::clean});
  EXPECT_EQ(labour.stage(), Stage::on_the_bench);
  OneMachine of_the_lot;
  of_the_lot.add(
      Labour{.acquisition = of_the_lot.curb, .date = day("2026-05-02"), .minutes = {5}, .work = Work::clean});
  EXPECT_EQ(of_the_lot.stage(), Stage::on_the_bench);
}

TEST(StageOf, IsTheOneGivenOnlyIfItIsOneOfTheBench) {
  OneMachine m;
  for (const Stage given : {Stage::waiting_on_parts, Stage::test_run, Stage::on_the_bench}) {
    m.change(m.id, [&](Machine& machine) { machine.stage = given; });
    EXPECT_EQ(m.stage(), given);
  }
  m.change(m.id, [](Machine& machine) { machine.stage = Stage::for_sale; });
  EXPECT_EQ(m.stage(), Stage::in_the_yard);
}

TEST(StageOf, IsForSaleWhileAListingRunsThatNoLaterFaultPutsInQuestion) {
  OneMachine m;
  m.change(m.id, [](Machine& machine) { machine.stage = Stage::test_run; });
  m.fault("2026-05-03");
  m.list("2026-05-03");
  EXPECT_EQ(m.stage(), Stage::for_sale);  // a fault of the same day is no later one
  const FaultId later = m.fault("2026-05-04");
  EXPECT_EQ(m.stage(), Stage::test_run);
  m.change(later, [](Fault& fault) { fault.ended = day("2026-05-05"); });
  EXPECT_EQ(m.stage(), Stage::test_run);  // ended or not
  m.list("2026-05-05");
  EXPECT_EQ(m.stage(), Stage::for_sale);
}

TEST(StageOf, IsNotForSaleByAListingThatEndedOrIsOlderThanTheReturn) {
  OneMachine ended;
  ended.add(Listing{.machine = ended.id, .date = day("2026-05-03"), .ended = day("2026-05-04")});
  EXPECT_EQ(ended.stage(), Stage::in_the_yard);
  OneMachine back;
  back.list("2026-05-03");
  back.add(Sale{.machine = back.id, .date = day("2026-05-04")});
  EXPECT_EQ(back.stage(), Stage::sold);
  back.add(Return{.machine = back.id, .date = day("2026-05-06")});
  EXPECT_EQ(back.stage(), Stage::in_the_yard);
  EXPECT_EQ(here_since(lines_of(back.shop, back.id)), day("2026-05-06"));
  back.add(Material{.machine = back.id, .date = day("2026-05-05"), .what = "cord"});
  EXPECT_EQ(back.stage(), Stage::in_the_yard);  // before it came back
  back.list("2026-05-06");
  EXPECT_EQ(back.stage(), Stage::for_sale);
}

TEST(StageOf, IsHowItWentOnceItIsGone) {
  for (const auto& [how, stage] :
       {std::pair{DisposalKind::scrapped, Stage::scrapped},
        std::pair{DisposalKind::parted_out, Stage::parted_out}, std::pair{DisposalKind::kept, Stage::kept}}) {
    OneMachine m;
    m.list("2026-05-02");
    m.add(Disposal{.machine = m.id, .date = day("2026-05-03"), .how = how});
    EXPECT_EQ(m.stage(), stage);
    EXPECT_FALSE(is_here(m.stage()));
  }
}

TEST(StageOf, KnowsASaleAndAReturnOfOneDay) {
  OneMachine m;
  m.add(Sale{.machine = m.id, .date = day("2026-05-04")});
  m.add(Return{.machine = m.id, .date = day("2026-05-04")});
  EXPECT_EQ(m.stage(), Stage::in_the_yard);
  m.add(Sale{.machine = m.id, .date = day("2026-05-04")});
  EXPECT_EQ(m.stage(), Stage::sold);
}

TEST(IsHere, HoldsForTheFirstFiveStages) {
  for (const Stage stage : all_words<Stage>())
    EXPECT_EQ(is_here(stage), word(stage) != "sold" && word(stage) != "scrapped" &&
                                  word(stage) != "parted out" && word(stage) != "kept");
}

TEST(ByMachineIndex, GivesTheLinesOfEachMachineByDay) {
  const SmallShop s;
  const ByMachine all{s.shop};
  const auto& lines = all.of(s.m1);
  ASSERT_EQ(lines.fitted.size(), 2u);
  EXPECT_EQ(lines.fitted.front()->id, s.fitted_blade);  // entered later, but of an earlier day
  EXPECT_EQ(lines.sales.back()->id, s.second_sale);
  EXPECT_EQ(lines.acquisition_labour.size(), 1u);
  EXPECT_EQ(lines.labour.size(), 0u);
  EXPECT_EQ(all.of(s.m3).harvested.size(), 1u);
  EXPECT_EQ(all.of(s.m2).ordered.size(), 1u);
  EXPECT_EQ(all.of(MachineId{9999}).machine, nullptr);
}

TEST(ByMachineIndex, SaysTheSameAsTheLinesOfOneMachine) {
  const SmallShop s;
  const ByMachine all{s.shop};
  for (const Machine& machine : s.shop.all<Machine>()) {
    const auto one = lines_of(s.shop, machine.id);
    const auto& indexed = all.of(machine.id);
    EXPECT_EQ(one.machine, indexed.machine);
    EXPECT_EQ(one.acquisition, indexed.acquisition);
    EXPECT_EQ(one.fitted, indexed.fitted);
    EXPECT_EQ(one.labour, indexed.labour);
    EXPECT_EQ(one.acquisition_labour, indexed.acquisition_labour);
    EXPECT_EQ(one.sales, indexed.sales);
    EXPECT_EQ(one.listings, indexed.listings);
    EXPECT_EQ(one.ordered, indexed.ordered);
    EXPECT_EQ(stage_of(one), stage_of(indexed));
  }
}

}  // namespace
}  // namespace secondpull
