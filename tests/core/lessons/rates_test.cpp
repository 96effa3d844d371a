#include "core/lessons/rates.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "core/lessons/causes.h"
#include "core/lessons/step_times.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::lessons {
namespace {

using learning::Beta;
using learning::Tallies;
using learning::Tries;
using test::small_knowledge;
using testing::DoubleNear;
using testing::ElementsAre;
using testing::Field;

std::vector<RepairRate> rates_of(const Tallies& tallies) {
  return repair_rates(small_knowledge(), tallies);
}

TEST(RepairRates, AreEmptyWithoutATry) {
  EXPECT_TRUE(rates_of({}).empty());
}

// Cleaning cures a clogged jet in 12 of 16 by the small trade; R: qbeta(c(.1, .9), 12 + 3, 4 + 7).
TEST(RepairRates, HaveOwnTriesAndTheKnowledgeBaseInTheRangeAndBothApart) {
  Tallies tallies;
  tallies.cures[{"clean", "jet"}] = {10, 3};
  const auto rates = rates_of(tallies);
  ASSERT_EQ(rates.size(), 1U);
  const CureRate& all = rates[0].all;
  EXPECT_EQ(rates[0].repair, "clean");
  EXPECT_EQ(all.cause, "");
  EXPECT_DOUBLE_EQ(all.share(), 0.3);
  EXPECT_EQ(all.usually, 0.75);
  EXPECT_EQ(all.now, (Beta{15, 11}));
  EXPECT_NEAR(all.range().low, 0.452282668142632, 1e-12);
  EXPECT_NEAR(all.range().high, 0.698887884901877, 1e-12);
  ASSERT_EQ(rates[0].by_cause.size(), 1U);
  EXPECT_EQ(rates[0].by_cause[0].cause, "jet");
}

// R: qbeta(.975, 3.5, 7.5) = 0.606 is below 0.75.
TEST(RepairRates, SayThatOneWorksLessOftenHereOnlyWhenTheTriesAloneCarryIt) {
  const auto differs_for = [](Tries own) {
    Tallies tallies;
    tallies.cures[{"clean", "jet"}] = own;
    return rates_of(tallies).at(0).all.differs;
  };
  EXPECT_EQ(differs_for({10, 3}), Differs::lower);
  EXPECT_EQ(differs_for({10, 6}), Differs::no);
  EXPECT_EQ(differs_for({4, 0}), Differs::no) << "four tries are too few";
  EXPECT_EQ(differs_for({5, 0}), Differs::lower);
  EXPECT_EQ(differs_for({40, 40}), Differs::higher);
}

TEST(RepairRates, OfSeveralCausesTogetherSpeakOfTheMixThatWasMet) {
  auto knowledge = small_knowledge();
  knowledge.repairs[0].cures = {{"jet", {12, 4}}, {"leak", {1, 3}}};
  Tallies tallies;
  tallies.cures[{"clean", "jet"}] = {6, 5};
  tallies.cures[{"clean", "leak"}] = {2, 0};
  const auto rates = repair_rates(knowledge, tallies);
  ASSERT_EQ(rates.size(), 1U);
  EXPECT_EQ(rates[0].all.own, (Tries{8, 5}));
  EXPECT_DOUBLE_EQ(*rates[0].all.usually, (6 * 0.75 + 2 * 0.25) / 8);
  EXPECT_EQ(rates[0].all.known, (Beta{0.75 * 12 + 0.25 * 1, 0.75 * 4 + 0.25 * 3}));
  EXPECT_THAT(rates[0].by_cause,
              ElementsAre(Field(&CureRate::cause, "jet"), Field(&CureRate::cause, "leak")));
}

TEST(RepairRates, HaveNothingUsualForACauseThatTheKnowledgeBaseDoesNotList) {
  Tallies tallies;
  tallies.cures[{"clean", "plug"}] = {6, 1};
  const auto rates = rates_of(tallies);
  ASSERT_EQ(rates.size(), 1U);
  EXPECT_EQ(rates[0].all.usually, std::nullopt);
  EXPECT_EQ(rates[0].all.differs, Differs::no);
  EXPECT_EQ(rates[0].all.now, (Beta{1.5, 5.5}));
}

TEST(RepairRates, StandInTheOrderOfTheirTries) {
  Tallies tallies;
  tallies.cures[{"clean", "jet"}] = {2, 1};
  tallies.cures[{"new-plug", "plug"}] = {7, 7};
  tallies.cures[{"new-key", "key"}] = {0, 0};
  EXPECT_THAT(rates_of(tallies),
              ElementsAre(Field(&RepairRate::repair, "new-plug"), Field(&RepairRate::repair, "clean")));
}

RC_GTEST_PROP(RepairRates, LieWithinTheirRangeAndBetweenOwnAndUsual, ()) {
  const auto tried = *rc::gen::inRange<std::int64_t>(1, 200);
  const auto cured = *rc::gen::inRange<std::int64_t>(0, tried + 1);
  Tallies tallies;
  tallies.cures[{"clean", "jet"}] = {tried, cured};
  const CureRate rate = rates_of(tallies).at(0).all;
  const double now = rate.now.mean();
  RC_ASSERT(now >= std::min(rate.share(), *rate.usually) - 1e-12);
  RC_ASSERT(now <= std::max(rate.share(), *rate.usually) + 1e-12);
  RC_ASSERT(rate.range().low < now && now < rate.range().high);
}

// Of starts that fail the jet is behind 60 of 100 here, 100 x 5 % more are unlisted ones. R:
// qbeta(c(.1, .9), 68, 113 - 68).
TEST(ConfirmedCauses, HaveTheirShareOfOwnCasesOfTheTradeAndOfBoth) {
  Tallies tallies;
  tallies.causes["no-start"] = {{"jet", 8}};
  const auto lessons = confirmed_causes(small_knowledge(), tallies);
  ASSERT_EQ(lessons.size(), 1U);
  EXPECT_EQ(lessons[0].symptom, "no-start");
  EXPECT_EQ(lessons[0].cases, 8);
  ASSERT_EQ(lessons[0].causes.size(), 4U) << "jet, plug, key, unlisted";
  const CauseShare& jet = lessons[0].causes[0];
  EXPECT_EQ(jet.cause, "jet");
  EXPECT_EQ(jet.own, 8);
  EXPECT_DOUBLE_EQ(jet.usually, 60.0 / 105);
  EXPECT_DOUBLE_EQ(jet.now, 68.0 / 113);
  EXPECT_EQ(jet.range, (Beta{68, 45}.central(kShownLevel)));
  EXPECT_EQ(jet.differs, Differs::higher);
  double sum = 0;
  for (const CauseShare& each : lessons[0].causes)
    sum += each.now;
  EXPECT_NEAR(sum, 1, 1e-12);
}

TEST(ConfirmedCauses, KnowThoseThatTheTradeDoesNotList) {
  Tallies tallies;
  tallies.causes["surges"] = {{"key", 1}, {"unlisted", 2}};
  const auto lessons = confirmed_causes(small_knowledge(), tallies);
  ASSERT_EQ(lessons.size(), 1U);
  EXPECT_THAT(lessons[0].causes,
              ElementsAre(Field(&CauseShare::cause, "unlisted"), Field(&CauseShare::cause, "key"),
                          Field(&CauseShare::cause, "jet"), Field(&CauseShare::cause, "leak")));
  EXPECT_EQ(lessons[0].causes[1].usually, 0);
}

TEST(StepTimes, HaveOwnMinutesBesideTheTradesAndThoseThatPlansCountWith) {
  Tallies tallies;
  tallies.minutes["clean"] = {90, 100, 95, 105, 110};
  tallies.minutes["spark"] = {4};
  const auto times = step_times(small_knowledge(), tallies);
  ASSERT_EQ(times.size(), 2U);
  EXPECT_EQ(times[0].step, "clean");
  EXPECT_EQ(times[0].sort, StepTime::Sort::repair);
  EXPECT_EQ(times[0].own.count, 5U);
  EXPECT_EQ(times[0].own.mean, 100);
  EXPECT_EQ(times[0].known, (learning::Range{40, 60, 120}));
  EXPECT_EQ(times[0].expected, learning::shrunk_mean({40, 60, 120}, tallies.minutes["clean"]));
  EXPECT_EQ(times[0].differs, Differs::higher);
  EXPECT_EQ(times[1].sort, StepTime::Sort::test);
  EXPECT_EQ(times[1].differs, Differs::no);
}

}  // namespace
}  // namespace secondpull::lessons
