// The knowledge base as text, and the one that comes with the program.
#include "db/exchange/knowledge_json.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/decision/planner.h"
#include "core/diagnosis/belief.h"
#include "core/learning/case_maker.h"
#include "core/learning/machine_stops.h"

namespace secondpull {
namespace {

using namespace learning;
using diagnosis::TestShowed;
using testing::HasSubstr;
using testing::StartsWith;

const KnowledgeBase& base() {
  return db::published_knowledge();
}

constexpr const char* kSmall = R"({
  "sources": {"S1": {"title": "A handbook", "where": "shelf"}},
  "causes": {"leak": {"name": "float needle leaks", "says": "fuel drips", "note": "from memory"}},
  "symptoms": {"drips": {"name": "Drips", "causes": {"leak": 3}, "sources": ["S1"]}},
  "tests": {"tap": {"name": "Tap the bowl", "minutes": 2, "note": "from memory",
    "outcomes": [{"id": "stops", "name": "stops"}, {"id": "goes-on", "name": "goes on"}],
    "likelihood": {"leak": [0.3, 0.7]}}},
  "repairs": {"seat": {"name": "New seat", "minutes": [5, 10, 20], "parts": [300, 500, 900],
    "cures": {"leak": [3, 7]}, "note": "from memory"}},
  "trade": {"comes_back": {"value": [1, 9], "note": "from memory"},
    "minutes_of_comeback": {"value": [10, 20, 40], "note": "from memory"}}
})";

Problem refused(const std::string& second) {
  const auto read = db::read_knowledge({{"base", kSmall}, {"own", second}});
  EXPECT_FALSE(read) << second;
  return read ? Problem{} : read.error();
}

TEST(KnowledgeJson, ReadsEveryFieldOfASmallBase) {
  const auto read = db::read_knowledge({{"base", kSmall}});
  ASSERT_TRUE(read) << read.error().sentence;
  EXPECT_EQ(read->knowledge.symptoms.front().causes.front().second, 3);
  EXPECT_EQ(read->knowledge.repairs.front().parts.typical, Money::from_minor(500));
  EXPECT_EQ(read->knowledge.repairs.front().cures.front().second, (Beta{3, 7}));
  EXPECT_EQ(read->texts.at("leak").says, "fuel drips");
  EXPECT_EQ(read->texts.at("drips").origin.sources, std::vector<std::string>{"S1"});
}

TEST(KnowledgeJson, ALaterPartReplacesAWholeEntry) {
  const auto read = db::read_knowledge(
      {{"base", kSmall},
       {"own", R"({"causes": {"leak": {"name": "needle worn out", "note": "own shop"}}})"}});
  ASSERT_TRUE(read) << read.error().sentence;
  ASSERT_EQ(read->knowledge.causes.size(), 1U);
  EXPECT_EQ(read->knowledge.causes.front().name, "needle worn out");
  EXPECT_EQ(read->texts.at("leak").says, "");
}

TEST(KnowledgeJson, AProblemNamesPartEntryAndField) {
  const Problem unknown = refused(R"({"causes": {"leak": {"name": "x", "colour": 1, "note": "own shop"}}})");
  EXPECT_EQ(unknown.field, "own, causes.leak.colour");
  const Problem no_origin = refused(R"({"causes": {"leak": {"name": "x"}}})");
  EXPECT_EQ(no_origin.field, "own, causes.leak");
  EXPECT_THAT(no_origin.sentence, HasSubstr("sources"));
  const Problem no_source = refused(R"({"causes": {"leak": {"name": "x", "sources": ["S9"]}}})");
  EXPECT_EQ(no_source.field, "own, causes.leak");
  EXPECT_EQ(no_source.value, "S9");
  const Problem wrong_word = refused(
      R"({"symptoms": {"drips": {"name": "x", "causes": {}, "engine": "asleep", "note": "own shop"}}})");
  EXPECT_EQ(wrong_word.field, "own, symptoms.drips.engine");
  EXPECT_EQ(wrong_word.value, "asleep");
  const Problem missing = refused(R"({"repairs": {"seat": {"name": "x", "note": "own shop"}}})");
  EXPECT_THAT(missing.sentence, HasSubstr("\"minutes\""));
  EXPECT_EQ(missing.field, "own, repairs.seat");
}

TEST(KnowledgeJson, ARowThatDoesNotAddUpNamesItsTestAndCause) {
  const Problem wrong = refused(R"({"tests": {"tap": {"name": "Tap", "minutes": 2, "note": "own shop",
    "outcomes": [{"id": "a", "name": "a"}, {"id": "b", "name": "b"}], "likelihood": {"leak": [0.3, 0.6]}}}})");
  EXPECT_THAT(wrong.field, HasSubstr("tests.tap.likelihood.leak"));
}

TEST(KnowledgeJson, ReadsPartsToPull) {
  const auto read = db::read_knowledge({{"base", kSmall}, {"own", R"({"parts_to_pull": {
    "engine": {"name": "Engine", "kinds": ["push"], "price": [4000, 6000, 9000], "chance": 0.6,
      "minutes": [40, 60, 100], "note": "own shop"},
    "carb": {"name": "Carburetor", "says": "clean it first", "price": [800, 1200, 2000], "chance": 0.5,
      "minutes": [20, 30, 45], "spoiled_by": ["leak"], "goes_with": "engine", "note": "own shop"}}})"}});
  ASSERT_TRUE(read) << read.error().sentence;
  const PartToPull& carb = read->knowledge.parts_to_pull.front();
  EXPECT_EQ(carb.price.high, Money::from_minor(2000));
  EXPECT_EQ(carb.chance, 0.5);
  EXPECT_EQ(carb.minutes, (Range{20, 30, 45}));
  EXPECT_EQ(carb.spoiled_by, std::vector<std::string>{"leak"});
  EXPECT_EQ(carb.goes_with, "engine");
  EXPECT_EQ(read->knowledge.parts_to_pull.back().kinds, std::vector{MachineKind::push});
  EXPECT_EQ(read->texts.at("carb").says, "clean it first");
}

TEST(KnowledgeJson, ReadsTheSeasonKnownWorkAndNamesOfParts) {
  const auto read = db::read_knowledge({{"base", kSmall}, {"own", R"({
    "trade": {"season_price": {"value": [1, 1, 1.1, 1, 1, 1, 1, 1, 1, 1, 1, 0.9], "note": "own shop"},
      "season_days": {"value": [9, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1], "note": "own shop"}},
    "kinds": {"push": {"running_price": [1, 2, 3], "as_is_price": [1, 2, 3], "minutes_to_sell": [1, 2, 3],
      "days_to_sell": [3, 5, 14], "weight": [1, 2, 3], "note": "own shop"}},
    "known_work": {"dull": {"name": "Dull blade", "also": ["blade dull"], "kinds": ["push"],
      "cost": [0, 50, 200], "minutes": [12, 20, 30], "note": "own shop"}},
    "repairs": {"seat": {"name": "New seat", "minutes": [5, 10, 20], "parts": [300, 500, 900],
      "parts_named": ["needle and seat"], "days": 4, "cures": {"leak": [3, 7]}, "note": "own shop"}}})"}});
  ASSERT_TRUE(read) << read.error().sentence;
  const Knowledge& k = read->knowledge;
  EXPECT_EQ(k.season.price[2], 1.1);
  EXPECT_EQ(k.season.price[11], 0.9);
  EXPECT_EQ(k.season.days[0], 9);
  EXPECT_EQ(k.kinds.front().days_to_sell, (Range{3, 5, 14}));
  EXPECT_EQ(k.known_work.front().name, "Dull blade");
  EXPECT_EQ(k.known_work.front().also, std::vector<std::string>{"blade dull"});
  EXPECT_EQ(k.known_work.front().cost.high, Money::from_minor(200));
  EXPECT_EQ(k.known_work.front().minutes, (Range{12, 20, 30}));
  EXPECT_EQ(k.repairs.front().parts_named, std::vector<std::string>{"needle and seat"});
  EXPECT_EQ(k.repairs.front().days, 4);
}

TEST(KnowledgeJson, ASeasonHasTwelveMonthsAboveNothing) {
  EXPECT_THAT(refused(R"({"trade": {"season_price": {"value": [1, 1], "note": "own shop"}}})").sentence,
              HasSubstr("twelve"));
  EXPECT_EQ(refused(R"({"trade": {"season_days": {"value": [1, 0, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1],
    "note": "own shop"}}})")
                .field,
            "own, trade.season_days[1]");
  EXPECT_EQ(refused(R"({"known_work": {"dull": {"name": "Dull blade", "cost": [0, 9, 5],
    "minutes": [1, 2, 3], "note": "own shop"}}})")
                .field,
            "own, known_work.dull.cost");
}

TEST(KnowledgeJson, APartToPullThatCannotBeIsRefusedByName) {
  const auto part = [](const char* fields) {
    return fmt::format(
        R"({{"parts_to_pull": {{"bag": {{"name": "Bag", "price": [1, 2, 3], "minutes": [1, 2, 3],
      "note": "own shop", {}}}}}}})",
        fields);
  };
  EXPECT_EQ(refused(part(R"("chance": 1.5)")).field, "own, parts_to_pull.bag.chance");
  EXPECT_EQ(refused(part(R"("chance": 1, "spoiled_by": ["rust"])")).field,
            "own, parts_to_pull.bag.spoiled_by");
  EXPECT_EQ(refused(part(R"("chance": 1, "goes_with": "boat")")).value, "boat");
  EXPECT_EQ(refused(part(R"("chance": 1, "sources": ["S9"])")).value, "S9");
  EXPECT_THAT(refused(part(R"("says": "")")).sentence, HasSubstr("\"chance\""));
}

KnowledgeEdit own(std::int64_t id, const char* section, const char* entry, const char* text) {
  return {.id = KnowledgeEditId{id}, .entered = id, .section = section, .entry = entry, .text = text};
}
Shop shop_that_knows(std::initializer_list<KnowledgeEdit> edits) {
  Shop shop;
  for (const KnowledgeEdit& edit : edits)
    shop.all<KnowledgeEdit>().insert(edit);
  return shop;
}
Problem refused(const KnowledgeEdit& edit) {
  const auto read = db::knowledge_with_own_entries(shop_that_knows({edit}));
  EXPECT_FALSE(read) << edit.text;
  return read ? Problem{} : read.error();
}

constexpr const char* kNeedleWorn = R"({"name": "needle worn out", "says": "drips", "note": "own shop"})";

TEST(OwnEntries, TakeThePlaceOfPublishedOnesAndStandBesideThem) {
  const auto read = db::knowledge_with_own_entries(
      shop_that_knows({own(1, "causes", "coil-dead", R"({"name": "coil is gone", "note": "own shop"})"),
                       own(2, "causes", "needle-worn", kNeedleWorn)}));
  ASSERT_TRUE(read) << read.error().sentence;
  EXPECT_EQ(read->knowledge.causes.size(), base().knowledge.causes.size() + 1);
  ASSERT_NE(read->knowledge.cause("coil-dead"), nullptr);
  EXPECT_EQ(read->knowledge.cause("coil-dead")->name, "coil is gone");
  EXPECT_EQ(read->texts.at("coil-dead").says, "") << "as a whole";
  EXPECT_EQ(read->texts.at("needle-worn").says, "drips");
  EXPECT_EQ(read->knowledge.tests.size(), base().knowledge.tests.size());
}

TEST(OwnEntries, AreNoneInAShopThatKeptNone) {
  const auto read = db::knowledge_with_own_entries({});
  ASSERT_TRUE(read);
  EXPECT_EQ(read->texts.size(), base().texts.size());
}

TEST(OwnEntries, NameThemselvesInAProblem) {
  const Problem no_json = refused(own(1, "causes", "needle-worn", R"({"name": )"));
  EXPECT_THAT(no_json.field, StartsWith("own entry causes needle-worn"));
  const Problem no_entry = refused(own(1, "causes", "needle-worn", "3"));
  EXPECT_EQ(no_entry.field, "own entry causes needle-worn, causes.needle-worn");
  const Problem unknown =
      refused(own(1, "causes", "needle-worn", R"({"name": "x", "colour": 1, "note": "own shop"})"));
  EXPECT_EQ(unknown.field, "own entry causes needle-worn, causes.needle-worn.colour");
  EXPECT_THAT(unknown.sentence, StartsWith("own entry causes needle-worn: "));
  const Problem no_section = refused(own(1, "reasons", "needle-worn", kNeedleWorn));
  EXPECT_EQ(no_section.field, "own entry reasons needle-worn, reasons");
  const Problem no_cause = refused(
      own(1, "symptoms", "drips", R"({"name": "Drips", "causes": {"nothing": 1}, "note": "own shop"})"));
  EXPECT_THAT(no_cause.field, StartsWith("own entry symptoms drips, symptoms.drips"));
}

TEST(OwnEntries, HoldNothingButTheirOneEntry) {
  const Problem more =
      refused(own(1, "causes", "needle-worn", R"({"name": "x", "note": "y"}}, "tests": {"z": {}})"));
  EXPECT_THAT(more.field, StartsWith("own entry causes needle-worn"));
}

TEST(PublishedKnowledge, ResolvesAndEveryRowAddsUpToOne) {
  EXPECT_TRUE(problems_of(base().knowledge).empty());
  EXPECT_EQ(base().knowledge.symptoms.size(), 35U);
  EXPECT_EQ(base().knowledge.causes.size(), 86U);
  for (const learning::Test& test : base().knowledge.tests) {
    ASSERT_TRUE(test.otherwise) << test.id;
    for (const auto& [cause, row] : test.likelihood)
      EXPECT_NEAR(std::accumulate(row.begin(), row.end(), 0.0), 1, 1e-9) << test.id << ", " << cause;
    EXPECT_NEAR(std::accumulate(test.otherwise->begin(), test.otherwise->end(), 0.0), 1, 1e-9) << test.id;
  }
}

TEST(PublishedKnowledge, EveryEntrySaysWhereItComesFrom) {
  for (const auto& [id, text] : base().texts)
    EXPECT_FALSE(text.origin.sources.empty() && text.origin.note.empty()) << id;
  for (const Measurement& entry : base().measurements) {
    EXPECT_FALSE(entry.origin.sources.empty() && entry.origin.note.empty()) << entry.id;
    EXPECT_TRUE(entry.low || entry.nominal || entry.high || !entry.rule.empty()) << entry.id;
  }
}

TEST(PublishedKnowledge, CoversEveryKindOfMachine) {
  for (const MachineKind kind : {MachineKind::push, MachineKind::self_propelled, MachineKind::lawn_tractor,
                                 MachineKind::zero_turn, MachineKind::trimmer, MachineKind::blower}) {
    EXPECT_NE(base().knowledge.figures(kind), nullptr) << word(kind);
    EXPECT_FALSE(parts_worth(base().knowledge, kind, {"USD", 2}).empty()) << word(kind);
  }
}

TEST(PublishedKnowledge, WordsForStepsNameOneStepEach) {
  std::set<std::string> names;
  for (const learning::Test& test : base().knowledge.tests)
    EXPECT_TRUE(names.insert(test.name).second) << test.name;
  for (const Repair& repair : base().knowledge.repairs)
    EXPECT_TRUE(names.insert(repair.name).second) << repair.name;
}

TEST(PublishedKnowledge, EveryCauseOfASymptomCanBeToldOrCured) {
  for (const Symptom& symptom : base().knowledge.symptoms)
    for (const auto& [cause, weight] : symptom.causes) {
      const bool cured = std::any_of(base().knowledge.repairs.begin(), base().knowledge.repairs.end(),
                                     [&, c = cause](const Repair& r) {
                                       return std::any_of(r.cures.begin(), r.cures.end(),
                                                          [&](const auto& each) { return each.first == c; });
                                     });
      EXPECT_TRUE(cured) << symptom.id << ", " << cause;
    }
}

TEST(PublishedKnowledge, EverySymptomMakesACaseForEveryKindItIsAbout) {
  Circumstances circumstances;
  circumstances.revived.price = 100;
  circumstances.stops = {{.id = "scrap"}};
  for (const Symptom& symptom : base().knowledge.symptoms)
    for (const MachineKind kind : {MachineKind::push, MachineKind::self_propelled, MachineKind::lawn_tractor,
                                   MachineKind::zero_turn, MachineKind::trimmer, MachineKind::blower}) {
      if (!fits(symptom.kinds, kind)) continue;
      const auto made = make_case(base().knowledge, {}, {.symptom = symptom.id, .kind = kind}, circumstances);
      ASSERT_TRUE(made) << symptom.id << ": " << made.error().sentence;
      EXPECT_FALSE(made->repairs.empty()) << symptom.id << ", " << word(kind);
      EXPECT_FALSE(made->tests.empty()) << symptom.id << ", " << word(kind);
    }
}

/// The belief after evidence, for a push mower.
std::map<std::string, double> belief(const std::string& symptom, std::vector<diagnosis::Evidence> evidence) {
  Circumstances circumstances;
  circumstances.currency = Currency{"USD", 2};
  circumstances.revived.price = 100;
  circumstances.stops = {{.id = "scrap"}};
  const auto made =
      make_case(base().knowledge, {}, {.symptom = symptom, .evidence = std::move(evidence)}, circumstances);
  EXPECT_TRUE(made) << (made ? "" : made.error().sentence);
  std::map<std::string, double> out;
  if (!made) return out;
  // A plain recomputation: prior times the row of what was seen, divided by the sum.
  double sum = 0;
  for (const diagnosis::Cause& cause : made->causes) {
    double weight = cause.weight;
    for (const diagnosis::Evidence& line : made->evidence) {
      const auto& showed = std::get<TestShowed>(line);
      const auto test = std::find_if(made->tests.begin(), made->tests.end(),
                                     [&](const diagnosis::Test& each) { return each.id == showed.test; });
      const auto place = static_cast<std::size_t>(
          std::find(test->outcomes.begin(), test->outcomes.end(), showed.outcome) - test->outcomes.begin());
      const auto row = std::find_if(test->likelihood.begin(), test->likelihood.end(),
                                    [&](const auto& each) { return each.first == cause.id; });
      weight *= row == test->likelihood.end() ? (*test->otherwise)[place] : row->second[place];
    }
    out[cause.id] = weight;
    sum += weight;
  }
  const auto theirs = diagnosis::posterior(*made);
  std::size_t i = 0;
  for (const diagnosis::Cause& cause : made->causes) {
    out[cause.id] /= sum;
    EXPECT_NEAR(out[cause.id], theirs[i++], 1e-12) << cause.id;
  }
  return out;
}

// Common practice, no source: an engine that runs on fuel given at the intake has spark and compression.
TEST(PublishedKnowledge, RunningOnPrimeClearsSparkAndCompression) {
  const auto after = belief("nostart-pull", {TestShowed{"test-prime-intake", "runs-then-dies"}});
  for (const char* cause : {"coil-dead", "kill-grounded", "rings-worn", "valve-burnt", "head-gasket"})
    EXPECT_LT(after.at(cause), 0.01) << cause;
  EXPECT_GT(after.at("carb-main-clogged"), 0.35);
}

/// The case of a push mower of which the cause is known, and hours are free.
diagnosis::Case known_cause(const std::string& symptom, const std::string& cause) {
  Circumstances circumstances;
  circumstances.currency = Currency{"USD", 2};
  circumstances.revived.price = 100;
  circumstances.stops = {{.id = "scrap"}};
  auto made = make_case(base().knowledge, {}, {.symptom = symptom}, circumstances);
  EXPECT_TRUE(made) << (made ? "" : made.error().sentence);
  if (!made) return {};
  for (diagnosis::Cause& each : made->causes)
    each.weight = each.id == cause ? 1 : 0;
  return *std::move(made);
}

// Common practice, no source: a float needle that leaks is hardly ever cured by a new seat, and nearly always
// by a new carburetor at three times its price.
TEST(PublishedKnowledge, ALeakingFloatNeedleGetsANewCarburetorBeforeANewSeat) {
  diagnosis::Case leaks = known_cause("fuel-leak", "needle-leaks");
  leaks.tests.clear();  // there is nothing left to find out
  auto answer = decision::verdict(leaks);
  ASSERT_TRUE(answer) << answer.error().sentence;
  EXPECT_EQ(answer->next.id, "mend-carb-replace-wb");  // before every other repair too
  // Of those two alone: the carburetor first, and the seat if that does not hold.
  std::erase_if(leaks.repairs, [](const diagnosis::Repair& each) {
    return each.id != "mend-carb-replace-wb" && each.id != "mend-needle-seat";
  });
  answer = decision::verdict(leaks);
  ASSERT_TRUE(answer) << answer.error().sentence;
  EXPECT_EQ(answer->next.id, "mend-carb-replace-wb");
  EXPECT_NEAR(answer->value, -15 + 0.9875 * 100 + 0.0125 * (-5 + 0.28 * 100), 1e-9);
}

}  // namespace
}  // namespace secondpull
