#include "core/learning/own_numbers.h"

#include <limits>

#include <gmock/gmock.h>

namespace secondpull::learning {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::Pair;

diagnosis::Case small_case() {
  diagnosis::Case c;
  c.hour_value = 18;
  c.causes = {{"jet", 60}, {"jet.main", 5}, {"key", 20}};
  c.tests = {{.id = "spark", .minutes = 4, .outcomes = {"strong", "none"}}};
  c.repairs = {{.id = "clean", .cost = 9, .minutes = 60, .cures = {{"jet", 0.75}}}};
  c.revived = {.price = 100, .hours = 1};
  c.stops = {{.id = "part-out", .value = 34, .hours = 1.5, .value_by_cause = {{"key", 4}}},
             {.id = "scrap", .value = 5}};
  return c;
}

TEST(OwnNumbers, EveryPathIsReadAndWritten) {
  for (const char* path : {"hour_value",
                           "day_cost",
                           "revived.price",
                           "revived.spread",
                           "revived.days",
                           "revived.hours",
                           "revived.comeback_chance",
                           "revived.comeback_cost",
                           "revived.fee_rate",
                           "revived.fee_fixed",
                           "causes.key.weight",
                           "causes.jet.main.weight",
                           "tests.spark.minutes",
                           "tests.spark.cost",
                           "tests.spark.days",
                           "repairs.clean.minutes",
                           "repairs.clean.cost",
                           "repairs.clean.days",
                           "repairs.clean.tries",
                           "repairs.clean.cures.jet",
                           "repairs.clean.cures.jet.main",
                           "stops.scrap.value",
                           "stops.scrap.hours",
                           "stops.scrap.days"}) {
    diagnosis::Case c = small_case();
    const auto before = number_at(c, path);
    ASSERT_TRUE(before) << path;
    const double said = *before == 1 ? 2 : 1;  // a chance and a count at once
    const double value = std::string_view{path}.ends_with(".jet") ? 0.5 : said;
    EXPECT_THAT(apply_said(c, std::vector<OwnNumberLine>{{path, value}}), IsEmpty()) << path;
    EXPECT_EQ(number_at(c, path), value) << path;
  }
}

TEST(OwnNumbers, ChangeNothingElse) {
  diagnosis::Case c = small_case();
  apply_said(c, std::vector<OwnNumberLine>{{"repairs.clean.cost", 12}});
  EXPECT_EQ(c.repairs[0].cost, 12);
  EXPECT_EQ(c.repairs[0].minutes, 60);
  EXPECT_EQ(c.stops[1].value, 5);
}

TEST(OwnNumbers, APathThatNamesNothingHereIsToldAndTheOthersHold) {
  diagnosis::Case c = small_case();
  const auto left = apply_said(c, std::vector<OwnNumberLine>{{"repairs.new-key.cost", 3},
                                                             {"repairs.clean", 1},
                                                             {"repairs.clean.cures.plug", 0.5},
                                                             {"revived.known_work", 1},
                                                             {"stops.scrap.value", 7}});
  ASSERT_EQ(left.size(), 4U);
  EXPECT_EQ(left[0].field, "repairs.new-key.cost");
  EXPECT_EQ(left[0].value, "3");
  EXPECT_EQ(c.stops[1].value, 7);
  EXPECT_EQ(number_at(c, "repairs.new-key.cost"), std::nullopt);
  EXPECT_EQ(number_at(c, "repairs.clean.cures.plug"), std::nullopt);
  EXPECT_EQ(number_at(c, ""), std::nullopt);
}

TEST(OwnNumbers, ANumberWithWhichItWouldBeNoCaseIsLeftOut) {
  diagnosis::Case c = small_case();
  const auto left =
      apply_said(c, std::vector<OwnNumberLine>{{"repairs.clean.cures.jet", 1.5},
                                               {"tests.spark.minutes", -1},
                                               {"repairs.clean.tries", 2.5},
                                               {"repairs.clean.tries", 1e12},
                                               {"revived.price", std::numeric_limits<double>::infinity()}});
  EXPECT_EQ(left.size(), 5U);
  EXPECT_EQ(left[0].field, "repairs.clean.cures.jet");
  EXPECT_EQ(c.repairs[0].cures[0].second, 0.75);
  EXPECT_EQ(c.tests[0].minutes, 4);
  EXPECT_EQ(c.repairs[0].tries, 1);
  EXPECT_EQ(c.revived.price, 100);
}

TEST(OwnNumbers, AValueSaidForAStopHoldsWhateverTheCause) {
  diagnosis::Case c = small_case();
  apply_said(c, std::vector<OwnNumberLine>{{"stops.part-out.hours", 2}});
  EXPECT_THAT(c.stops[0].value_by_cause, ElementsAre(Pair("key", 4)));
  apply_said(c, std::vector<OwnNumberLine>{{"stops.part-out.value", 50}});
  EXPECT_EQ(c.stops[0].value, 50);
  EXPECT_THAT(c.stops[0].value_by_cause, IsEmpty());
}

TEST(OwnNumbers, OfTwoForOnePathTheLaterHolds) {
  diagnosis::Case c = small_case();
  EXPECT_THAT(apply_said(c, std::vector<OwnNumberLine>{{"day_cost", 1}, {"day_cost", 2}}), IsEmpty());
  EXPECT_EQ(c.day_cost, 2);
}

}  // namespace
}  // namespace secondpull::learning
