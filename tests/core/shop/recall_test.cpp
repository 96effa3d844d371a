#include "core/shop/recall.h"

#include <gtest/gtest.h>

#include "core/shop/selling.h"
#include "core/shop/steps.h"
#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;

const std::string kStep{kRecallStep};

std::string field_of(const Result<Change>& made) {
  return made ? "" : made.error().field;
}

TEST(RecallLookup, IsNoneUntilItIsWrittenDown) {
  SmallShop s;
  EXPECT_FALSE(recall_lookup(lines_of(s.shop, s.m4)));
  const auto change = record_recall_lookup(s.shop, s.m4, day("2026-03-20"), kStep, false);
  ASSERT_TRUE(change) << change.error().sentence;
  EXPECT_EQ(change->title(), "#4: recalls looked up, none found");
  s.carry_out(change);
  const auto last = recall_lookup(lines_of(s.shop, s.m4));
  ASSERT_TRUE(last);
  EXPECT_EQ(last->date, day("2026-03-20"));
  EXPECT_FALSE(last->recalled);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
}

TEST(RecallLookup, CountsWhateverTheKnowledgeBaseCallsIt) {
  SmallShop s;
  s.carry_out(record_check(s.shop, s.m4, day("2026-03-20"),
                           check_step("Recall list checked by model and serial; fixed, or not sold", true),
                           std::string{kPassed}, ""));
  EXPECT_TRUE(recall_lookup(lines_of(s.shop, s.m4)));
  s.carry_out(record_check(s.shop, s.m4, day("2026-03-21"), check_step("Guards all on", true),
                           std::string{kFailed}, ""));
  EXPECT_FALSE(recall_lookup(lines_of(s.shop, s.m4))->recalled);
}

TEST(RecallLookup, OfBeforeItWasBroughtBackCountsNoMore) {
  SmallShop s;  // #1 came back on 25 March and was sold again on the 30th
  s.carry_out(record_recall_lookup(s.shop, s.m1, day("2026-03-15"), kStep, false));
  EXPECT_FALSE(recall_lookup(lines_of(s.shop, s.m1)));
  s.carry_out(record_recall_lookup(s.shop, s.m1, day("2026-03-26"), kStep, false));
  EXPECT_TRUE(recall_lookup(lines_of(s.shop, s.m1)));
}

TEST(RecallLookup, ThatFoundARecallEndsTheListingAndStandsAfterTheMachineCameBack) {
  SmallShop s;
  s.carry_out(record_recall_lookup(s.shop, s.m4, day("2026-03-20"), kStep, true));
  EXPECT_EQ(s.shop.find(s.listing_now)->ended, day("2026-03-20"));
  // #1 is sold; its recall is found meanwhile, and then it comes back.
  s.carry_out(record_recall_lookup(s.shop, s.m1, day("2026-04-02"), kStep, true));
  s.carry_out(take_back(s.shop, s.m1, day("2026-04-04"), dollars(10), ""));
  EXPECT_FALSE(recall_lookup(lines_of(s.shop, s.m1))) << "since then nobody looked";
  EXPECT_EQ(field_of(list_machine(s.shop, s.m1, day("2026-04-05"), "", dollars(50), SoldAs::as_is)),
            "recall");
  s.carry_out(record_recall_lookup(s.shop, s.m1, day("2026-04-06"), kStep, false));
  EXPECT_EQ(field_of(list_machine(s.shop, s.m1, day("2026-04-06"), "", dollars(50), SoldAs::as_is)), "");
}

// Thirty days: common practice, no source.
TEST(RecallLookup, IsDueAgainAfterThirtyDays) {
  EXPECT_TRUE(recall_lookup_due(std::nullopt, day("2026-03-20")));
  const RecallLookup last{.date = day("2026-03-20")};
  EXPECT_FALSE(recall_lookup_due(last, day("2026-03-20")));
  EXPECT_FALSE(recall_lookup_due(last, day("2026-04-19")));
  EXPECT_TRUE(recall_lookup_due(last, day("2026-04-20")));
}

// 15 USC 2068(a)(2): it shall be unlawful to sell or offer for sale a product subject to a recall.
TEST(ARecalledMachine, IsNeitherOfferedNorSoldInAnyWay) {
  SmallShop s;
  s.carry_out(record_recall_lookup(s.shop, s.m4, day("2026-03-20"), kStep, true));
  for (const std::optional<SoldAs> as :
       {std::optional<SoldAs>{}, std::optional{SoldAs::running}, std::optional{SoldAs::as_is}}) {
    const auto listed = list_machine(s.shop, s.m4, day("2026-03-21"), "", dollars(70), as);
    EXPECT_EQ(field_of(listed), "recall");
    EXPECT_NE(listed.error().sentence.find("15 USC 2068"), std::string::npos);
    EXPECT_EQ(field_of(sell(
                  s.shop, {.machine = s.m4, .date = day("2026-03-21"), .price = dollars(70), .sold_as = as})),
              "recall");
  }
  EXPECT_TRUE(dispose(s.shop, s.m4, day("2026-03-21"), DisposalKind::scrapped, Money{}));
}

TEST(ARecalledMachine, MayGoAgainOnceTheNextLookUpFindsNothing) {
  SmallShop s;
  s.carry_out(record_recall_lookup(s.shop, s.m4, day("2026-03-20"), kStep, true));
  s.carry_out(record_recall_lookup(s.shop, s.m4, day("2026-03-20"), kStep, false));
  EXPECT_FALSE(against_recalled(lines_of(s.shop, s.m4)));
  EXPECT_TRUE(list_machine(s.shop, s.m4, day("2026-03-21"), "", dollars(70), SoldAs::running));
}

TEST(AMachineThatNobodyLookedUp, MayStillBeSold) {
  SmallShop s;
  EXPECT_FALSE(against_recalled(lines_of(s.shop, s.m4)));
  EXPECT_TRUE(sell(s.shop, {.machine = s.m4, .date = day("2026-03-21"), .price = dollars(70)}));
}

}  // namespace
}  // namespace secondpull
