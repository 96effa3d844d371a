#include "core/learning/whose.h"

#include <gtest/gtest.h>

#include "tests/core/learning/small_knowledge.h"

namespace secondpull::learning {
namespace {

using test::small_knowledge;

TEST(Whose, ACausesWeightIsCasesBelievedAndCasesConfirmedHere) {
  const Knowledge k = small_knowledge();
  Tallies t;
  t.causes["no-start"] = {{"plug", 3}, {"unlisted", 1}, {"mouse", 2}};
  t.causes["surges"] = {{"jet", 9}};
  const Symptom& no_start = k.symptoms[0];
  EXPECT_EQ(share_of_cause(no_start, "jet", t), (Share{60, 0}));
  EXPECT_EQ(share_of_cause(no_start, "plug", t), (Share{20, 3}));
  EXPECT_EQ(share_of_cause(no_start, "mouse", t), (Share{0, 2}));
  EXPECT_EQ(share_of_cause(no_start, "unlisted", t), (Share{kUnlistedShare * 100, 1}));
  EXPECT_EQ(share_of_cause(no_start, "plug", t).known + share_of_cause(no_start, "plug", t).own,
            causes_of(no_start, t).count("plug"));
}

TEST(Whose, AChanceToCureIsTriesBelievedAndOwnTries) {
  const Knowledge k = small_knowledge();
  const Repair& clean = *k.repair("clean");
  Tallies t;
  t.cures[{"clean", "jet"}] = {.tried = 4, .cured = 1};
  t.cures[{"clean", "leak"}] = {.tried = 3, .cured = 1};
  t.cures[{"clean", "key"}] = {.tried = 3, .cured = 0};
  EXPECT_EQ(share_of_cure(clean, "jet", t), (Share{16, 4}));
  EXPECT_EQ(share_of_cure(clean, "jet", t).own_part(), 0.2);
  EXPECT_EQ(share_of_cure(clean, "leak", t), (Share{1, 3}));  // nobody thought that it could
  EXPECT_EQ(share_of_cure(clean, "key", t), (Share{0, 0}));
  EXPECT_EQ(share_of_cure(clean, "key", t).own_part(), 0);
}

TEST(Whose, MinutesAreAsManyTimesAsTheKnowledgeWeighsAndOwnTimes) {
  const Range known{40, 60, 120};
  Tallies t;
  t.minutes["clean"] = {30, 50};
  const Share share = share_of_minutes("clean", known, t);
  EXPECT_EQ(share.own, 2);
  // The mean of the two is the number itself: what the share says is what was reckoned with.
  EXPECT_NEAR((share.known * 60 + share.own * 40) / (share.known + share.own), minutes_of("clean", known, t),
              1e-12);
  EXPECT_EQ(share_of_minutes("new-plug", known, t).own, 0);
}

}  // namespace
}  // namespace secondpull::learning
