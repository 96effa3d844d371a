#include "core/shop/off_sale.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/shop/selling.h"
#include "core/shop/steps.h"
#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;

std::string why(const SmallShop& s, ListingId listing) {
  return why_ended(lines_of(s.shop, s.m4), *s.shop.find(listing));
}

TEST(TakeOffSale, EndsTheListingAndKeepsTheReason) {
  SmallShop s;
  const auto change = take_off_sale(s.shop, s.listing_now, day("2026-04-01"), " nobody came ");
  ASSERT_TRUE(change) << change.error().sentence;
  EXPECT_EQ(change->title(), "Took #4 off sale: nobody came");
  s.carry_out(change);
  EXPECT_EQ(s.shop.find(s.listing_now)->ended, day("2026-04-01"));
  EXPECT_EQ(why(s, s.listing_now), "nobody came");
  EXPECT_NE(stage_of(lines_of(s.shop, s.m4)), Stage::for_sale);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
  EXPECT_TRUE(is_about_care(kTakenOffSale));
}

TEST(TakeOffSale, NeedsNoReason) {
  SmallShop s;
  s.carry_out(take_off_sale(s.shop, s.listing_now, day("2026-04-01"), "  "));
  EXPECT_EQ(s.shop.find(s.listing_now)->ended, day("2026-04-01"));
  EXPECT_EQ(why(s, s.listing_now), "");
}

TEST(TakeOffSale, RefusesAsEndListingDoes) {
  SmallShop s;
  EXPECT_EQ(take_off_sale(s.shop, s.listing_now, day("2026-03-01"), "nobody came").error().field, "ended");
  EXPECT_EQ(take_off_sale(s.shop, ListingId{999}, day("2026-03-01"), "nobody came").error().field, "ended");
}

TEST(TakeOffSale, LetsTheMachineBeListedAgain) {
  SmallShop s;
  s.carry_out(take_off_sale(s.shop, s.listing_now, day("2026-04-01"), "nobody came"));
  s.carry_out(list_machine(s.shop, s.m4, day("2026-04-01"), "", dollars(70), std::nullopt));
  EXPECT_EQ(stage_of(lines_of(s.shop, s.m4)), Stage::for_sale);
  const ListingId again = std::prev(s.shop.all<Listing>().end())->id;
  EXPECT_EQ(why(s, again), "");
  s.carry_out(take_off_sale(s.shop, again, day("2026-04-01"), "season over"));
  EXPECT_EQ(why(s, s.listing_now), "nobody came");
  EXPECT_EQ(why(s, again), "season over");
  EXPECT_THAT(reasons_given(s.shop), testing::ElementsAre("season over", "nobody came"));
}

}  // namespace
}  // namespace secondpull
