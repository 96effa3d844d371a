#include "core/planning/stop_if.h"

#include <gmock/gmock.h>

namespace secondpull::planning {
namespace {

/// Two causes, one of which nothing cures; a test that tells them apart.
diagnosis::Case worth_a_look() {
  diagnosis::Case of;
  of.causes = {{"jet", 3}, {"crack", 1}};
  of.tests = {{.id = "look",
               .cost = 1,
               .outcomes = {"whole", "cracked"},
               .likelihood = {{"jet", {1, 0}}, {"crack", {0, 1}}}}};
  of.repairs = {{.id = "clean", .cost = 40, .cures = {{"jet", 0.9}}}};
  of.revived = {.price = 100};
  of.stops = {{.id = "scrap", .value = 2}};
  return of;
}

TEST(StopIf, NamesTheOutcomesAtWhichThePlanGivesUpLikeliestFirst) {
  const diagnosis::Case of = worth_a_look();
  const auto answer = decision::verdict(of);
  ASSERT_TRUE(answer);
  ASSERT_EQ(answer->next.id, "look");
  const auto points = stop_if(*answer, of);
  ASSERT_EQ(points.size(), 2U);
  EXPECT_EQ(points[0].after.id, "look");
  EXPECT_EQ(points[0].outcome, "cracked");
  EXPECT_EQ(points[0].stop.id, "scrap");
  EXPECT_NEAR(points[0].chance, 0.25, 1e-12);
  EXPECT_EQ(points[1].after.id, "clean");
  EXPECT_EQ(points[1].outcome, "");
  EXPECT_NEAR(points[1].chance, 0.075, 1e-12);
}

TEST(StopIf, IsEmptyForAPlanThatStopsAtOnce) {
  diagnosis::Case of = worth_a_look();
  of.revived.price = 10;
  const auto answer = decision::verdict(of);
  ASSERT_TRUE(answer);
  EXPECT_TRUE(stop_if(*answer, of).empty());
}

}  // namespace
}  // namespace secondpull::planning
