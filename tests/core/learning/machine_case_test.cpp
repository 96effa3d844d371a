#include "core/learning/machine_case.h"

#include <gmock/gmock.h>

#include "core/decision/planner.h"
#include "core/learning/stops.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::learning {
namespace {

using diagnosis::TestShowed;
using test::BareShop;
using test::day;
using test::small_knowledge;

Result<MachineCase> case_in(const Shop& shop, MachineId machine, const Terms& terms = {},
                            const Knowledge& knowledge = small_knowledge()) {
  const ByMachine by_machine{shop};
  return case_of_machine(shop, by_machine, machine, knowledge,
                         learned_from(by_machine, shop, knowledge, day("2026-04-01")), terms);
}

/// A machine that came in with a symptom and of which no fault was opened.
MachineId waiting(BareShop& bare, const std::string& symptom) {
  const MachineId id = bare.machine();
  Machine machine = *bare.shop.find(id);
  machine.symptom = symptom;
  bare.shop.all<Machine>().replace(machine);
  return id;
}

TEST(MachineCase, AsksAboutTheLatestOpenFault) {
  BareShop bare;
  const MachineId machine = bare.machine();
  bare.fault(machine, "Pulls over, does not start", "jet", "2026-03-04");
  const FaultId second = bare.fault(machine, "Surges");
  const auto made = case_in(bare.shop, machine);
  ASSERT_TRUE(made) << made.error().sentence;
  EXPECT_EQ(made->fault, second);
  EXPECT_EQ(made->question.symptom, "surges");
  EXPECT_EQ(made->question.left_out, std::vector<std::string>{"jet"});
}

TEST(MachineCase, AsksAboutWhatItCameWithUntilAFaultIsOpened) {
  BareShop bare;
  const MachineId machine = waiting(bare, "won't pop");
  bare.finding(machine, "2026-03-02", "Prime at the intake", "Nothing");
  const auto made = case_in(bare.shop, machine);
  ASSERT_TRUE(made) << made.error().sentence;
  EXPECT_FALSE(made->fault);
  EXPECT_EQ(made->question.symptom, "no-start");
  ASSERT_EQ(made->of.evidence.size(), 1U);
  EXPECT_EQ(std::get<TestShowed>(made->of.evidence.front()).outcome, "nothing");
}

TEST(MachineCase, OffersThreeWaysToStopAndTheTermsGiven) {
  BareShop bare;
  const auto made = case_in(bare.shop, waiting(bare, "Surges"),
                            {.hour_value = 18, .day_cost = -1, .sunk = {.cash = 31, .hours = 2}});
  ASSERT_TRUE(made) << made.error().sentence;
  ASSERT_EQ(made->of.stops.size(), 3U);
  EXPECT_EQ(made->of.stops[0].id, kSellAsIs);
  EXPECT_EQ(made->of.stops[0].hours, 1);  // 60 minutes to sell
  EXPECT_EQ(made->of.stops[1].id, kPartOut);
  EXPECT_NEAR(made->of.stops[1].value, 30 + 3.64, 1e-9);  // the engine, and 45.5 pounds at 8 cents
  EXPECT_NEAR(made->of.stops[1].hours, 1 + 2.0 / 6, 1e-9);
  EXPECT_EQ(made->of.stops[2].id, kScrap);
  EXPECT_NEAR(made->of.stops[2].value, 5.2, 1e-9);  // 65 pounds at 8 cents
  EXPECT_NEAR(made->of.stops[2].hours, 2.0 / 6, 1e-9);
  EXPECT_EQ(made->of.hour_value, 18);
  EXPECT_EQ(made->of.day_cost, 0);
  EXPECT_EQ(made->of.sunk.cash, 31);
  EXPECT_TRUE(decision::verdict(made->of));
}

TEST(MachineCase, PartingOutIsWorthLessUnderWhatSpoilsTheParts) {
  BareShop bare;
  const auto made = case_in(bare.shop, waiting(bare, "won't pop"), {.hour_value = 6});
  ASSERT_TRUE(made) << made.error().sentence;
  // A sheared key spoils the engine; then 3.64 of iron, and the carburettor alone: 5 less half an hour at 6.
  EXPECT_THAT(made->of.stops[1].value_by_cause, testing::ElementsAre(testing::Pair("key", 5.64)));
}

TEST(MachineCase, HasNoPartingOutWhereNoPartIsWorthTaking) {
  BareShop bare;
  const MachineId machine = waiting(bare, "Surges");
  Knowledge knowledge = small_knowledge();
  std::erase_if(knowledge.parts_to_pull, [](const PartToPull& part) { return part.id != "seat"; });
  const auto made = case_in(bare.shop, machine, {}, knowledge);
  ASSERT_TRUE(made) << made.error().sentence;
  EXPECT_EQ(made->of.stops.size(), 2U);
}

/// Prices fall by a tenth of the year's mean from 15 March to 15 April; selling takes four times as long
/// then.
Knowledge in_autumn() {
  Knowledge knowledge = small_knowledge();
  knowledge.kinds.front().days_to_sell = about(5);
  knowledge.season.price[3] = 0.9;
  knowledge.season.days.fill(4);
  return knowledge;
}

TEST(MachineCase, ADayCostsWhatTheOwnerSaysAndWhatThePriceLoses) {
  BareShop bare;
  const MachineId machine = waiting(bare, "Surges");
  const auto made = case_in(bare.shop, machine, {.day_cost = 1}, in_autumn());
  ASSERT_TRUE(made) << made.error().sentence;
  const double level = 1 - 0.1 * 17 / 31;  // on 1 April
  EXPECT_NEAR(made->of.day_cost, 1 + 100 * 0.1 / 31 / level, 1e-9);
  EXPECT_EQ(made->of.revived.days, 20);
  EXPECT_EQ(made->of.stops[0].days, 20);
  EXPECT_EQ(made->of.stops[2].days, 0);
}

TEST(MachineCase, RisingPricesPayNobodyForWaiting) {
  BareShop bare;
  Knowledge knowledge = in_autumn();
  knowledge.season.price[3] = 1.5;
  const auto made = case_in(bare.shop, waiting(bare, "Surges"), {.day_cost = 0.1}, knowledge);
  ASSERT_TRUE(made) << made.error().sentence;
  EXPECT_EQ(made->of.day_cost, 0);
}

TEST(MachineCase, RepairsCostWhatTheirPartsDo) {
  BareShop bare;
  const MachineId machine = waiting(bare, "won't pop");
  Knowledge knowledge = small_knowledge();
  knowledge.repairs[1].parts_named = {"spark plug"};
  knowledge.repairs[3].parts_named = {"blade"};  // cures nothing, so it is not in the case
  const PartId plug = bare.add(Part{.code = "plug", .name = "spark plug"});
  const OrderId order = bare.add(Order{.date = day("2026-03-02"), .arrived = day("2026-03-02")});
  bare.add(OrderLine{.order = order, .part = plug, .price = test::cents(270)});
  const auto made = case_in(bare.shop, machine, {}, knowledge);
  ASSERT_TRUE(made) << made.error().sentence;
  EXPECT_EQ(made->of.repairs[1].id, "new-plug");
  EXPECT_EQ(made->of.repairs[1].cost, 2.7);
  EXPECT_EQ(made->of.repairs[1].days, 0);
  EXPECT_THAT(made->parts, testing::ElementsAre(RepairPart{"new-plug", ComesFrom::shelf, plug, {2.7, 0}}));
  EXPECT_EQ(made->of.repairs[0].cost, 9);
}

TEST(MachineCase, WorkOfItsConditionIsReckonedUntilItIsDone) {
  BareShop bare;
  const MachineId machine = waiting(bare, "Surges");
  Machine dull = *bare.shop.find(machine);
  dull.condition = "dull blade, dirty";
  bare.shop.all<Machine>().replace(dull);
  Knowledge knowledge = small_knowledge();
  knowledge.known_work = {{.id = "dull", .name = "dull blade", .minutes = about(20)},
                          {.id = "dirty", .name = "dirty", .minutes = about(25)}};
  const FindingId done = bare.finding(machine, "2026-03-03", "dull blade", "done");
  const auto made = case_in(bare.shop, machine, {}, knowledge);
  ASSERT_TRUE(made) << made.error().sentence;
  EXPECT_THAT(made->work, testing::ElementsAre(TickedWork{"dull", done}, TickedWork{"dirty", std::nullopt}));
  ASSERT_EQ(made->of.revived.known_work.size(), 2U);  // and usually something else: here nothing
  EXPECT_EQ(made->of.revived.known_work[0].minutes, 25);
  EXPECT_EQ(made->of.revived.known_work[1].minutes, 0);
}

TEST(MachineCase, NumbersSaidTakeThePlaceOfThoseWorkedOut) {
  BareShop bare;
  const auto made = case_in(bare.shop, waiting(bare, "Surges"),
                            {.said = {{"repairs.clean.minutes", 35},
                                      {"revived.price", 140},
                                      {"repairs.new-plug.cost", 2},
                                      {"stops.scrap.value", 1}}});
  ASSERT_TRUE(made) << made.error().sentence;
  EXPECT_EQ(made->of.repairs[0].minutes, 35);
  EXPECT_EQ(made->of.revived.price, 140);
  EXPECT_THAT(made->said, testing::ElementsAre(SaidNumber{"repairs.clean.minutes", 60, 35},
                                               SaidNumber{"revived.price", 100, 140},
                                               SaidNumber{"stops.scrap.value", 5.2, 1}));
  ASSERT_EQ(made->not_taken.size(), 1U);  // no plug makes it surge
  EXPECT_EQ(made->not_taken[0].field, "repairs.new-plug.cost");
}

TEST(MachineCase, AnHourValueSaidDecidesWhichPartsPayTheirMinutes) {
  BareShop bare;
  const MachineId machine = waiting(bare, "Surges");
  const auto made = case_in(bare.shop, machine, {.said = {{"hour_value", 40}}});  // an engine: 30 an hour
  ASSERT_TRUE(made) << made.error().sentence;
  EXPECT_EQ(made->of.hour_value, 40);
  EXPECT_NEAR(made->of.stops[1].value, 3.64, 1e-9);
  EXPECT_EQ(made->said, (std::vector<SaidNumber>{{"hour_value", 0, 40}}));
}

TEST(MachineCase, AnEngineThatRunsIsNotOfferedTestsOfOneThatDoesNotStart) {
  BareShop bare;
  const auto made = case_in(bare.shop, waiting(bare, "Surges"));
  ASSERT_TRUE(made) << made.error().sentence;
  for (const diagnosis::Test& offered : made->of.tests)
    EXPECT_NE(offered.id, "prime");
}

TEST(MachineCase, NamesWhatKeepsAMachineFromHavingOne) {
  BareShop bare;
  const MachineId mended = bare.machine();
  bare.fault(mended, "Surges", "jet", "2026-03-04");
  EXPECT_EQ(case_in(bare.shop, mended).error().field, "fault");
  EXPECT_EQ(case_in(bare.shop, static_cast<MachineId>(9999)).error().field, "machine");
  EXPECT_EQ(case_in(bare.shop, waiting(bare, "makes a noise")).error().field, "symptom");
  EXPECT_EQ(case_in(bare.shop, bare.machine(MachineKind::zero_turn)).error().field, "kind");
  const MachineId scrapped = waiting(bare, "Surges");
  bare.add(Disposal{.machine = scrapped, .date = day("2026-03-05"), .how = DisposalKind::scrapped});
  EXPECT_EQ(case_in(bare.shop, scrapped).error().field, "machine");
}

Result<MachineCase> case_of(const Shop& shop, const Described& machine, const Terms& terms = {}) {
  const ByMachine by_machine{shop};
  const Knowledge knowledge = small_knowledge();
  return case_of_described(shop, machine, knowledge,
                           learned_from(by_machine, shop, knowledge, day("2026-04-01")), terms);
}

TEST(DescribedCase, IsThatOfTheSameMachineOnceItIsHere) {
  BareShop bare;
  const MachineId here = waiting(bare, "won't pop");
  bare.finding(here, "2026-03-02", "Prime at the intake", "Nothing");
  const Terms terms{.hour_value = 18, .day_cost = 1, .sunk = {.cash = 40}};
  const auto described =
      case_of(bare.shop, {.symptom = "won't pop", .answers = {{"Prime at the intake", "Nothing"}}}, terms);
  ASSERT_TRUE(described) << described.error().sentence;
  const auto made = case_in(bare.shop, here, terms);
  ASSERT_TRUE(made) << made.error().sentence;
  const auto one = decision::verdict(described->of);
  const auto other = decision::verdict(made->of);
  EXPECT_EQ(one->value, other->value);
  EXPECT_EQ(one->profit.chance_of_loss, other->profit.chance_of_loss);
  EXPECT_EQ(one->next, other->next);
  EXPECT_EQ(described->question.symptom, "no-start");
}

TEST(DescribedCase, ALaterAnswerTakesThePlaceOfAnEarlierOne) {
  const BareShop bare;
  const auto made =
      case_of(bare.shop, {.symptom = "won't pop", .answers = {{"prime", "dies"}, {"prime", "nothing"}}});
  ASSERT_TRUE(made) << made.error().sentence;
  ASSERT_EQ(made->of.evidence.size(), 1U);
  EXPECT_EQ(std::get<TestShowed>(made->of.evidence.front()).outcome, "nothing");
}

TEST(DescribedCase, TellsWhichAnswerItCouldNotRead) {
  const BareShop bare;
  const auto made =
      case_of(bare.shop, {.symptom = "won't pop", .answers = {{"spark", "Strong"}, {"spark", "purple"}}});
  ASSERT_TRUE(made) << made.error().sentence;
  EXPECT_EQ(made->question.unread, (std::vector<Unread>{{FindingId{2}, Unread::Why::no_such_outcome}}));
  EXPECT_EQ(made->of.evidence.size(), 1U);
}

TEST(DescribedCase, RefusesAKindWithoutFiguresAndASymptomNobodyKnows) {
  const BareShop bare;
  const auto kind = case_of(bare.shop, {.kind = MachineKind::zero_turn, .symptom = "Surges"});
  ASSERT_FALSE(kind);
  EXPECT_EQ(kind.error().field, "kind");
  const auto symptom = case_of(bare.shop, {.symptom = "a lemon"});
  ASSERT_FALSE(symptom);
  EXPECT_EQ(symptom.error().field, "symptom");
}

}  // namespace
}  // namespace secondpull::learning
