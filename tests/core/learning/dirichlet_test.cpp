#include "core/learning/dirichlet.h"

#include <cmath>

#include <gmock/gmock.h>
#include <rapidcheck.h>

namespace secondpull::learning {
namespace {

using testing::ElementsAre;
using testing::Pair;

TEST(Dirichlet, AddsWhatWasConfirmedToWhatWasBelieved) {
  Dirichlet causes{{{"jet", 30}, {"plug", 5}}};
  causes.add("plug");
  causes.add("plug");
  causes.add("key");
  EXPECT_THAT(causes.counts(), ElementsAre(Pair("jet", 30), Pair("plug", 7), Pair("key", 1)));
  EXPECT_DOUBLE_EQ(causes.mean("plug"), 7.0 / 38);
  EXPECT_EQ(causes.mean("coil"), 0);
}

TEST(Dirichlet, TakesTheSumOfACauseNamedTwice) {
  EXPECT_THAT((Dirichlet{{{"jet", 1}, {"plug", 2}, {"jet", 3}}}.counts()),
              ElementsAre(Pair("jet", 4), Pair("plug", 2)));
}

TEST(Dirichlet, KeepsTheProportionsOfTheOthersWhenACauseIsOut) {
  Dirichlet causes{{{"jet", 30}, {"plug", 10}, {"key", 5}}};
  causes.remove("jet");
  EXPECT_DOUBLE_EQ(causes.mean("plug"), 2.0 / 3);
  causes.remove("plug");
  causes.remove("key");
  EXPECT_EQ(causes.mean("key"), 0);
}

TEST(Dirichlet, HasMeansThatAddUpToOneAndGrowWithEachCase) {
  EXPECT_TRUE(rc::check("means", [] {
    Dirichlet causes;
    const int kinds = *rc::gen::inRange(1, 8);
    for (int cause = 0; cause < kinds; ++cause)
      causes.add(std::to_string(cause), 0.5 + *rc::gen::inRange(0, 50));
    const std::string one = std::to_string(*rc::gen::inRange(0, kinds));
    const double before = causes.mean(one);
    causes.add(one);
    RC_ASSERT(kinds == 1 || causes.mean(one) > before);
    double sum = 0;
    for (const auto& [cause, count] : causes.counts())
      sum += causes.mean(cause);
    RC_ASSERT(std::abs(sum - 1) < 1e-12);
  }));
}

}  // namespace
}  // namespace secondpull::learning
