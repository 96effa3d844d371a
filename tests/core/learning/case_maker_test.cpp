#include "core/learning/case_maker.h"

#include <cmath>

#include <gmock/gmock.h>
#include <rapidcheck.h>

#include "core/diagnosis/belief.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::learning {
namespace {

using diagnosis::Case;
using diagnosis::RepairFailed;
using diagnosis::TestShowed;
using test::BareShop;
using test::small_knowledge;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Pair;

Question no_start() {
  return {.symptom = "no-start", .kind = MachineKind::push};
}
Circumstances free_hours() {
  Circumstances c;
  c.revived.price = 100;
  c.stops = {{.id = "scrap", .value = 5}};
  return c;
}
Result<Case> made(const Question& question, const Tallies& tallies = {},
                  const Circumstances& circumstances = free_hours()) {
  return make_case(small_knowledge(), tallies, question, circumstances);
}

template <class Item>
std::vector<std::string> ids(const std::vector<Item>& items) {
  std::vector<std::string> all;
  for (const Item& item : items)
    all.push_back(item.id);
  return all;
}
template <class Item>
const Item& the(const std::vector<Item>& items, std::string_view id) {
  for (const Item& item : items)
    if (item.id == id) return item;
  throw std::invalid_argument{std::string{id}};
}

Result<Question> asked(const BareShop& s, FaultId fault) {
  const ByMachine by_machine{s.shop};
  const Fault& open = *s.shop.find(fault);
  return question_about(by_machine.of(open.machine), open, small_knowledge());
}

TEST(MakeCase, IsTheKnowledgeWhereThereIsNoRecord) {
  const auto c = made(no_start());
  ASSERT_TRUE(c) << c.error().sentence;
  EXPECT_THAT(ids(c->causes), ElementsAre("jet", "plug", "key", "unlisted"));
  EXPECT_EQ(the(c->causes, "jet").weight, 60);
  EXPECT_EQ(the(c->causes, "unlisted").weight, 5);
  EXPECT_THAT(ids(c->tests), ElementsAre("prime", "spark"));
  EXPECT_EQ(the(c->tests, "prime").cost, 0.10);
  EXPECT_EQ(the(c->tests, "prime").minutes, 3);
  EXPECT_THAT(ids(c->repairs), ElementsAre("clean", "new-plug", "new-key"));
  EXPECT_EQ(the(c->repairs, "clean").cost, 9);
  EXPECT_EQ(the(c->repairs, "clean").minutes, 60);
  EXPECT_EQ(the(c->repairs, "new-plug").days, 2);
  EXPECT_THAT(the(c->repairs, "clean").cures, ElementsAre(Pair("jet", 0.75)));
  EXPECT_EQ(c->revived.price, 100);
  EXPECT_THAT(ids(c->stops), ElementsAre("scrap"));
}

TEST(MakeCase, AddsWhatTheRecordTeaches) {
  Tallies t;
  t.cures[{"clean", "jet"}] = {.tried = 4, .cured = 1};
  t.causes["no-start"]["plug"] = 3;
  t.causes["surges"]["jet"] = 7;
  t.minutes["clean"] = {30};
  const auto c = made(no_start(), t);
  ASSERT_TRUE(c);
  EXPECT_EQ(the(c->causes, "plug").weight, 23);
  EXPECT_EQ(the(c->causes, "jet").weight, 60);
  EXPECT_DOUBLE_EQ(the(c->repairs, "clean").cures.front().second, 13.0 / 20);
  EXPECT_GT(the(c->repairs, "clean").minutes, 30);
  EXPECT_LT(the(c->repairs, "clean").minutes, 60);
}

TEST(MakeCase, OffersWhatTheEngineAllowsToday) {
  Question question = no_start();
  question.engine = Engine::none;
  EXPECT_THAT(ids(made(question)->tests), IsEmpty());
  question.engine = Engine::runs;
  EXPECT_THAT(ids(made(question)->tests), ElementsAre("spark"));  // a leak is no cause of this symptom
  question.symptom = "surges";
  question.engine.reset();
  EXPECT_THAT(ids(made(question)->tests), ElementsAre("mist"));
}

TEST(MakeCase, KeepsATestThatNeedsAnotherWaitingForIt) {
  Question question = no_start();
  question.evidence = {TestShowed{"spark", "strong"}};
  EXPECT_THAT(ids(made(question)->tests), ElementsAre("prime", "spark"));
  question.evidence = {TestShowed{"spark", "none"}};
  EXPECT_THAT(ids(made(question)->tests), ElementsAre("prime", "spark", "kill-off"));
}

TEST(MakeCase, KeepsATestThatWasMadeThoughItWouldNotBeOfferedNow) {
  Question question = no_start();
  question.engine = Engine::none;
  question.evidence = {TestShowed{"prime", "dies"}};
  const auto c = made(question);
  ASSERT_TRUE(c);
  EXPECT_THAT(ids(c->tests), ElementsAre("prime"));
  // By Bayes' rule: 60 x 0.9 against 5 x 0.5; a bad plug or key burns nothing.
  const std::vector<double> belief = diagnosis::posterior(*c);
  EXPECT_NEAR(belief[0], 54 / 56.5, 1e-12);
  EXPECT_NEAR(belief[3], 2.5 / 56.5, 1e-12);
}

TEST(MakeCase, OffersWhatIsForItsKindOfMachine) {
  Knowledge k = small_knowledge();
  k.tests[0].kinds = {MachineKind::zero_turn};
  k.repairs[0].kinds = {MachineKind::zero_turn};
  const auto c = make_case(k, {}, no_start(), free_hours());
  EXPECT_THAT(ids(c->tests), ElementsAre("spark"));
  EXPECT_THAT(ids(c->repairs), ElementsAre("new-plug", "new-key"));
  Question tried = no_start();  // what was tried all the same is evidence
  tried.evidence = {RepairFailed{"clean"}};
  const auto after = make_case(k, {}, tried, free_hours());
  ASSERT_TRUE(after) << after.error().sentence;
  EXPECT_THAT(ids(after->repairs), ElementsAre("clean", "new-plug", "new-key"));
}

TEST(MakeCase, TakesTheShelfsPriceAndNoDaysForAPartOnHand) {
  Circumstances c = free_hours();
  c.supply["new-plug"] = {.cost = 3.333, .days = 0};
  c.hour_value = 12;
  c.day_cost = 0.5;
  c.sunk = {20, 1.5};
  const auto with = made(no_start(), {}, c);
  EXPECT_EQ(the(with->repairs, "new-plug").cost, 3.33);
  EXPECT_EQ(the(with->repairs, "new-plug").days, 0);
  EXPECT_EQ(with->hour_value, 12);
  EXPECT_EQ(with->day_cost, 0.5);
  EXPECT_EQ(with->sunk.hours, 1.5);
}

TEST(MakeCase, LeavesOutACauseThatWasMendedWithAllThatOnlyConcernsIt) {
  Question question = no_start();
  question.left_out = {"jet", "unlisted"};  // never is the list known to be complete
  question.evidence = {RepairFailed{"clean"}};
  Circumstances circumstances = free_hours();
  circumstances.stops[0].value_by_cause = {{"jet", 1}, {"plug", 2}};
  const auto c = made(question, {}, circumstances);
  ASSERT_TRUE(c) << c.error().sentence;
  EXPECT_THAT(ids(c->causes), ElementsAre("plug", "key", "unlisted"));
  EXPECT_THAT(ids(c->repairs), ElementsAre("new-plug", "new-key"));
  EXPECT_THAT(c->evidence, IsEmpty());
  EXPECT_THAT(c->stops[0].value_by_cause, ElementsAre(Pair("plug", 2)));
}

TEST(MakeCase, HasAsManyTriesAsFailed) {
  Question question = no_start();
  question.evidence = {RepairFailed{"clean"}, RepairFailed{"clean"}};
  const auto c = made(question);
  ASSERT_TRUE(c) << c.error().sentence;
  EXPECT_EQ(the(c->repairs, "clean").tries, 2);
  EXPECT_NEAR(diagnosis::posterior(*c)[0], 60 * 0.0625 / (60 * 0.0625 + 45), 1e-12);
}

TEST(MakeCase, IsRefusedWhereTheEvidenceCannotHaveBeenSeen) {
  Knowledge k = small_knowledge();
  k.tests[0].otherwise = {{1, 0}};
  k.tests[0].likelihood = {};
  Question question = no_start();
  question.evidence = {TestShowed{"prime", "nothing"}};
  const auto c = make_case(k, {}, question, free_hours());
  ASSERT_FALSE(c);
  EXPECT_THAT(c.error().field, HasSubstr("evidence"));
  EXPECT_FALSE(c.error().sentence.empty());
}

TEST(MakeCase, IsRefusedWithTheFieldThatIsWrong) {
  Question question{.symptom = "no-go"};
  EXPECT_EQ(made(question).error().field, "symptom");
  EXPECT_EQ(made(question).error().value, "no-go");
  question = no_start();
  question.evidence = {TestShowed{"sparks", "none"}};
  EXPECT_THAT(made(question).error().field, HasSubstr("evidence[0]"));
  question.evidence = {RepairFailed{"prayer"}};
  EXPECT_THAT(made(question).error().field, HasSubstr("evidence[0]"));
  Circumstances circumstances = free_hours();
  circumstances.stops.clear();
  EXPECT_EQ(made(no_start(), {}, circumstances).error().field, "stops");
  circumstances = free_hours();
  circumstances.stops[0].value_by_cause = {{"jot", 1}};
  EXPECT_THAT(made(no_start(), {}, circumstances).error().field, HasSubstr("jot"));
  circumstances = free_hours();
  circumstances.supply["clean"] = {.cost = -1};
  EXPECT_THAT(made(no_start(), {}, circumstances).error().field, HasSubstr("repairs[0].cost"));
}

TEST(MakeCase, IsACaseOrAProblemWhateverWasSeen) {
  EXPECT_TRUE(rc::check("any evidence", [] {
    Question question{.symptom = *rc::gen::element<std::string>("no-start", "surges"),
                      .engine = *rc::gen::element(std::optional<Engine>{}, std::optional{Engine::none},
                                                  std::optional{Engine::turns}, std::optional{Engine::runs})};
    const Knowledge k = small_knowledge();
    for (const learning::Test& test : k.tests)
      if (*rc::gen::arbitrary<bool>())
        question.evidence.push_back(TestShowed{test.id, (*rc::gen::elementOf(test.outcomes)).id});
    for (const Repair& repair : k.repairs)
      for (int failed = *rc::gen::inRange(0, 3); failed > 0; --failed)
        question.evidence.push_back(RepairFailed{repair.id});
    for (const Cause& cause : k.causes)
      if (*rc::gen::inRange(0, 4) == 0) question.left_out.push_back(cause.id);
    Tallies t;
    const auto tried = *rc::gen::inRange<std::int64_t>(0, 9);
    t.cures[{"clean", "leak"}] = {tried, *rc::gen::inRange<std::int64_t>(0, tried + 1)};
    t.causes["surges"]["key"] = *rc::gen::inRange(0, 5);
    const auto c = make_case(k, t, question, free_hours());
    if (!c) {
      RC_ASSERT(!c.error().sentence.empty());
      return;
    }
    RC_ASSERT(diagnosis::problems_of(*c).empty());
    double sum = 0;
    for (const double p : diagnosis::posterior(*c))
      sum += p;
    RC_ASSERT(std::abs(sum - 1) < 1e-9);
  }));
}

TEST(Question, ReadsTheFindingsInTheWordsOfTheKnowledge) {
  BareShop s;
  const MachineId m = s.machine(MachineKind::self_propelled);
  const FaultId f = s.fault(m, "Won't pop");
  s.finding(m, "2026-03-03", "Spark tester", "strong", f);
  s.finding(m, "2026-03-04", "Carburettor cleaned", "still does not start", f);
  s.finding(m, "2026-03-05", "spark", "No Spark", f);  // looked again
  const FindingId word = s.finding(m, "2026-03-06", "prime", "coughs", f);
  const FindingId step = s.finding(m, "2026-03-06", "kicked it", "nothing", f);
  const FindingId work = s.finding(m, "2026-03-06", "blade", "done", f);
  const auto q = asked(s, f);
  ASSERT_TRUE(q) << q.error().sentence;
  EXPECT_EQ(q->symptom, "no-start");
  EXPECT_EQ(q->kind, MachineKind::self_propelled);
  ASSERT_EQ(q->evidence.size(), 2u);
  EXPECT_EQ(std::get<RepairFailed>(q->evidence[0]).repair, "clean");
  EXPECT_EQ(std::get<TestShowed>(q->evidence[1]).outcome, "none");
  EXPECT_THAT(q->unread,
              ElementsAre(Unread{word, Unread::Why::no_such_outcome}, Unread{step, Unread::Why::no_such_step},
                          Unread{work, Unread::Why::other_work}));
}

TEST(Question, LeavesOutATestWhoseEarlierTestDoesNotLeadToIt) {
  BareShop s;
  const MachineId m = s.machine();
  const FaultId f = s.fault(m, "no-start");
  s.finding(m, "2026-03-03", "spark", "none", f);
  const FindingId later = s.finding(m, "2026-03-03", "kill-off", "back", f);
  EXPECT_EQ(asked(s, f)->evidence.size(), 2u);
  s.finding(m, "2026-03-04", "spark", "strong", f);
  const auto q = asked(s, f);
  ASSERT_EQ(q->evidence.size(), 1u);
  EXPECT_THAT(q->unread, ElementsAre(Unread{later, Unread::Why::out_of_place}));
}

TEST(Question, LeavesOutACauseThatWasMendedAndLeftANewSymptom) {
  BareShop s;
  const MachineId m = s.machine();
  s.fault(m, "no-start", "jet", "2026-03-09");
  s.fault(m, "surges", "leak", "2026-03-09", FaultEnd::given_up);
  s.fault(m, "smokes", "key", "2026-03-09", FaultEnd::mistaken);
  const FaultId surges = s.fault(m, "surges");
  const FaultId again = s.fault(m, "no-start");
  EXPECT_THAT(asked(s, surges)->left_out, ElementsAre("jet"));
  EXPECT_THAT(asked(s, again)->left_out, IsEmpty());  // the same again: perhaps it did not hold
}

TEST(Question, ForgetsWhatWasMendedBeforeTheMachineCameBack) {
  BareShop s;
  const MachineId m = s.machine();
  s.fault(m, "no-start", "jet", "2026-03-09");
  s.add(Sale{.machine = m, .date = test::day("2026-03-20"), .price = test::cents(10'000)});
  s.add(Return{.machine = m, .date = test::day("2026-04-20"), .refunded = test::cents(10'000)});
  EXPECT_THAT(asked(s, s.fault(m, "surges"))->left_out, IsEmpty());
}

TEST(Question, IsNoneAboutAFaultThatIsMendedOrThatNobodyKnows) {
  BareShop s;
  const MachineId m = s.machine();
  EXPECT_EQ(asked(s, s.fault(m, "no-start", "jet", "2026-03-09")).error().field, "ended");
  const auto unknown = asked(s, s.fault(m, "makes a noise"));
  EXPECT_EQ(unknown.error().field, "symptom");
  EXPECT_EQ(unknown.error().value, "makes a noise");
  const MachineId other = s.machine();
  const FaultId f = s.fault(other, "no-start");
  s.finding(other, "2026-03-05", "clean", "mended");
  EXPECT_EQ(asked(s, f).error().field, "outcome");
  s.finding(other, "2026-03-06", "clean", "failed");
  EXPECT_EQ(asked(s, f)->evidence.size(), 2u);
}

// From a record to a belief: one symptom, a test and a repair that failed.
TEST(Question, LeadsToTheBeliefOfBayesRule) {
  BareShop s;
  const MachineId before = s.machine();
  s.finding(before, "2026-03-04", "clean", "mended", s.fault(before, "no-start", "jet", "2026-03-09"));
  const MachineId m = s.machine();
  const FaultId f = s.fault(m, "no-start");
  s.finding(m, "2026-03-04", "clean", "failed", f);
  s.finding(m, "2026-03-05", "spark", "strong", f);
  const Knowledge k = small_knowledge();
  const auto c = make_case(k, tallies_of(ByMachine{s.shop}, s.shop, k), *asked(s, f), free_hours());
  ASSERT_TRUE(c) << c.error().sentence;
  // Jet 61 (one confirmed) x 4/17 (13 of 17 cured), plug 20 x 0.25, key 20, unlisted 5.
  const double jet = 61.0 * 4 / 17;
  EXPECT_NEAR(diagnosis::posterior(*c)[0], jet / (jet + 5 + 20 + 5), 1e-12);
}

}  // namespace
}  // namespace secondpull::learning
