#include "core/shop/own_numbers.h"

#include <limits>

#include <gmock/gmock.h>

#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::SmallShop;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::Pair;

TEST(OwnNumbers, StandOncePerMachineAndPathInOrder) {
  SmallShop s;
  s.carry_out(set_own_number(s.shop, s.m2, "stops.scrap.value", 12));
  s.carry_out(set_own_number(s.shop, s.m2, "repairs.mend-cord.minutes", 25.5));
  const auto again = set_own_number(s.shop, s.m2, " revived.price ", 150);
  ASSERT_TRUE(again);
  EXPECT_EQ(again->title(), "Own number for #2: revived.price = 150");
  s.carry_out(again);
  EXPECT_THAT(own_numbers(s.shop, s.m2),
              ElementsAre(Pair("repairs.mend-cord.minutes", 25.5), Pair("revived.price", 150.0),
                          Pair("stops.scrap.value", 12.0)));
  EXPECT_THAT(own_numbers(s.shop, s.m1), IsEmpty());
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
}

TEST(OwnNumbers, SaidAgainChangeNothing) {
  const SmallShop s;
  EXPECT_TRUE(set_own_number(s.shop, s.m2, "revived.price", 145.5)->empty());
  EXPECT_FALSE(set_own_number(s.shop, s.m1, "revived.price", 145.5)->empty());
}

TEST(OwnNumbers, GiveWayToTheComputedOnes) {
  SmallShop s;
  const auto cleared = clear_own_number(s.shop, s.m2, "revived.price");
  ASSERT_TRUE(cleared);
  EXPECT_EQ(cleared->title(), "Computed number again for #2: revived.price");
  s.carry_out(cleared);
  EXPECT_THAT(own_numbers(s.shop, s.m2), IsEmpty());
  EXPECT_TRUE(clear_own_number(s.shop, s.m2, "revived.price")->empty());
}

TEST(OwnNumbers, AreFiniteAndOfAMachineAndAPath) {
  const SmallShop s;
  const auto field = [](const Result<Change>& change) { return change ? "" : change.error().field; };
  EXPECT_EQ(field(set_own_number(s.shop, MachineId{9999}, "revived.price", 1)), "machine");
  EXPECT_EQ(field(set_own_number(s.shop, s.m1, " ", 1)), "path");
  EXPECT_EQ(field(set_own_number(s.shop, s.m1, "revived.price", std::numeric_limits<double>::quiet_NaN())),
            "value");
  EXPECT_EQ(field(set_own_number(s.shop, s.m1, "revived.price", -std::numeric_limits<double>::infinity())),
            "value");
  EXPECT_EQ(field(clear_own_number(s.shop, MachineId{9999}, "revived.price")), "machine");
}

}  // namespace
}  // namespace secondpull
