#include <gmock/gmock.h>

#include "core/shop/bench.h"
#include "core/shop/offers.h"
#include "core/shop/selling.h"
#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;
using testing::HasSubstr;

TEST(RemoveLine, SaysWhatItWas) {
  SmallShop s;
  const auto change = remove_line(s.shop, AnyId{s.labour});
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Removed: 25 min diagnose on #2");
  s.carry_out(change);
  EXPECT_EQ(s.shop.find(s.labour), nullptr);
  EXPECT_FALSE(remove_line(s.shop, AnyId{s.labour}));
}

TEST(RemoveLine, IsRefusedWhileSomethingDependsOnIt) {
  const SmallShop s;
  EXPECT_THAT(remove_line(s.shop, AnyId{s.line}).error().sentence, HasSubstr("depends on it"));
  EXPECT_FALSE(remove_line(s.shop, AnyId{s.fault}));     // a finding names it
  EXPECT_FALSE(remove_line(s.shop, AnyId{s.supplier}));  // an order names it
  EXPECT_FALSE(remove_line(s.shop, AnyId{s.comeback}));  // it was sold twice
  EXPECT_FALSE(remove_line(s.shop, AnyId{s.lot}));       // machines came in with it
}

TEST(RemoveLine, TakesAlongWhatCannotStandAlone) {
  SmallShop s;
  s.carry_out(remove_line(s.shop, AnyId{s.line_under_way}));
  EXPECT_EQ(s.shop.find(s.under_way), nullptr);
  s.carry_out(remove_line(s.shop, AnyId{s.fitted_blade}));
  s.carry_out(remove_line(s.shop, AnyId{s.disposal}));
  EXPECT_EQ(s.shop.find(s.harvest), nullptr);
  s.carry_out(remove_line(s.shop, AnyId{s.find}));
  EXPECT_EQ(s.shop.find(s.answer), nullptr);
  s.carry_out(remove_line(s.shop, AnyId{s.forecast}));
  EXPECT_EQ(s.shop.find(s.forecast_cause), nullptr);
  s.carry_out(remove_line(s.shop, AnyId{s.offer}));
  EXPECT_EQ(s.shop.find(s.deposit), nullptr);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
}

TEST(ReplaceLine, PutsALineRightOrSaysWhyNot) {
  SmallShop s;
  Labour labour = *s.shop.find(s.labour);
  labour.minutes = Minutes{30};
  const auto change = replace_line(s.shop, AnyRecord{labour});
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Changed: 30 min diagnose on #2");
  s.carry_out(change);
  labour.date = day("2026-03-01");
  EXPECT_EQ(replace_line(s.shop, AnyRecord{labour}).error().field, "date");
  Fitted fitted = *s.shop.find(s.fitted);
  fitted.quantity = 9;
  EXPECT_EQ(replace_line(s.shop, AnyRecord{fitted}).error().field, "quantity");
  fitted.id = FittedId{9999};
  EXPECT_FALSE(replace_line(s.shop, AnyRecord{fitted}));
  Disposal hulk = *s.shop.find(s.disposal);
  hulk.hulk_gone = day("2026-03-01");
  EXPECT_EQ(replace_line(s.shop, AnyRecord{hulk}).error().field, "hulk_gone");
}

TEST(ReplaceLine, HandsMachinesAndPartsToTheirOwnActions) {
  const SmallShop s;
  Machine machine = *s.shop.find(s.m2);
  machine.symptom = "no spark";
  EXPECT_EQ(replace_line(s.shop, AnyRecord{machine})->title(), "Changed #2: symptom");
  Part part = *s.shop.find(s.plug);
  part.name = "plug";
  EXPECT_EQ(replace_line(s.shop, AnyRecord{part})->title(), "Changed part spark plug");
}

TEST(RemoveLine, OfASaleOpensTheOfferThatItTookUp) {
  SmallShop s;
  const OfferId offer = s.add(Offer{.machine = s.m4, .date = day("2026-03-15"), .amount = dollars(70)});
  s.carry_out(
      sell(s.shop, {.machine = s.m4, .date = day("2026-03-20"), .price = dollars(70)})
          .and_then([&](Change sale) { return settling_offers(s.shop, std::move(sale), s.m4, offer); }));
  ASSERT_EQ(s.shop.find(offer)->result, OfferResult::taken);
  const SaleId sale = std::prev(s.shop.all<Sale>().end())->id;
  s.carry_out(remove_line(s.shop, AnyId{sale}));
  EXPECT_EQ(s.shop.find(offer)->result, std::nullopt);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
}

TEST(Described, SaysAnyRecordInAFewWords) {
  const SmallShop s;
  const auto words = [&](auto id) { return described(s.shop, AnyRecord{*s.shop.find(id)}); };
  EXPECT_EQ(words(s.sale), "sale of #1 to Ruel for $185");
  EXPECT_EQ(words(s.fitted), "1 x spark plug on #1");
  EXPECT_EQ(words(s.pickup), "1 h pickup for acquisition A1");
  EXPECT_EQ(words(s.trip), "trip of 28.0 miles: fetch the lot");
  EXPECT_EQ(words(s.disposal), "#3 parted out");
  EXPECT_EQ(words(s.find), "find Tarnwick TW-2");
  EXPECT_EQ(words(s.bought), "find push mower");
  EXPECT_EQ(words(s.answer), "answer about Tarnwick TW-2: does it turn, turns");
  EXPECT_EQ(words(s.own_number), "own number revived.price = 145.5 for #2");
  EXPECT_EQ(words(s.own_entry), "own entry causes leak");
  EXPECT_EQ(words(s.forecast), "forecast for #1");
  EXPECT_EQ(words(s.forecast_cause), "chance of leak in the forecast for #1");
  EXPECT_EQ(words(s.listing_text), "listing text of #4");
  EXPECT_EQ(words(s.deposit), "deposit of $20 for #1");
  s.shop.each_table([&](const auto& table) {
    for (const auto& record : table)
      EXPECT_NE(described(s.shop, AnyRecord{record}), "");
  });
}

}  // namespace
}  // namespace secondpull
