#include <cmath>
#include <functional>
#include <limits>
#include <ostream>

#include <gmock/gmock.h>

#include "core/diagnosis/case.h"
#include "tests/core/diagnosis/sound_case.h"

namespace secondpull::diagnosis {
namespace {

using test::sound_case;

constexpr double kInfinity = std::numeric_limits<double>::infinity();
const double kNotANumber = std::nan("");

/// One thing wrong with a sound case, and what must be said about it.
struct Broken {
  std::string name;
  std::function<void(Case&)> broken;
  Problem expected;
};

void PrintTo(const Broken& broken, std::ostream* out) {
  *out << broken.name;
}

class CaseProblems : public testing::TestWithParam<Broken> {};

TEST_P(CaseProblems, NamesTheFieldAndTheValue) {
  Case given = sound_case();
  GetParam().broken(given);
  const std::vector<Problem> problems = problems_of(given);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].field, GetParam().expected.field);
  EXPECT_EQ(problems[0].value, GetParam().expected.value);
  EXPECT_EQ(problems[0].sentence, GetParam().expected.sentence);
}

/// A number that must be 0 or more, made negative.
Broken negative(std::string name, std::string field, std::function<double&(Case&)> in) {
  return {std::move(name),
          [in](Case& given) { in(given) = -2.5; },
          {field + " is -2.5; it must be 0 or more.", field, "-2.5"}};
}

INSTANTIATE_TEST_SUITE_P(
    Negative, CaseProblems,
    testing::Values(
        negative("HourValue", "hour_value", [](Case& of) -> double& { return of.hour_value; }),
        negative("DayCost", "day_cost", [](Case& of) -> double& { return of.day_cost; }),
        negative("Weight", "causes[1].weight", [](Case& of) -> double& { return of.causes[1].weight; }),
        negative("TestCost", "tests[0].cost", [](Case& of) -> double& { return of.tests[0].cost; }),
        negative("TestMinutes", "tests[1].minutes", [](Case& of) -> double& { return of.tests[1].minutes; }),
        negative("TestDays", "tests[0].days", [](Case& of) -> double& { return of.tests[0].days; }),
        negative("RepairCost", "repairs[1].cost", [](Case& of) -> double& { return of.repairs[1].cost; }),
        negative("RepairMinutes", "repairs[0].minutes",
                 [](Case& of) -> double& { return of.repairs[0].minutes; }),
        negative("RepairDays", "repairs[0].days", [](Case& of) -> double& { return of.repairs[0].days; }),
        negative("Price", "revived.price", [](Case& of) -> double& { return of.revived.price; }),
        negative("Spread", "revived.spread", [](Case& of) -> double& { return of.revived.spread; }),
        negative("FixedFee", "revived.fee_fixed", [](Case& of) -> double& { return of.revived.fee_fixed; }),
        negative("RevivedHours", "revived.hours", [](Case& of) -> double& { return of.revived.hours; }),
        negative("RevivedDays", "revived.days", [](Case& of) -> double& { return of.revived.days; }),
        negative("Comeback", "revived.comeback_cost",
                 [](Case& of) -> double& { return of.revived.comeback_cost; }),
        negative("KnownWorkCost", "revived.known_work[0].cost",
                 [](Case& of) -> double& { return of.revived.known_work[0].cost; }),
        negative("KnownWorkMinutes", "revived.known_work[0].minutes",
                 [](Case& of) -> double& { return of.revived.known_work[0].minutes; }),
        negative("StopHours", "stops[0].hours", [](Case& of) -> double& { return of.stops[0].hours; }),
        negative("StopDays", "stops[1].days", [](Case& of) -> double& { return of.stops[1].days; }),
        negative("SunkCash", "sunk.cash", [](Case& of) -> double& { return of.sunk.cash; }),
        negative("SunkHours", "sunk.hours", [](Case& of) -> double& { return of.sunk.hours; })),
    [](const auto& given) { return given.param.name; });

/// A number that is none.
Broken no_number(std::string name, std::string field, double value, std::string shown,
                 std::function<double&(Case&)> in) {
  return {std::move(name),
          [in, value](Case& given) { in(given) = value; },
          {field + " is " + shown + "; it must be a number.", field, shown}};
}

INSTANTIATE_TEST_SUITE_P(
    NotFinite, CaseProblems,
    testing::Values(no_number("Price", "revived.price", kInfinity, "inf",
                              [](Case& of) -> double& { return of.revived.price; }),
                    no_number("HourValue", "hour_value", kNotANumber, "nan",
                              [](Case& of) -> double& { return of.hour_value; }),
                    no_number("StopValue", "stops[1].value", -kInfinity, "-inf",
                              [](Case& of) -> double& { return of.stops[1].value; }),
                    no_number("ValueByCause", "stops[0].value_by_cause.leak", kNotANumber, "nan",
                              [](Case& of) -> double& { return of.stops[0].value_by_cause[0].second; }),
                    no_number("Weight", "causes[0].weight", kInfinity, "inf",
                              [](Case& of) -> double& { return of.causes[0].weight; }),
                    no_number("Likelihood", "tests[0].likelihood.leak[0]", kNotANumber, "nan",
                              [](Case& of) -> double& { return of.tests[0].likelihood[0].second[0]; }),
                    no_number("Cure", "repairs[0].cures.leak", kNotANumber, "nan",
                              [](Case& of) -> double& { return of.repairs[0].cures[0].second; }),
                    no_number("FeeRate", "revived.fee_rate", kInfinity, "inf",
                              [](Case& of) -> double& { return of.revived.fee_rate; })),
    [](const auto& given) { return given.param.name; });

/// A probability that is none.
Broken no_chance(std::string name, std::string field, double value, std::string shown,
                 std::function<double&(Case&)> in) {
  return {std::move(name),
          [in, value](Case& given) { in(given) = value; },
          {field + " is " + shown + "; a probability must be from 0 to 1.", field, shown}};
}

INSTANTIATE_TEST_SUITE_P(
    NoProbability, CaseProblems,
    testing::Values(no_chance("Cure", "repairs[0].cures.leak", 1.3, "1.3",
                              [](Case& of) -> double& { return of.repairs[0].cures[0].second; }),
                    no_chance("CureBelow", "repairs[1].cures.spark", -0.1, "-0.1",
                              [](Case& of) -> double& { return of.repairs[1].cures[0].second; }),
                    no_chance("Likelihood", "tests[2].likelihood.spark[1]", 1.5, "1.5",
                              [](Case& of) -> double& { return of.tests[2].likelihood[0].second[1]; }),
                    no_chance("Otherwise", "tests[0].otherwise[0]", -0.5, "-0.5",
                              [](Case& of) -> double& { return (*of.tests[0].otherwise)[0]; }),
                    no_chance("FeeRate", "revived.fee_rate", 12, "12",
                              [](Case& of) -> double& { return of.revived.fee_rate; }),
                    no_chance("Comeback", "revived.comeback_chance", -1, "-1",
                              [](Case& of) -> double& { return of.revived.comeback_chance; })),
    [](const auto& given) { return given.param.name; });

INSTANTIATE_TEST_SUITE_P(
    Lists, CaseProblems,
    testing::Values(
        Broken{"NoCauses",
               [](Case& of) {
                 of = Case{};
                 of.stops = {{.id = "scrap"}};
               },
               {"causes is empty; a case needs at least one cause.", "causes", ""}},
        Broken{"NoWeight",
               [](Case& of) {
                 for (Cause& cause : of.causes)
                   cause.weight = 0;
               },
               {"causes have weights that add up to 0; at least one weight must be more than 0.", "causes",
                "0"}},
        Broken{"NoStop",
               [](Case& of) { of.stops.clear(); },
               {"stops is empty; a case needs at least one way to stop, be it to scrap the machine for 0.",
                "stops", ""}},
        Broken{"EmptyId",
               [](Case& of) { of.stops[1].id.clear(); },
               {"stops[1].id is empty; everything in a list needs an id.", "stops[1].id", ""}},
        Broken{"SameCause",
               [](Case& of) { of.causes[2].id = "spark"; },
               {"causes[2].id is \"spark\", and so is causes[1].id; an id may stand only once in its list.",
                "causes[2].id", "spark"}},
        Broken{"SameTest",
               [](Case& of) { of.tests[2].id = "bowl"; },
               {"tests[2].id is \"bowl\", and so is tests[1].id; an id may stand only once in its list.",
                "tests[2].id", "bowl"}},
        Broken{"SameRepair",
               [](Case& of) { of.repairs[1].id = "seat"; },
               {"repairs[1].id is \"seat\", and so is repairs[0].id; an id may stand only once in its list.",
                "repairs[1].id", "seat"}},
        Broken{"SameStop",
               [](Case& of) { of.stops[1].id = "as-is"; },
               {"stops[1].id is \"as-is\", and so is stops[0].id; an id may stand only once in its list.",
                "stops[1].id", "as-is"}},
        Broken{"StopRevived",
               [](Case& of) { of.stops[0].id = "revived"; },
               {"stops[0].id is \"revived\", which is the word for a machine that runs; call the stop "
                "otherwise.",
                "stops[0].id", "revived"}},
        Broken{
            "StopRevive",
            [](Case& of) { of.stops[0].id = "revive"; },
            {"stops[0].id is \"revive\", which is the word for a machine that runs; call the stop otherwise.",
             "stops[0].id", "revive"}},
        Broken{"NoOutcomes",
               [](Case& of) { of.tests[1].outcomes.clear(); },
               {"tests[1].outcomes is empty; a test needs at least one outcome.", "tests[1].outcomes", ""}},
        Broken{
            "SameOutcome",
            [](Case& of) { of.tests[1].outcomes[1] = "full"; },
            {"tests[1].outcomes[1] is \"full\", which stands there already; outcomes of a test must differ.",
             "tests[1].outcomes[1]", "full"}},
        Broken{"EmptyOutcome",
               [](Case& of) { of.tests[1].outcomes[1].clear(); },
               {"tests[1].outcomes[1] is empty; an outcome needs a name.", "tests[1].outcomes[1]", ""}},
        Broken{"NoTries",
               [](Case& of) { of.repairs[1].tries = 0; },
               {"repairs[1].tries is 0; it must be from 1 to 100.", "repairs[1].tries", "0"}},
        Broken{"TooManyTries",
               [](Case& of) { of.repairs[1].tries = 101; },
               {"repairs[1].tries is 101; it must be from 1 to 100.", "repairs[1].tries", "101"}},
        Broken{"TooManyCauses",
               [](Case& of) {
                 for (std::size_t i = of.causes.size(); i < 1001; ++i)
                   of.causes.push_back({std::to_string(i), 1});
               },
               {"causes holds 1001 entries; at most 1000 are allowed.", "causes", "1001"}},
        Broken{"TooMuchMoney",
               [](Case& of) { of.revived.price = 1e200; },
               {"revived.price is 1e+200; it must not be more than 1e+12.", "revived.price", "1e+200"}},
        Broken{"TooMuchToPay",
               [](Case& of) { of.stops[0].value = -2e12; },
               {"stops[0].value is -2e+12; it must not be less than -1e+12.", "stops[0].value", "-2e+12"}}),
    [](const auto& given) { return given.param.name; });

INSTANTIATE_TEST_SUITE_P(
    ByCause, CaseProblems,
    testing::Values(
        Broken{"RowDoesNotAddUp",
               [](Case& of) {
                 of.tests[0].likelihood[0].second = {0.8, 0.1};
               },
               {"tests[0].likelihood.leak adds up to 0.9; its probabilities must add up to 1.",
                "tests[0].likelihood.leak", "0.9"}},
        Broken{"RowJustOutsideTheTolerance",
               [](Case& of) {
                 of.tests[0].likelihood[0].second = {0.9, 0.1 + 3e-9};
               },
               {"tests[0].likelihood.leak adds up to 1.000000003; its probabilities must add up to 1.",
                "tests[0].likelihood.leak", "1.000000003"}},
        Broken{"OtherwiseDoesNotAddUp",
               [](Case& of) {
                 of.tests[0].otherwise = {0.75, 0.5};
               },
               {"tests[0].otherwise adds up to 1.25; its probabilities must add up to 1.",
                "tests[0].otherwise", "1.25"}},
        Broken{"RowTooShort",
               [](Case& of) { of.tests[0].likelihood[1].second = {1}; },
               {"tests[0].likelihood.spark has 1 numbers; there must be 2, one for each outcome.",
                "tests[0].likelihood.spark", "1"}},
        Broken{"OtherwiseTooLong",
               [](Case& of) {
                 of.tests[0].otherwise = {0.5, 0.5, 0};
               },
               {"tests[0].otherwise has 3 numbers; there must be 2, one for each outcome.",
                "tests[0].otherwise", "3"}},
        Broken{"UnknownInLikelihood",
               [](Case& of) { of.tests[0].likelihood[0].first = "leek"; },
               {"tests[0].likelihood.leek names the cause \"leek\", which is not among the causes.",
                "tests[0].likelihood.leek", "leek"}},
        Broken{"UnknownInCures",
               [](Case& of) { of.repairs[0].cures[0].first = "leek"; },
               {"repairs[0].cures.leek names the cause \"leek\", which is not among the causes.",
                "repairs[0].cures.leek", "leek"}},
        Broken{"UnknownInValues",
               [](Case& of) { of.stops[0].value_by_cause[0].first = "leek"; },
               {"stops[0].value_by_cause.leek names the cause \"leek\", which is not among the causes.",
                "stops[0].value_by_cause.leek", "leek"}},
        Broken{"TwiceInLikelihood",
               [](Case& of) { of.tests[0].likelihood[1].first = "leak"; },
               {"tests[0].likelihood.leak stands twice; give one entry for the cause \"leak\".",
                "tests[0].likelihood.leak", "leak"}},
        Broken{"TwiceInCures",
               [](Case& of) {
                 of.repairs[0].cures.push_back({"leak", 0.2});
               },
               {"repairs[0].cures.leak stands twice; give one entry for the cause \"leak\".",
                "repairs[0].cures.leak", "leak"}},
        Broken{"TwiceInValues",
               [](Case& of) {
                 of.stops[0].value_by_cause.push_back({"leak", 2});
               },
               {"stops[0].value_by_cause.leak stands twice; give one entry for the cause \"leak\".",
                "stops[0].value_by_cause.leak", "leak"}}),
    [](const auto& given) { return given.param.name; });

INSTANTIATE_TEST_SUITE_P(
    Evidence, CaseProblems,
    testing::Values(
        Broken{"UnknownTest",
               [](Case& of) {
                 of.evidence = {TestShowed{"lok", "wet"}};
               },
               {"evidence[0].test is \"lok\", which is not among the tests.", "evidence[0].test", "lok"}},
        Broken{"UnknownOutcome",
               [](Case& of) {
                 of.evidence = {TestShowed{"look", "full"}};
               },
               {"evidence[0].outcome is \"full\", which is not an outcome of \"look\".",
                "evidence[0].outcome", "full"}},
        Broken{"UnknownRepair",
               [](Case& of) { of.evidence = {RepairFailed{"seet"}}; },
               {"evidence[0].repair is \"seet\", which is not among the repairs.", "evidence[0].repair",
                "seet"}},
        Broken{"TestTwice",
               [](Case& of) {
                 of.evidence = {TestShowed{"tester", "none"}, TestShowed{"tester", "none"}};
               },
               {"evidence[1].test is \"tester\", which stands in the evidence already; a test is made once.",
                "evidence[1].test", "tester"}},
        Broken{"MoreThanItsTries",
               [](Case& of) {
                 of.evidence = {RepairFailed{"seat"}, RepairFailed{"seat"}, RepairFailed{"seat"}};
               },
               {"evidence[2].repair is \"seat\", which has failed 2 times already; that is all its tries.",
                "evidence[2].repair", "seat"}},
        Broken{
            "NeverSeen",
            [](Case& of) {
              of.causes = {{"leak", 1}, {"spark", 0}};
              of.evidence = {RepairFailed{"seat"}, TestShowed{"bowl", "empty"}, TestShowed{"tester", "none"}};
            },
            {"evidence[1] (\"bowl\" showing \"empty\") has probability 0 together with the lines before it: "
             "no "
             "cause of the case could bring it about.",
             "evidence[1]", "empty"}},
        Broken{
            "NeverFailed",
            [](Case& of) {
              of.causes = {{"spark", 1}, {"leak", 0}};
              of.evidence = {RepairFailed{"coil"}, RepairFailed{"seat"}};
            },
            {"evidence[0] (\"coil\" having failed) has probability 0 together with the lines before it: no "
             "cause of the case could bring it about.",
             "evidence[0]", "coil"}}),
    [](const auto& given) { return given.param.name; });

TEST(CaseProblemsOf, ASoundCaseAreNone) {
  EXPECT_THAT(problems_of(sound_case()), testing::IsEmpty());
}

TEST(CaseProblemsOf, AnEmptyCaseAreItsMissingCausesAndStops) {
  EXPECT_THAT(problems_of(Case{}), testing::ElementsAre(testing::Field(&Problem::field, "causes"),
                                                        testing::Field(&Problem::field, "stops")));
}

TEST(CaseProblemsOf, ComeInTheOrderOfTheFields) {
  Case given = sound_case();
  given.sunk.cash = -1;
  given.evidence.push_back(RepairFailed{"nothing"});
  given.stops[0].hours = -1;
  given.revived.price = -1;
  given.repairs[0].cost = -1;
  given.tests[0].cost = -1;
  given.causes[0].weight = -1;
  given.day_cost = -1;
  EXPECT_THAT(problems_of(given), testing::ElementsAre(testing::Field(&Problem::field, "day_cost"),
                                                       testing::Field(&Problem::field, "causes[0].weight"),
                                                       testing::Field(&Problem::field, "tests[0].cost"),
                                                       testing::Field(&Problem::field, "repairs[0].cost"),
                                                       testing::Field(&Problem::field, "revived.price"),
                                                       testing::Field(&Problem::field, "stops[0].hours"),
                                                       testing::Field(&Problem::field, "evidence[2].repair"),
                                                       testing::Field(&Problem::field, "sunk.cash")));
}

TEST(CaseProblemsOf, ARowWithinTheToleranceAreNone) {
  Case given = sound_case();
  given.tests[0].likelihood[0].second = {0.9, 0.1 + 0.9e-9};
  EXPECT_THAT(problems_of(given), testing::IsEmpty());
}

TEST(CaseProblemsOf, NegativeStopValuesAreNone) {
  Case given = sound_case();
  given.stops[0].value = -40;
  given.stops[0].value_by_cause[0].second = -50;
  EXPECT_THAT(problems_of(given), testing::IsEmpty());
}

TEST(CaseProblemsOf, WeightsOfAnyFiniteSizeAreNone) {
  Case given = sound_case();
  given.causes[0].weight = std::numeric_limits<double>::max();
  given.causes[1].weight = std::numeric_limits<double>::max();
  given.causes[2].weight = std::numeric_limits<double>::denorm_min();
  EXPECT_THAT(problems_of(given), testing::IsEmpty());
}

TEST(CaseProblemsOf, TestsOfOneGroupListedAgainAreNone) {
  Case given = sound_case();
  given.evidence = {TestShowed{"look", "dry"}, TestShowed{"bowl", "full"}, TestShowed{"look", "wet"}};
  EXPECT_THAT(problems_of(given), testing::IsEmpty());
}

// Of a group the last listed counts, so an earlier line cannot make the evidence impossible.
TEST(CaseProblemsOf, AnImpossibleLineThatDoesNotCountAreNone) {
  Case given = sound_case();
  given.causes = {{"leak", 1}, {"spark", 0}};
  given.evidence = {TestShowed{"bowl", "empty"}, TestShowed{"look", "wet"}};
  EXPECT_THAT(problems_of(given), testing::IsEmpty());
}

}  // namespace
}  // namespace secondpull::diagnosis
