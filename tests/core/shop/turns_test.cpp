#include "core/shop/turns.h"

#include <gmock/gmock.h>

#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::SmallShop;

/// A machine that came in on 1 May 2026, sold, brought back and disposed of on days of May.
struct InMay : SmallShop {
  MachineId id =
      add(Machine{.tag = "61", .acquisition = add(Acquisition{.code = "C1", .date = day("2026-05-01")})});
  static Date may(unsigned d) { return Date{std::chrono::year{2026}, std::chrono::May, std::chrono::day{d}}; }
  InMay& sold(unsigned d) {
    add(Sale{.machine = id, .date = may(d)});
    return *this;
  }
  InMay& back(unsigned d) {
    add(Return{.machine = id, .date = may(d)});
    return *this;
  }
  InMay& gone(unsigned d) {
    add(Disposal{.machine = id, .date = may(d)});
    return *this;
  }
  std::size_t out_of_turn() const { return Turns{shop}.out_of_turn(*shop.find(id), may(1)).size(); }
};

TEST(Turns, MayAlternateInAnyOrderOfEntry) {
  EXPECT_EQ(InMay{}.sold(3).back(4).sold(5).out_of_turn(), 0u);
  EXPECT_EQ(InMay{}.sold(5).sold(3).back(4).out_of_turn(), 0u);
  EXPECT_EQ(InMay{}.sold(3).back(4).gone(5).out_of_turn(), 0u);
  EXPECT_EQ(InMay{}.gone(1).out_of_turn(), 0u);
}

TEST(Turns, MayAllBeOfOneDay) {
  EXPECT_EQ(InMay{}.sold(3).back(3).sold(3).out_of_turn(), 0u);
  EXPECT_EQ(InMay{}.sold(3).back(3).gone(3).out_of_turn(), 0u);
  EXPECT_EQ(InMay{}.sold(2).back(3).sold(3).back(3).gone(3).out_of_turn(), 0u);
  EXPECT_EQ(InMay{}.sold(3).sold(3).out_of_turn(), 1u);
}

TEST(Turns, AreRefusedWhereTheMachineIsNotThere) {
  EXPECT_EQ(InMay{}.sold(3).sold(4).out_of_turn(), 1u);
  EXPECT_EQ(InMay{}.back(3).out_of_turn(), 1u);
  EXPECT_EQ(InMay{}.sold(3).back(2).out_of_turn(), 1u);
  EXPECT_EQ(InMay{}.sold(3).gone(4).out_of_turn(), 1u);
  EXPECT_EQ(InMay{}.gone(3).sold(4).out_of_turn(), 1u);
  EXPECT_EQ(InMay{}.gone(3).gone(4).out_of_turn(), 1u);
  EXPECT_EQ(InMay{}.gone(3).back(4).out_of_turn(), 1u);
}

TEST(Turns, AreRefusedBeforeTheMachineCameIn) {
  InMay m;
  m.add(Sale{.machine = m.id, .date = day("2026-04-30")});
  EXPECT_EQ(m.out_of_turn(), 1u);
}

TEST(Turns, SayWhoseItIsAtTheEndOfADay) {
  InMay m;
  m.sold(3).back(5).sold(5);
  const Turns turns{m.shop};
  EXPECT_FALSE(turns.sold_at_end_of(m.id, InMay::may(2)));
  EXPECT_TRUE(turns.sold_at_end_of(m.id, InMay::may(3)));
  EXPECT_TRUE(turns.sold_at_end_of(m.id, InMay::may(5)));
  EXPECT_TRUE(turns.here_or_parted_on(m.id, InMay::may(1), InMay::may(3)));
  EXPECT_FALSE(turns.here_or_parted_on(m.id, InMay::may(1), InMay::may(4)));
  EXPECT_TRUE(turns.here_or_parted_on(m.id, InMay::may(1), InMay::may(5)));
  EXPECT_FALSE(turns.here_or_parted_on(m.id, InMay::may(1), InMay::may(6)));
  EXPECT_FALSE(turns.here_or_parted_on(m.id, InMay::may(1), day("2026-04-30")));
  EXPECT_EQ(turns.gone_by(m.id)->date, InMay::may(5));
  EXPECT_FALSE(Turns{InMay{}.sold(3).back(4).shop}.gone_by(m.id));
}

}  // namespace
}  // namespace secondpull
