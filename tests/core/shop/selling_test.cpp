#include "core/shop/selling.h"

#include <gmock/gmock.h>

#include "core/shop/bench.h"
#include "core/shop/stage.h"
#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;
using testing::HasSubstr;

std::string field_of(const Result<Change>& made) {
  return made ? "" : made.error().field;
}

TEST(ListMachine, EndsTheListingBeforeIt) {
  SmallShop s;
  const auto change =
      list_machine(s.shop, s.m4, day("2026-03-20"), "notice board", dollars(70), SoldAs::as_is);
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Put #4 out front at $70");
  s.carry_out(change);
  EXPECT_EQ(s.shop.find(s.listing_now)->ended, day("2026-03-20"));
  EXPECT_EQ(field_of(list_machine(s.shop, s.m4, day("2026-03-19"), "", dollars(60), {})), "date");
  EXPECT_THAT(list_machine(s.shop, s.m1, day("2026-04-20"), "", dollars(60), {}).error().sentence,
              HasSubstr("#1 is not here: it was sold to Ruel on 30 March 2026"));
  EXPECT_EQ(field_of(list_machine(s.shop, s.m4, day("2026-03-21"), "", dollars(-60), {})), "asking");
}

TEST(EndListing, HappensOnceAndNotBeforeItBegan) {
  SmallShop s;
  EXPECT_EQ(field_of(end_listing(s.shop, s.listing_now, day("2026-03-13"))), "ended");
  s.carry_out(end_listing(s.shop, s.listing_now, day("2026-03-20")));
  EXPECT_EQ(stage_of(lines_of(s.shop, s.m4)), Stage::in_the_yard);
  EXPECT_EQ(field_of(end_listing(s.shop, s.listing_now, day("2026-03-21"))), "ended");
}

TEST(Sell, EndsTheListingAndForgetsTheStageGiven) {
  SmallShop s;
  s.change(s.m4, [](Machine& machine) { machine.stage = Stage::test_run; });
  NewSale sale{.machine = s.m4, .date = day("2026-04-01"), .price = dollars(75)};
  sale.buyer.new_name = "Ilse Marrow";
  sale.labour = Minutes{20};
  const auto change = sell(s.shop, sale);
  ASSERT_TRUE(change) << change.error().sentence;
  EXPECT_EQ(change->title(), "Sold #4 to Ilse Marrow for $75");
  s.carry_out(change);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
  EXPECT_EQ(stage_of(lines_of(s.shop, s.m4)), Stage::sold);
  EXPECT_EQ(s.shop.find(s.listing_now)->ended, day("2026-04-01"));
  EXPECT_EQ(std::prev(s.shop.all<Labour>().end())->work, Work::sell);
}

TEST(Sell, RefusesAMachineThatIsGoneOrADayOutOfTurn) {
  SmallShop s;
  EXPECT_EQ(field_of(sell(s.shop, {.machine = s.m1, .date = day("2026-05-01")})), "machine");
  EXPECT_EQ(field_of(sell(s.shop, {.machine = s.m3, .date = day("2026-05-01")})), "machine");
  EXPECT_EQ(field_of(sell(s.shop, {.machine = s.m2, .date = day("2026-03-01")})), "date");
  EXPECT_EQ(field_of(sell(s.shop, {.machine = s.m2, .date = day("2026-04-01"), .price = dollars(-1)})),
            "price");
  s.carry_out(take_back(s.shop, s.m1, day("2026-04-10"), dollars(160), ""));
  const auto while_sold = sell(s.shop, {.machine = s.m1, .date = day("2026-04-02")});
  EXPECT_EQ(field_of(while_sold), "date");
}

TEST(SellingAsRunning, IsRefusedAfterAFailedSafetyCheckUntilOneIsPassed) {
  SmallShop s;
  const auto listed = [&](std::optional<SoldAs> as) {
    return list_machine(s.shop, s.m2, day("2026-04-02"), "notice board", dollars(90), as);
  };
  const auto sold = [&](std::optional<SoldAs> as) {
    return sell(s.shop, {.machine = s.m2, .date = day("2026-04-02"), .price = dollars(90), .sold_as = as});
  };
  const auto checked = [&](const char* on, const char* outcome) {
    s.carry_out(record_finding(
        s.shop, {.machine = s.m2, .date = day(on), .step = "blade stop, safety", .outcome = outcome}));
  };
  checked("2026-04-01", "failed: runs on for 5 s");
  for (const Result<Change>& refused : {listed(SoldAs::running), sold(SoldAs::running)}) {
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().field, "sold_as");
    EXPECT_EQ(refused.error().value, "running");
    EXPECT_EQ(
        refused.error().sentence,
        "#2 failed a safety check on 1 April 2026 (blade stop, safety: failed: runs on for 5 s). It can "
        "go as is, or as running once that check is passed.");
  }
  for (const std::optional<SoldAs> may : {std::optional{SoldAs::as_is}, std::optional<SoldAs>{}}) {
    EXPECT_TRUE(listed(may));
    EXPECT_TRUE(sold(may));
  }
  checked("2026-04-02", "passed");
  EXPECT_TRUE(listed(SoldAs::running));
  EXPECT_TRUE(sold(SoldAs::running));
}

TEST(SellingAsRunning, StaysRefusedWhenAnotherSafetyCheckIsPassed) {
  SmallShop s;
  const auto checked = [&](const char* step, const char* outcome) {
    s.carry_out(record_finding(
        s.shop, {.machine = s.m2, .date = day("2026-04-01"), .step = step, .outcome = outcome}));
  };
  checked("Safety check: blade stop", "failed");
  checked("Safety check: fuel leaks", "passed");
  const auto sold = [&] {
    return sell(
        s.shop,
        {.machine = s.m2, .date = day("2026-04-02"), .price = dollars(90), .sold_as = SoldAs::running});
  };
  EXPECT_EQ(field_of(sold()), "sold_as");
  checked("safety check: Blade stop", "passed");
  EXPECT_TRUE(sold());
}

TEST(TakeBack, BringsItBackHere) {
  SmallShop s;
  const auto change = take_back(s.shop, s.m1, day("2026-04-10"), dollars(160), "dies when hot");
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Took back #1, $160 refunded");
  s.carry_out(change);
  EXPECT_TRUE(is_here(stage_of(lines_of(s.shop, s.m1))));
  EXPECT_EQ(field_of(take_back(s.shop, s.m1, day("2026-04-11"), dollars(160), "")), "date");
  EXPECT_EQ(field_of(take_back(s.shop, s.m2, day("2026-04-11"), dollars(160), "")), "date");
}

TEST(TakeBack, IsRefusedOnADayBeforeAnAllowanceToTheBuyer) {
  const SmallShop s;
  EXPECT_THAT(take_back(s.shop, s.m1, day("2026-04-01"), dollars(160), "").error().sentence,
              HasSubstr("allowance"));
}

TEST(Dispose, ScrapsOrKeepsAMachineThatIsHere) {
  SmallShop s;
  EXPECT_EQ(dispose(s.shop, s.m2, day("2026-04-01"), DisposalKind::scrapped, dollars(12))->title(),
            "Scrapped #2 for $12");
  EXPECT_EQ(dispose(s.shop, s.m2, day("2026-04-01"), DisposalKind::kept, {})->title(), "Kept #2");
  EXPECT_EQ(field_of(dispose(s.shop, s.m2, day("2026-04-01"), DisposalKind::kept, dollars(1))), "proceeds");
  EXPECT_EQ(field_of(dispose(s.shop, s.m2, day("2026-04-01"), DisposalKind::parted_out, {})), "how");
  EXPECT_EQ(field_of(dispose(s.shop, s.m1, day("2026-04-01"), DisposalKind::scrapped, {})), "machine");
}

}  // namespace
}  // namespace secondpull
