#include "core/learning/knowledge.h"

#include <functional>
#include <limits>

#include <gmock/gmock.h>

#include "tests/core/learning/small_knowledge.h"

namespace secondpull::learning {
namespace {

using test::small_knowledge;
using testing::HasSubstr;

TEST(Knowledge, KnowsAnEntryByItsIdItsNameAndItsOtherWords) {
  const Knowledge k = small_knowledge();
  EXPECT_EQ(k.symptom("no-start"), &k.symptoms[0]);
  EXPECT_EQ(k.symptom("  pulls OVER, does not start "), &k.symptoms[0]);
  EXPECT_EQ(k.symptom("Won't pop"), &k.symptoms[0]);
  EXPECT_EQ(k.cause("carb gummed"), &k.causes[0]);
  EXPECT_EQ(k.test("spark tester"), &k.tests[1]);
  EXPECT_EQ(k.repair("New Plug"), &k.repairs[1]);
  EXPECT_EQ(outcome(k.tests[1], "No spark"), &k.tests[1].outcomes[1]);
  EXPECT_EQ(k.symptom("does not start"), nullptr);
  EXPECT_EQ(k.symptom("  "), nullptr);
  EXPECT_EQ(k.figures(MachineKind::push), &k.kinds[0]);
  EXPECT_EQ(k.figures(MachineKind::blower), nullptr);
}

TEST(Knowledge, TakesAnIdBeforeANameAndANameBeforeAPhrase) {
  Knowledge k = small_knowledge();
  k.causes[0].also = {"Plug fouled", "key"};
  EXPECT_EQ(k.cause("plug fouled"), &k.causes[1]);
  EXPECT_EQ(k.cause("key"), &k.causes[2]);
}

TEST(Knowledge, OffersWhatTheEngineAllows) {
  for (const Engine engine : {Engine::unknown, Engine::none, Engine::turns, Engine::runs})
    EXPECT_TRUE(can_be_made(Needs::nothing, engine));
  for (const Needs needs : {Needs::turning, Needs::turning_but_not_starting, Needs::running}) {
    EXPECT_TRUE(can_be_made(needs, Engine::unknown));
    EXPECT_FALSE(can_be_made(needs, Engine::none));
  }
  EXPECT_TRUE(can_be_made(Needs::turning, Engine::turns));
  EXPECT_TRUE(can_be_made(Needs::turning, Engine::runs));
  EXPECT_TRUE(can_be_made(Needs::turning_but_not_starting, Engine::turns));
  EXPECT_FALSE(can_be_made(Needs::turning_but_not_starting, Engine::runs));
  EXPECT_TRUE(can_be_made(Needs::running, Engine::runs));
  EXPECT_FALSE(can_be_made(Needs::running, Engine::turns));
}

TEST(Knowledge, FitsItsKindsAndAMachineOfNoKindFitsEverywhere) {
  EXPECT_TRUE(fits({}, MachineKind::push));
  EXPECT_TRUE(fits({MachineKind::push}, MachineKind::push));
  EXPECT_FALSE(fits({MachineKind::push}, MachineKind::blower));
  EXPECT_TRUE(fits({MachineKind::push}, MachineKind::other));
}

TEST(KnowledgeProblems, AreNoneInASoundOne) {
  EXPECT_THAT(problems_of(small_knowledge()), testing::IsEmpty());
  EXPECT_FALSE(problems_of(Knowledge{.comes_back = {0, 0}}).empty());
}

TEST(KnowledgeProblems, NameTheFieldAndTheValue) {
  struct Spoiled {
    std::function<void(Knowledge&)> spoil;
    std::string field;
    std::string value;
  };
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const std::vector<Spoiled> all{
      {[](Knowledge& k) { k.causes[1].id = ""; }, "causes[1].id", ""},
      {[](Knowledge& k) { k.tests[1].id = "prime"; }, "tests[1].id", "prime"},
      {[](Knowledge& k) { k.symptoms[0].causes[0].first = "jot"; }, "symptoms[0].causes.jot", "jot"},
      {[](Knowledge& k) { k.symptoms[0].causes[0].second = -1; }, "symptoms[0].causes.jet", "-1"},
      {[=](Knowledge& k) { k.symptoms[0].causes[0].second = nan; }, "symptoms[0].causes.jet", "nan"},
      {[](Knowledge& k) { k.tests[0].symptoms = {"no-go"}; }, "tests[0].symptoms", "no-go"},
      {[](Knowledge& k) { k.tests[2].after[0].test = "sparks"; }, "tests[2].after", "sparks"},
      {[](Knowledge& k) { k.tests[2].after[0].outcomes = {"blue"}; }, "tests[2].after", "blue"},
      {[](Knowledge& k) {
         k.tests[0].minutes = {5, 3, 4};
       },
       "tests[0].minutes", "5, 3, 4"},
      {[](Knowledge& k) { k.tests[0].outcomes[1].id = "dies"; }, "tests[0].outcomes[1].id", "dies"},
      {[](Knowledge& k) {
         k.tests[0].likelihood[0].second = {0.9, 0.2};
       },
       "tests[0].likelihood.jet", "1.1"},
      {[](Knowledge& k) {
         k.tests[0].likelihood[0].second = {1.5, -0.5};
       },
       "tests[0].likelihood.jet[0]", "1.5"},
      {[](Knowledge& k) { k.tests[0].otherwise = {{1}}; }, "tests[0].otherwise", "1"},
      {[](Knowledge& k) { k.tests[4].outcomes = {}; }, "tests[4].outcomes", ""},
      {[](Knowledge& k) {
         k.repairs[0].cures[0].second = {0, 4};
       },
       "repairs[0].cures.jet", "0, 4"},
      {[](Knowledge& k) { k.repairs[0].cures[0].first = "jot"; }, "repairs[0].cures.jot", "jot"},
      {[](Knowledge& k) { k.repairs[0].tries = 0; }, "repairs[0].tries", "0"},
      {[](Knowledge& k) { k.repairs[0].days = -1; }, "repairs[0].days", "-1"},
      {[](Knowledge& k) { k.repairs[0].parts.low = test::cents(901); }, "repairs[0].parts", "901, 900, 1500"},
      {[](Knowledge& k) { k.kinds[0].weight.low = -1; }, "kinds[0].weight.low", "-1"},
      {[](Knowledge& k) { k.comes_back.b = 0; }, "comes_back", "2, 0"}};
  for (const Spoiled& each : all) {
    Knowledge k = small_knowledge();
    each.spoil(k);
    const std::vector<Problem> found = problems_of(k);
    ASSERT_FALSE(found.empty()) << each.field;
    EXPECT_EQ(found.front().field, each.field);
    EXPECT_EQ(found.front().value, each.value);
    EXPECT_THAT(found.front().sentence, HasSubstr(each.field));
  }
}

}  // namespace
}  // namespace secondpull::learning
