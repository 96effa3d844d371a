#include "core/shop/listing_text.h"

#include <gmock/gmock.h>

#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::SmallShop;

TEST(ListingText, StandsOnceForEachMachine) {
  SmallShop s;
  const auto first = set_listing_text(s.shop, s.m2, day("2026-04-01"), "\n Runs well.\n\nCome and see. \n");
  ASSERT_TRUE(first) << first.error().sentence;
  EXPECT_EQ(first->title(), "Own words for the listing of #2");
  s.carry_out(first);
  ASSERT_NE(own_listing_text(s.shop, s.m2), nullptr);
  EXPECT_EQ(own_listing_text(s.shop, s.m2)->text, "Runs well.\n\nCome and see.");
  s.carry_out(set_listing_text(s.shop, s.m2, day("2026-04-02"), "Runs."));
  EXPECT_EQ(own_listing_text(s.shop, s.m2)->text, "Runs.");
  EXPECT_EQ(own_listing_text(s.shop, s.m2)->date, day("2026-04-02"));
  EXPECT_EQ(own_listing_text(s.shop, s.m4)->text, "Mower, runs well.");
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
}

TEST(ListingText, TheSameWordsAgainChangeNothing) {
  const SmallShop s;
  EXPECT_TRUE(set_listing_text(s.shop, s.m4, day("2026-04-01"), " Mower, runs well.\n")->empty());
  EXPECT_FALSE(set_listing_text(s.shop, s.m4, day("2026-04-01"), "Mower, runs.")->empty());
}

TEST(ListingText, GivesWayToTheWordsOfTheRecord) {
  SmallShop s;
  const auto cleared = clear_listing_text(s.shop, s.m4);
  ASSERT_TRUE(cleared);
  EXPECT_EQ(cleared->title(), "Words made from the record again for the listing of #4");
  s.carry_out(cleared);
  EXPECT_EQ(own_listing_text(s.shop, s.m4), nullptr);
  EXPECT_TRUE(clear_listing_text(s.shop, s.m4)->empty());
}

TEST(ListingText, NeedsAMachineAndWords) {
  const SmallShop s;
  const auto field = [](const Result<Change>& change) { return change ? "" : change.error().field; };
  EXPECT_EQ(field(set_listing_text(s.shop, s.m4, day("2026-04-01"), " \n")), "text");
  EXPECT_FALSE(set_listing_text(s.shop, MachineId{9999}, day("2026-04-01"), "words"));
  EXPECT_EQ(field(clear_listing_text(s.shop, MachineId{9999})), "machine");
}

}  // namespace
}  // namespace secondpull
