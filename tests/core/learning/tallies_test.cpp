#include "core/learning/tallies.h"

#include <gmock/gmock.h>
#include <rapidcheck.h>

#include "core/learning/tries.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::learning {
namespace {

using test::BareShop;
using test::small_knowledge;
using testing::ElementsAre;
using testing::Pair;

Tallies tallied(const BareShop& s) {
  return tallies_of(ByMachine{s.shop}, s.shop, small_knowledge());
}

constexpr std::string_view kEnd = "2026-03-09";

TEST(Tallies, CountACureWhenTheFaultEndedMendedAndNamesItsCause) {
  BareShop s;
  const MachineId m = s.machine();
  const FaultId f = s.fault(m, "Won't pop", "main jet clogged", kEnd);
  s.finding(m, "2026-03-04", "Carburettor cleaned", "Mended", f);
  const Tallies t = tallied(s);
  EXPECT_EQ(t.tries("clean", "jet"), (Tries{1, 1}));
  EXPECT_THAT(t.causes.at("no-start"), ElementsAre(Pair("jet", 1)));
}

TEST(Tallies, CountAMissForEachTryAfterWhichTheFaultWentOn) {
  BareShop s;
  const MachineId m = s.machine();
  const FaultId f = s.fault(m, "no-start", "jet", kEnd);
  s.finding(m, "2026-03-03", "clean", "still does not start", f);
  s.finding(m, "2026-03-04", "clean", "mended", f);  // or so it seemed, that evening
  s.finding(m, "2026-03-05", "clean", "mended", f);
  EXPECT_EQ(tallied(s).tries("clean", "jet"), (Tries{3, 1}));
}

TEST(Tallies, LearnNothingFromTwoThatBothMendedItOnOneDay) {
  BareShop s;
  const MachineId m = s.machine();
  const FaultId f = s.fault(m, "no-start", "jet", kEnd);
  s.finding(m, "2026-03-03", "clean", "failed", f);
  s.finding(m, "2026-03-05", "new plug", "mended", f);
  s.finding(m, "2026-03-05", "clean", "mended", f);
  const Tallies t = tallied(s);
  EXPECT_EQ(t.tries("clean", "jet"), (Tries{1, 0}));
  EXPECT_EQ(t.tries("new-plug", "jet"), (Tries{}));
}

TEST(Tallies, LearnNothingFromALastTryThatDoesNotSayWhatCameOfIt) {
  BareShop s;
  const MachineId m = s.machine();
  const FaultId f = s.fault(m, "no-start", "jet", kEnd);
  s.finding(m, "2026-03-05", "clean", "done", f);
  const Tallies t = tallied(s);
  EXPECT_EQ(t.tries("clean", "jet"), (Tries{}));
  EXPECT_THAT(t.causes.at("no-start"), ElementsAre(Pair("jet", 1)));
}

TEST(Tallies, CountTheFailuresOfMachinesThatWereGivenUp) {
  BareShop s;
  const MachineId m = s.machine();
  const FaultId f = s.fault(m, "no-start", "jet", kEnd, FaultEnd::given_up);
  s.finding(m, "2026-03-03", "clean", "mended", f);
  s.finding(m, "2026-03-05", "clean", "no better", f);
  const Tallies t = tallied(s);
  EXPECT_EQ(t.tries("clean", "jet"), (Tries{2, 0}));
  EXPECT_THAT(t.causes.at("no-start"), ElementsAre(Pair("jet", 1)));
}

TEST(Tallies, LearnNothingFromAMistakeOrFromAGuessAtAnOpenFault) {
  BareShop s;
  for (const bool open : {false, true}) {
    const MachineId m = s.machine();
    const FaultId f = s.fault(m, "no-start", "jet", open ? "" : kEnd, FaultEnd::mistaken);
    s.finding(m, "2026-03-03", "clean", "mended", f);
  }
  const Tallies t = tallied(s);
  EXPECT_TRUE(t.cures.empty());
  EXPECT_TRUE(t.causes.empty());
}

TEST(Tallies, DoNotTakeOtherWorkForATryAtTheFault) {
  BareShop s;
  const MachineId m = s.machine();
  const FaultId f = s.fault(m, "no-start", "jet", kEnd);
  s.finding(m, "2026-03-05", "clean", "mended", f);
  s.finding(m, "2026-03-06", "blade", "done", f);
  s.finding(m, "2026-03-06", "new plug", "fitted", f);
  const Tallies t = tallied(s);
  EXPECT_EQ(t.tries("clean", "jet"), (Tries{1, 1}));
  EXPECT_EQ(t.cures.size(), 1u);
}

TEST(Tallies, LearnThatARepairCuresWhatNobodyKnewItCures) {
  BareShop s;
  const MachineId m = s.machine();
  s.finding(m, "2026-03-05", "new plug", "mended", s.fault(m, "no-start", "jet", kEnd));
  const Knowledge k = small_knowledge();
  const Tallies t = tallied(s);
  EXPECT_EQ(cure(k.repairs[1], "jet", t), (Beta{1.5, 0.5}));
  EXPECT_EQ(cure(k.repairs[1], "key", t), std::nullopt);
  Tallies in_vain;
  in_vain.cures[{"new-plug", "key"}] = {.tried = 3, .cured = 0};
  EXPECT_EQ(cure(k.repairs[1], "key", in_vain), std::nullopt);
}

TEST(Tallies, GiveAFindingWithoutAFaultToTheOnlyOneThatWasOpen) {
  BareShop s;
  const MachineId m = s.machine();
  s.fault(m, "no-start", "jet", kEnd);
  s.finding(m, "2026-03-01", "clean", "mended");  // before
  s.finding(m, "2026-03-05", "clean", "mended");
  s.finding(m, "2026-03-10", "clean", "mended");  // after
  EXPECT_EQ(tallied(s).tries("clean", "jet"), (Tries{1, 1}));
  s.fault(m, "surges", "leak", kEnd);  // now two were open that day
  EXPECT_EQ(tallied(s).tries("clean", "jet"), (Tries{}));
}

TEST(Tallies, KeepTheWordsThatTaughtNothing) {
  BareShop s;
  const MachineId m = s.machine();
  s.fault(m, "makes a noise", "gremlins", kEnd);
  s.fault(m, "makes a noise", "", kEnd);
  s.fault(m, "no-start", "Unlisted", kEnd);
  const Tallies t = tallied(s);
  EXPECT_THAT(t.unknown_symptoms, ElementsAre(Pair("makes a noise", 2)));
  EXPECT_THAT(t.unknown_causes, ElementsAre(Pair("gremlins", 1)));
  EXPECT_THAT(t.causes.at("no-start"), ElementsAre(Pair("unlisted", 1)));
}

TEST(Tallies, KeepEveryTimeThatWasTaken) {
  BareShop s;
  const MachineId m = s.machine();
  s.finding(m, "2026-03-03", "Spark tester", "none", {}, Minutes{6});
  s.finding(m, "2026-03-04", "spark", "strong", {}, Minutes{2});
  s.finding(m, "2026-03-04", "spark", "strong");
  s.finding(m, "2026-03-04", "clean", "mended", {}, Minutes{50});
  const Tallies t = tallied(s);
  EXPECT_THAT(t.minutes, ElementsAre(Pair("clean", ElementsAre(50)), Pair("spark", ElementsAre(6, 2))));
  EXPECT_EQ(minutes_of("spark", about(4), t), 4);
  EXPECT_GT(minutes_of("spark", about(3), t), 3);
  EXPECT_EQ(minutes_of("prime", about(3), t), 3);
}

TEST(Cures, AddTheRecordToTheKnowledge) {
  Tallies t;
  t.cures[{"clean", "jet"}] = {.tried = 4, .cured = 1};
  // (12 + 1) / (12 + 4 + 4)
  EXPECT_DOUBLE_EQ(cure(small_knowledge().repairs[0], "jet", t)->mean(), 13.0 / 20);
}

TEST(Causes, AddTheRecordToTheWeightsAndAlwaysLeaveRoomForAnother) {
  const Knowledge k = small_knowledge();
  Tallies t;
  t.causes["no-start"] = {{"plug", 2}, {"leak", 1}, {"unlisted", 3}};
  EXPECT_THAT(causes_of(k.symptoms[0], t).counts(),
              ElementsAre(Pair("jet", 60), Pair("plug", 22), Pair("key", 20), Pair("unlisted", 5 + 3),
                          Pair("leak", 1)));
  EXPECT_THAT(causes_of(Symptom{.id = "new"}, t).counts(), ElementsAre(Pair("unlisted", 1)));
  EXPECT_THAT(causes_of(Symptom{.id = "new", .causes = {{"jet", 1}, {"unlisted", 9}}}, t).counts(),
              ElementsAre(Pair("jet", 1), Pair("unlisted", 9)));
}

TEST(Tallies, NeverCountMoreCuresThanFaultsOrMoreTriesThanFindings) {
  EXPECT_TRUE(rc::check("any record", [] {
    BareShop s;
    std::map<std::string, std::int64_t> mended, findings;
    const std::vector<std::string> causes{"jet", "plug", "key", "unlisted", "", "gremlins"};
    const std::vector<std::string> steps{"clean", "new plug", "new key", "blade", "spark", "sigh"};
    const std::vector<std::string> outcomes{"mended", "failed", "done", "none"};
    for (int machines = *rc::gen::inRange(1, 4); machines > 0; --machines) {
      const MachineId m = s.machine();
      std::vector<FaultId> faults;
      for (int n = *rc::gen::inRange(1, 3); n > 0; --n) {
        const auto how = *rc::gen::element(FaultEnd::mended, FaultEnd::given_up, FaultEnd::mistaken);
        const std::string cause = *rc::gen::elementOf(causes);
        const std::string ended = *rc::gen::element(std::string{}, std::string{kEnd});
        if (how == FaultEnd::mended && !ended.empty()) ++mended[cause];
        faults.push_back(s.fault(m, "no-start", cause, ended, how));
      }
      for (int n = *rc::gen::inRange(0, 6); n > 0; --n) {
        const std::string step = *rc::gen::elementOf(steps);
        ++findings[step];
        const auto fault = *rc::gen::element(std::optional<FaultId>{}, std::optional{faults.front()});
        s.finding(m, "2026-03-0" + std::to_string(*rc::gen::inRange(2, 9)), step,
                  *rc::gen::elementOf(outcomes), fault);
      }
    }
    const Tallies t = tallied(s);
    std::map<std::string, std::int64_t> cured;
    for (const auto& [key, seen] : t.cures) {
      RC_ASSERT(seen.cured >= 0 && seen.cured <= seen.tried);
      RC_ASSERT(key.second != "" && key.second != "gremlins");
      cured[key.second] += seen.cured;
      if (key.first == "clean") RC_ASSERT(seen.tried <= findings["clean"]);
    }
    for (const auto& [cause, times] : cured)
      RC_ASSERT(times <= mended[cause]);
  }));
}

}  // namespace
}  // namespace secondpull::learning
