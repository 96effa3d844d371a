#include "db/exchange/case_json.h"

#include <string>

#include <gmock/gmock.h>

namespace secondpull::db {
namespace {

using testing::HasSubstr;

const std::string kCase = R"({
  "hour_value": 20, "day_cost": 0.5,
  "causes": [{"id": "leak", "weight": 3}, {"id": "unlisted", "weight": 1}],
  "tests": [{"id": "look", "cost": 1, "minutes": 6, "days": 1, "group": "eyes", "outcomes": ["wet", "dry"],
             "likelihood": {"leak": [0.9, 0.1]}, "otherwise": [0.2, 0.8]}],
  "repairs": [{"id": "seat", "cost": 5, "minutes": 30, "days": 2, "tries": 2, "cures": {"leak": 0.3}}],
  "revived": {"price": 100, "spread": 0.25, "fee_rate": 0.1, "fee_fixed": 1, "hours": 1, "days": 7,
              "comeback_chance": 0.05, "comeback_cost": 20, "known_work": [{"cost": 4, "minutes": 15}]},
  "stops": [{"id": "scrap", "value": -5, "hours": 0.5, "days": 1, "value_by_cause": {"leak": 8}}],
  "evidence": [{"test": "look", "outcome": "wet"}, {"repair": "seat"}],
  "sunk": {"cash": 12.5, "hours": 2}
})";

/// kCase with a piece of it replaced.
std::string with(const std::string& piece, const std::string& replacement) {
  std::string out = kCase;
  const auto at = out.find(piece);
  EXPECT_NE(at, std::string::npos) << piece;
  return out.replace(at, piece.size(), replacement);
}

TEST(CaseJson, ReadsEveryField) {
  const auto of = read_case(kCase);
  ASSERT_TRUE(of) << of.error().sentence;
  EXPECT_EQ(of->hour_value, 20);
  EXPECT_EQ(of->day_cost, 0.5);
  ASSERT_EQ(of->causes.size(), 2U);
  EXPECT_EQ(of->causes[0].id, "leak");
  EXPECT_EQ(of->causes[0].weight, 3);
  const diagnosis::Test& test = of->tests.at(0);
  EXPECT_EQ(test.group, "eyes");
  EXPECT_EQ(test.days, 1);
  EXPECT_THAT(test.outcomes, testing::ElementsAre("wet", "dry"));
  EXPECT_EQ(test.likelihood.at(0).first, "leak");
  EXPECT_THAT(test.likelihood.at(0).second, testing::ElementsAre(0.9, 0.1));
  ASSERT_TRUE(test.otherwise);
  EXPECT_THAT(*test.otherwise, testing::ElementsAre(0.2, 0.8));
  const diagnosis::Repair& repair = of->repairs.at(0);
  EXPECT_EQ(repair.minutes, 30);
  EXPECT_EQ(repair.days, 2);
  EXPECT_EQ(repair.tries, 2);
  EXPECT_EQ(repair.cures.at(0).second, 0.3);
  EXPECT_EQ(of->revived.spread, 0.25);
  EXPECT_EQ(of->revived.fee_rate, 0.1);
  EXPECT_EQ(of->revived.fee_fixed, 1);
  EXPECT_EQ(of->revived.days, 7);
  EXPECT_EQ(of->revived.comeback_chance, 0.05);
  EXPECT_EQ(of->revived.comeback_cost, 20);
  EXPECT_EQ(of->revived.known_work.at(0).minutes, 15);
  EXPECT_EQ(of->stops.at(0).value, -5);
  EXPECT_EQ(of->stops.at(0).value_by_cause.at(0).second, 8);
  EXPECT_EQ(std::get<diagnosis::TestShowed>(of->evidence.at(0)).outcome, "wet");
  EXPECT_EQ(std::get<diagnosis::RepairFailed>(of->evidence.at(1)).repair, "seat");
  EXPECT_EQ(of->sunk.cash, 12.5);
  EXPECT_EQ(of->sunk.hours, 2);
}

TEST(CaseJson, TakesWhatIsAbsentAsNothing) {
  const auto of = read_case(R"({"causes": [{"id": "a", "weight": 1}], "stops": [{"id": "scrap"}]})");
  ASSERT_TRUE(of) << of.error().sentence;
  EXPECT_EQ(of->hour_value, 0);
  EXPECT_TRUE(of->tests.empty());
  EXPECT_EQ(of->stops.at(0).value, 0);
  EXPECT_EQ(of->revived.price, 0);
}

struct Bad {
  std::string piece;
  std::string replacement;
  std::string field;
  std::string value;
};

class CaseJsonFault : public testing::TestWithParam<Bad> {};

TEST_P(CaseJsonFault, IsNamedByFieldAndValue) {
  const auto of = read_case(with(GetParam().piece, GetParam().replacement));
  ASSERT_FALSE(of);
  EXPECT_EQ(of.error().field, GetParam().field);
  EXPECT_EQ(of.error().value, GetParam().value);
  EXPECT_THAT(of.error().sentence, HasSubstr(GetParam().field));
  EXPECT_THAT(of.error().sentence, HasSubstr(GetParam().value));
}

INSTANTIATE_TEST_SUITE_P(
    All, CaseJsonFault,
    testing::Values(
        // Fields that a case does not have, at every level.
        Bad{R"("day_cost")", R"("daycost")", "daycost", "0.5"},
        Bad{R"("weight": 3)", R"("wieght": 3)", "causes[0].wieght", "3"},
        Bad{R"("group")", R"("groups")", "tests[0].groups", "eyes"},
        Bad{R"("tries": 2)", R"("trys": 2)", "repairs[0].trys", "2"},
        Bad{R"("spread")", R"("spred")", "revived.spred", "0.25"},
        Bad{R"("cost": 4, "minutes": 15)", R"("cost": 4, "hours": 15)", "revived.known_work[0].hours", "15"},
        Bad{R"("value": -5)", R"("worth": -5)", "stops[0].worth", "-5"},
        Bad{R"("outcome": "wet")", R"("result": "wet")", "evidence[0].result", "wet"},
        Bad{R"({"repair": "seat"})", R"({"repair": "seat", "outcome": "failed"})", "evidence[1].outcome",
            "failed"},
        Bad{R"("cash": 12.5)", R"("money": 12.5)", "sunk.money", "12.5"},
        // Values of another kind.
        Bad{R"("price": 100)", R"("price": "100")", "revived.price", "100"},
        Bad{R"("price": 100)", R"("price": null)", "revived.price", "null"},
        Bad{R"("price": 100)", R"("price": true)", "revived.price", "true"},
        Bad{R"("id": "leak")", R"("id": 7)", "causes[0].id", "7"},
        Bad{R"("tries": 2)", R"("tries": 1.5)", "repairs[0].tries", "1.5"},
        Bad{R"({"leak": 0.3})", R"([0.3])", "repairs[0].cures", "a list"},
        Bad{R"(["wet", "dry"])", R"("wet")", "tests[0].outcomes", "wet"},
        Bad{R"({"cash": 12.5, "hours": 2})", "3", "sunk", "3"},
        // Numbers that are none, as other writers of JSON put them.
        Bad{R"("price": 100)", R"("price": NaN)", "revived.price", "NaN"},
        Bad{R"("price": 100)", R"("price": -Infinity)", "revived.price", "-Infinity"},
        Bad{R"("price": 100)", R"("price": 1e999)", "revived.price", "1e999"},
        Bad{"0.9, 0.1", "0.9, Infinity", "tests[0].likelihood.leak[1]", "Infinity"},
        // A field that stands twice.
        Bad{R"("weight": 3)", R"("weight": 3, "weight": 4)", "causes[0].weight", "weight"},
        // No JSON.
        Bad{R"("weight": 3})", R"("weight": 3)", "causes[0].weight", "{"},
        // And what the case itself forbids, here one for all: tests/core/diagnosis has the rest.
        Bad{R"("leak": [0.9, 0.1])", R"("leak": [0.9, 0.2])", "tests[0].likelihood.leak", "1.1"}));

TEST(CaseJson, SaysInWhichLineTheTextStopsBeingJson) {
  const auto of = read_case("{\"causes\": [\n{\"id\": \"a\"\n \"weight\": 1}]}");
  ASSERT_FALSE(of);
  EXPECT_THAT(of.error().sentence, HasSubstr("line 3"));
  EXPECT_FALSE(read_case(""));
  EXPECT_FALSE(read_case("{}{}"));
  EXPECT_FALSE(read_case("[]"));
  EXPECT_FALSE(read_case("\xff\xfe"));
}

TEST(CaseJson, ReadsABacklogAndNamesTheCaseThatIsWrong) {
  const auto backlog = read_backlog(R"({"hours": 12, "cases": [{"id": "M1", "case": )" + kCase + "}]}");
  ASSERT_TRUE(backlog) << backlog.error().sentence;
  EXPECT_EQ(backlog->hours, 12);
  EXPECT_EQ(backlog->cases.at(0).id, "M1");
  EXPECT_EQ(backlog->cases.at(0).of.causes.size(), 2U);
  const auto wrong = read_backlog(R"({"hours": 12, "cases": [{"id": "M1", "case": )" +
                                  with("\"tries\"", "\"tires\"") + "}]}");
  ASSERT_FALSE(wrong);
  EXPECT_EQ(wrong.error().field, "cases[0].case.repairs[0].tires");
}

}  // namespace
}  // namespace secondpull::db
