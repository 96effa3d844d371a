#include "core/planning/scout.h"

#include <numeric>

#include <gmock/gmock.h>

#include "core/decision/planner.h"
#include "core/planning/pocket_card.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::planning {
namespace {

using test::BareShop;
using test::cents;
using test::day;

constexpr double kHourValue = 8;

class ALead : public testing::Test {
 protected:
  ALead() {
    base.knowledge = test::small_knowledge();
    base.texts["prime"].ask = "Does it run on a sip of fuel?";
    base.texts["spark"].ask = "Is there a spark?";
    base.texts["mist"].ask = "Does mist change it?";
    bare.machine(MachineKind::blower);  // an acquisition has one
  }
  void came_with(const std::string& symptom, MachineKind kind = MachineKind::push) {
    const MachineId id = bare.machine(kind);
    Machine machine = *bare.shop.find(id);
    machine.symptom = symptom;
    bare.shop.all<Machine>().replace(machine);
  }
  Situation situation() const {
    const auto books = Books::of(std::make_shared<const Shop>(bare.shop), MileageRates{});
    return {std::make_shared<const Books>(*books), std::make_shared<const learning::KnowledgeBase>(base),
            day("2026-04-01")};
  }
  LeadWorth worth(const Lead& lead) const { return lead_worth(situation(), lead, kHourValue, {}).value(); }
  std::vector<SellerQuestion> questions(const Lead& lead) const {
    return seller_questions(situation(), lead, kHourValue, {}).value();
  }
  /// V of a described machine, worked out beside.
  decision::Answer planned(const learning::Described& machine, double sunk = 0) const {
    const Situation now = situation();
    const auto made = learning::case_of_described(now.shop(), machine, now.base().knowledge, now.learned(),
                                                  {.hour_value = kHourValue,
                                                   .sunk = {.cash = sunk},
                                                   .sale = now.sale_of(Machine{.kind = machine.kind})});
    return decision::verdict(made->of).value();
  }

  learning::KnowledgeBase base;
  BareShop bare;
  learning::Described no_start{.symptom = "won't pop"};
};

TEST_F(ALead, IsWorthItsValueHereLessFetchingAndTheMargin) {
  const LeadWorth found =
      worth({.machine = no_start, .pickup_cost = cents(500), .minutes = Minutes{90}, .margin = cents(1'000)});
  const double value = planned(no_start).value;
  EXPECT_NEAR(found.value, value, 1e-9);
  EXPECT_NEAR(found.most_to_offer, value - 5 - 1.5 * kHourValue - 10, 1e-9);
  EXPECT_FALSE(found.gain_at_asking);
  EXPECT_NEAR(found.price, found.most_to_offer, 1e-9);
  EXPECT_EQ(found.symptom, "no-start");
}

TEST_F(ALead, GainsWhatIsAskedLessThanTheMostToOffer) {
  const LeadWorth found = worth({.machine = no_start, .asking = cents(2'000)});
  EXPECT_NEAR(found.gain_at_asking.value(), found.most_to_offer - 20, 1e-9);
  EXPECT_EQ(found.price, 20);
}

TEST_F(ALead, LosesMoneyAsOftenAsTheSameMachineThatCostSoMuch) {
  const LeadWorth found = worth({.machine = no_start, .asking = cents(4'000), .pickup_cost = cents(300)});
  EXPECT_NEAR(found.chance_of_gain, 1 - planned(no_start, 43).profit.chance_of_loss, 1e-12);
  EXPECT_LT(worth({.machine = no_start, .asking = cents(9'000)}).chance_of_gain, found.chance_of_gain);
}

TEST_F(ALead, TellsWhatItTakesAndHowItWillEnd) {
  const LeadWorth found = worth({.machine = no_start});
  const decision::Answer plan = planned(no_start);
  EXPECT_EQ(found.next, plan.next);
  EXPECT_NEAR(found.hours, plan.expected.hours, 1e-9);
  EXPECT_EQ(found.ending, "revive");
  EXPECT_NEAR(found.chance_of_ending, plan.expected.revived, 1e-9);
}

TEST_F(ALead, TakesTheMoneyOfItsStepsEachAsOftenAsItIsMade) {
  // One cause, one repair at 9 that cures 12 times of 16; nothing is needed besides.
  base.knowledge.symptoms = {
      {.id = "dirty", .name = "Dirty", .causes = {{"jet", 1}, {learning::kUnlisted.data(), 1e-9}}}};
  base.knowledge.tests.clear();
  EXPECT_NEAR(worth({.machine = {.symptom = "Dirty"}}).money, 9, 1e-6);
}

TEST_F(ALead, IsWorthMoreOnceTheSellerRulesOutTheDearestFault) {
  // A clogged jet takes longest to mend, and the cure fails most often.
  learning::Described told = no_start;
  told.answers = {{"Prime at the intake", "Nothing"}};
  EXPECT_GT(worth({.machine = told}).value, worth({.machine = no_start}).value);
  told.answers = {{"Prime at the intake", "Runs, then dies"}};
  EXPECT_LT(worth({.machine = told}).value, worth({.machine = no_start}).value);
}

TEST_F(ALead, OfWhichNothingIsKnownIsTheMeanOfWhatItMayDo) {
  came_with("Surges");
  came_with("Surges");
  came_with("Surges", MachineKind::lawn_tractor);  // another kind
  const LeadWorth found = worth({.machine = {}});
  const double starts_not = planned(no_start).value;
  const double surges = planned({.symptom = "surges"}).value;
  EXPECT_NEAR(found.value, 0.25 * starts_not + 0.75 * surges, 1e-9);
  EXPECT_EQ(found.symptom, "");
  EXPECT_FALSE(found.next);
  // Words that nobody knows say nothing.
  EXPECT_EQ(worth({.machine = {.symptom = "a lemon"}}).value, found.value);
}

TEST_F(ALead, OfWhichNothingIsKnownMayLoseMoneyInEachWay) {
  const LeadWorth found = worth({.machine = {}, .asking = cents(5'000)});
  EXPECT_NEAR(found.chance_of_gain,
              1 - (planned(no_start, 50).profit.chance_of_loss +
                   planned({.symptom = "surges"}, 50).profit.chance_of_loss) /
                      2,
              1e-12);
}

TEST_F(ALead, OfAKindWithoutFiguresHasNoWorth) {
  const auto found = lead_worth(situation(), {.machine = {.kind = MachineKind::zero_turn}}, 0, {});
  ASSERT_FALSE(found);
  EXPECT_EQ(found.error().field, "kind");
}

TEST_F(ALead, AsksWhatASellerCanAnswerAndHasNotAnswered) {
  const auto ids = [](const std::vector<SellerQuestion>& asked) {
    std::vector<std::string> all;
    for (const SellerQuestion& question : asked)
      all.push_back(question.test);
    return all;
  };
  // "mist" needs a running engine, the others have no question.
  EXPECT_THAT(ids(questions({.machine = no_start})), testing::UnorderedElementsAre("prime", "spark"));
  no_start.answers = {{"spark", "none"}};
  EXPECT_THAT(ids(questions({.machine = no_start})), testing::ElementsAre("prime"));
}

TEST_F(ALead, AsksNothingOfAGroupThatIsAnswered) {
  for (learning::Test& test : base.knowledge.tests)
    if (test.id == "prime" || test.id == "spark") test.group = "one look";
  no_start.answers = {{"spark", "none"}};
  EXPECT_TRUE(questions({.machine = no_start}).empty());
}

TEST_F(ALead, WeighsAQuestionByHowMuchBetterOneDecidesOnItsAnswer) {
  const Lead lead{.machine = no_start, .asking = cents(2'500), .minutes = Minutes{30}};
  const auto asked = questions(lead);
  ASSERT_EQ(asked.size(), 2U);
  EXPECT_GE(asked[0].worth, asked[1].worth);
  for (const SellerQuestion& question : asked) {
    double chances = 0;
    double choosing = 0;
    for (const SellerAnswer& answer : question.answers) {
      learning::Described told = no_start;
      told.answers = {{question.test, answer.outcome}};
      EXPECT_NEAR(answer.most_to_offer, planned(told).value - kHourValue / 2, 1e-9);
      chances += answer.chance;
      choosing += answer.chance * std::max(0.0, answer.most_to_offer - 25);
    }
    EXPECT_NEAR(chances, 1, 1e-12);
    const double at_once = std::max(0.0, planned(no_start).value - kHourValue / 2 - 25);
    EXPECT_NEAR(question.worth, choosing - at_once, 1e-9);
  }
}

TEST_F(ALead, HasNothingToAskAtAPriceThatNoAnswerMakesGood) {
  for (const SellerQuestion& question : questions({.machine = no_start, .asking = cents(100'000)}))
    EXPECT_EQ(question.worth, 0);
}

TEST_F(ALead, WithoutAPriceAQuestionIsWeighedAtTheMostToOffer) {
  for (const SellerQuestion& question : questions({.machine = no_start})) {
    const double offer = planned(no_start).value;
    double expected = 0;
    for (const SellerAnswer& answer : question.answers)
      expected += answer.chance * std::max(0.0, answer.most_to_offer - offer);
    EXPECT_NEAR(question.worth, expected, 1e-9);
  }
}

TEST_F(ALead, OfWhichNothingIsKnownAsksWhatItDoes) {
  came_with("Surges");
  const auto asked = questions({.machine = {}, .asking = cents(2'000)});
  ASSERT_EQ(asked.size(), 1U);
  EXPECT_EQ(asked[0].test, "");
  ASSERT_EQ(asked[0].answers.size(), 2U);
  EXPECT_EQ(asked[0].answers[0].outcome, "surges");
  EXPECT_NEAR(asked[0].answers[0].chance, 2.0 / 3, 1e-12);
  EXPECT_NEAR(asked[0].answers[0].most_to_offer, planned({.symptom = "surges"}).value, 1e-9);
}

TEST_F(ALead, AsksNoFurtherOnceItIsCancelled) {
  const decision::Budget cancelled{.go_on = [](const decision::Progress&) { return false; }};
  EXPECT_TRUE(seller_questions(situation(), {.machine = no_start}, 0, cancelled)->empty());
}

TEST_F(ALead, IsOnThePocketCardInWholeUnitsRoundedDown) {
  base.knowledge.symptoms.push_back({.id = "deck",
                                     .name = "Deck does not come on",
                                     .kinds = {MachineKind::lawn_tractor},
                                     .causes = {{"key", 1}}});
  const PocketCard card = pocket_card(situation(), kHourValue, cents(500), {});
  EXPECT_EQ(card.kinds, std::vector{MachineKind::push});
  ASSERT_EQ(card.rows.size(), 4U);
  const double offer = planned(no_start).value - kHourValue / 2 - 5;
  EXPECT_EQ(card.rows[1].symptom, "no-start");
  EXPECT_EQ(card.rows[1].most_to_pay[0], cents(100 * static_cast<std::int64_t>(offer)));
  EXPECT_EQ(card.rows[0].symptom, "");
  const double surges = planned({.symptom = "surges"}).value - kHourValue / 2 - 5;
  EXPECT_EQ(card.rows[0].most_to_pay[0], cents(100 * static_cast<std::int64_t>((offer + surges) / 2)));
  EXPECT_FALSE(card.rows[3].most_to_pay[0]);
}

TEST_F(ALead, ThatIsNotWorthFetchingIsLeftByThePocketCard) {
  const PocketCard card = pocket_card(situation(), kHourValue, cents(100'000), {});
  EXPECT_EQ(card.rows[1].most_to_pay[0], cents(0));
}

}  // namespace
}  // namespace secondpull::planning
