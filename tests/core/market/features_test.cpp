#include "core/market/features.h"

#include <gmock/gmock.h>

#include "tests/core/learning/small_knowledge.h"

namespace secondpull::market {
namespace {

using test::day;

TEST(Features, ReadTheLooksFromWhatTheConditionSays) {
  EXPECT_EQ(grade_of("rusty deck"), Grade::rough);
  EXPECT_EQ(grade_of("Handle bent, otherwise clean"), Grade::rough);
  EXPECT_EQ(grade_of("weathered"), Grade::fair);
  EXPECT_EQ(grade_of("clean, kept in a shed"), Grade::good);
  EXPECT_EQ(grade_of("clean, like new"), Grade::like_new);
  EXPECT_EQ(grade_of("no rust, good tires"), Grade::good);
  EXPECT_EQ(grade_of("not bent"), std::nullopt);
  EXPECT_EQ(grade_of("dull blade"), std::nullopt);
  EXPECT_EQ(grade_of("badge missing its goodness"), Grade::rough);
  EXPECT_EQ(grade_of("a badger's"), std::nullopt);  // whole words alone
  EXPECT_EQ(grade_of(""), std::nullopt);
}

TEST(Features, AreThoseOfTheDayOfTheSale) {
  const Machine machine{.kind = MachineKind::zero_turn,
                        .make = " Tarnwick ",
                        .year = 2012,
                        .deck_in = Tenths{485},
                        .condition = "like new"};
  const Features at = features_of(machine, SoldAs::as_is, day("2026-05-01"));
  EXPECT_EQ(at.kind, MachineKind::zero_turn);
  EXPECT_EQ(at.as, SoldAs::as_is);
  EXPECT_EQ(at.age, 14);
  EXPECT_EQ(at.deck_in, 48.5);
  EXPECT_EQ(at.make, "Tarnwick");
  EXPECT_EQ(at.grade, Grade::like_new);
  EXPECT_EQ(features_of(machine, SoldAs::as_is, day("2011-05-01")).age, 0);
  EXPECT_EQ(features_of(machine, SoldAs::as_is, day("2099-05-01")).age, kOldest);
  EXPECT_EQ(features_of({}, SoldAs::running, day("2026-05-01")).age, std::nullopt);
  EXPECT_EQ(features_of({}, SoldAs::running, day("2026-05-01")).deck_in, std::nullopt);
}

}  // namespace
}  // namespace secondpull::market
