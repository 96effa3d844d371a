#include "core/paper/bench_sheet.h"

#include <numeric>

#include <gmock/gmock.h>

#include "tests/core/paper/paper_base.h"

namespace secondpull::paper {
namespace {

using test::BareShop;
using test::day;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

/// A machine that does not start: a spark test tells the plug from the jet, and each has its repair.
struct Planned {
  BareShop bare;
  MachineId machine = bare.add(Machine{.tag = "14",
                                       .acquisition = bare.curb,
                                       .serial = "S1",
                                       .symptom = "will not start",
                                       .condition = "blade dull"});
  learning::MachineCase asked;
  Planned() {
    asked.of.causes = {{"jet", 6}, {"plug", 3.9}, {"key", 0.1}};
    asked.of.tests = {{.id = "spark",
                       .cost = 2,
                       .minutes = 4,
                       .outcomes = {"strong", "none"},
                       .likelihood = {{"jet", {1, 0}}, {"plug", {0, 1}}, {"key", {1, 0}}}}};
    asked.of.repairs = {{.id = "clean", .cost = 9, .minutes = 60, .cures = {{"jet", 0.75}}},
                        {.id = "new-plug", .cost = 4, .minutes = 5, .days = 1.5, .cures = {{"plug", 0.9}}}};
    asked.of.hour_value = 20;
    asked.of.revived = {.price = 150};
    asked.of.stops = {{.id = "scrap", .value = 5}};
  }
  BenchSheet sheet() const {
    const auto answer = decision::verdict(asked.of);
    if (!answer) throw std::invalid_argument{answer.error().sentence};
    return bench_sheet(bare.shop, lines_of(bare.shop, machine), test::paper_base(), asked, *answer,
                       day("2026-05-04"));
  }
};

TEST(BenchSheet, ListsTheCausesLikeliestFirst) {
  const BenchSheet sheet = Planned{}.sheet();
  ASSERT_EQ(sheet.causes.size(), 3U);
  EXPECT_EQ(sheet.causes[0].first, "Main jet clogged");
  EXPECT_NEAR(sheet.causes[0].second, 0.6, 1e-12);
  EXPECT_EQ(sheet.causes[2].first, "Flywheel key sheared");
  EXPECT_EQ(sheet.other_causes, 0);
}

TEST(BenchSheet, SumsUpCausesThatDoNotFit) {
  Planned s;
  for (int i = 0; i < 8; ++i)
    s.asked.of.causes.push_back({"cause" + std::to_string(i), 0.5});
  const BenchSheet sheet = s.sheet();
  EXPECT_EQ(sheet.causes.size(), kCausesOnSheet);
  double all = sheet.other_causes;
  for (const auto& [name, chance] : sheet.causes)
    all += chance;
  EXPECT_NEAR(all, 1, 1e-9);
}

TEST(BenchSheet, HasTheNextStepsWithWhyCautionsAndFigures) {
  const BenchSheet sheet = Planned{}.sheet();
  ASSERT_GE(sheet.steps.size(), 2U);
  const SheetStep& first = sheet.steps[0];
  EXPECT_EQ(first.title, "Spark tester");
  EXPECT_EQ(first.when, "");
  EXPECT_EQ(first.takes, "4 min, about $2");
  EXPECT_EQ(first.says, "Clip the tester to bare metal and pull.");
  EXPECT_NE(first.why, "");
  EXPECT_THAT(first.cautions, ElementsAre("Carbon monoxide. It kills. Outdoors only.",
                                          "Ignition shock. Clip the tester on."));
  EXPECT_THAT(first.readings, ElementsAre(ReadingLine{"Tester gap", "0.166 in; the jump counts"}));
  // 6.1 of 10 have a strong spark.
  ASSERT_EQ(first.outcomes.size(), 2U);
  EXPECT_EQ(first.outcomes[0].first, "Strong");
  EXPECT_EQ(first.outcomes[0].second, "61 %; then: Carburettor cleaned");
  const SheetStep& second = sheet.steps[1];
  EXPECT_EQ(second.when, "If \"Spark tester\" shows \"Strong\" (61 %):");
  EXPECT_EQ(second.title, "Carburettor cleaned");
  EXPECT_EQ(second.takes, "1 h, about $9");
  EXPECT_THAT(second.outcomes[0].second, StartsWith("74 %"));  // 0.75 of 6 in 6.1
  EXPECT_THAT(sheet.stop_if, Contains(HasSubstr("Carburettor cleaned")));
}

TEST(BenchSheet, OfAPlanThatStopsSaysSo) {
  Planned s;
  s.asked.of.revived.price = 6;
  const BenchSheet sheet = s.sheet();
  ASSERT_EQ(sheet.steps.size(), 1U);
  EXPECT_EQ(sheet.steps[0].title, "scrap");
  EXPECT_EQ(sheet.steps[0].takes, "");
  EXPECT_THAT(sheet.steps[0].why, StartsWith("Stop here"));
}

TEST(BenchSheet, WithoutAPlanHasWhatIsKnownAndRoomToWrite) {
  Planned s;
  const FaultId fault = s.bare.fault(s.machine, "Does not start");
  s.bare.finding(s.machine, "2026-03-03", "Spark tester", "Strong", fault);
  s.bare.add(Finding{.machine = s.machine,
                     .date = day("2026-03-04"),
                     .step = "Compression",
                     .outcome = "low",
                     .fault = fault,
                     .reading = "40",
                     .unit = "psi"});
  s.bare.finding(s.machine, "2026-03-04", "Caution read: Ignition shock", "read", fault);
  const BenchSheet sheet = blank_sheet(lines_of(s.bare.shop, s.machine), day("2026-05-04"));
  EXPECT_EQ(sheet.tag.number, "#14");
  EXPECT_EQ(sheet.tag.symptom, "Does not start");
  EXPECT_EQ(sheet.facts, "serial S1");
  EXPECT_EQ(sheet.came_with, "will not start; blade dull");
  EXPECT_THAT(sheet.seen, ElementsAre("Spark tester: Strong", "Compression: low (40 psi)"));
  EXPECT_THAT(sheet.steps, IsEmpty());
  EXPECT_THAT(sheet.causes, IsEmpty());
}

TEST(Limits, AreWordsForFiguresAndRules) {
  EXPECT_EQ(limits_of({.unit = "psi", .low = 60, .high = 80}), "60 to 80 psi");
  EXPECT_EQ(limits_of({.unit = "psi", .low = 160, .rule = "no more than 15 % apart"}),
            "at least 160 psi; no more than 15 % apart");
  EXPECT_EQ(limits_of({.unit = "psi", .high = 5.5}), "at most 5.5 psi");
  EXPECT_EQ(limits_of({.unit = "in", .nominal = 0.0125}), "0.0125 in");
  EXPECT_EQ(limits_of({.unit = "psi", .rule = "none published"}), "none published");
}

}  // namespace
}  // namespace secondpull::paper
