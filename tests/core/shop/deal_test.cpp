#include "core/shop/deal.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "core/shop/offers.h"
#include "core/shop/recall.h"
#include "core/shop/stage.h"
#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;

std::string field_of(const Result<Change>& made) {
  return made ? "" : made.error().field;
}

/// #2 and #4 ($80 asked) with a plug, to a new buyer for $180.
Deal deal_of(const SmallShop& s) {
  Deal deal{.date = day("2026-04-10"),
            .buyer = {.known = {}, .new_name = "Imre"},
            .machines = {{.machine = s.m2, .value = dollars(120), .sold_as = SoldAs::running},
                         {.machine = s.m4, .sold_as = SoldAs::as_is}},
            .parts = {{.part = s.plug, .quantity = 1, .value = dollars(5)}},
            .price = dollars(180),
            .payment = "cash",
            .place = "Ovenden"};
  return deal;
}

const Sale& sale_of(const Shop& shop, MachineId machine) {
  for (const Sale& sale : shop.all<Sale>())
    if (sale.machine == machine) return sale;
  throw std::invalid_argument{"not sold"};
}

Money sum(const std::vector<DealShare>& shares, Money DealShare::*of) {
  Money total;
  for (const DealShare& share : shares)
    total += share.*of;
  return total;
}

TEST(SellTogether, IsOneActionWithASaleForEachThing) {
  SmallShop s;
  const auto change = sell_together(s.shop, deal_of(s));
  ASSERT_TRUE(change) << change.error().sentence;
  EXPECT_EQ(change->title(), "Sold #2, #4 and 1 x spark plug to Imre for $180");
  const auto people = s.shop.all<Person>().size();
  s.carry_out(change);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
  ASSERT_EQ(s.shop.all<Person>().size(), people + 1);
  const PersonId imre = std::prev(s.shop.all<Person>().end())->id;
  // By hand: 180 over 120 : 80 : 5, the sum 205: 105.365.., 70.243.., 4.390..; the cent left over goes to the
  // largest remainder, the plug's.
  EXPECT_EQ(sale_of(s.shop, s.m2).price, dollars(105, 37));
  EXPECT_EQ(sale_of(s.shop, s.m4).price, dollars(70, 24));
  const PartSale& plug = *std::prev(s.shop.all<PartSale>().end());
  EXPECT_EQ(plug.price, dollars(4, 39));
  EXPECT_EQ(sale_of(s.shop, s.m2).buyer, imre);
  EXPECT_EQ(sale_of(s.shop, s.m4).buyer, imre);
  EXPECT_EQ(plug.buyer, imre);
  EXPECT_EQ(sale_of(s.shop, s.m2).sold_as, SoldAs::running);
  EXPECT_EQ(sale_of(s.shop, s.m4).sold_as, SoldAs::as_is);
  EXPECT_EQ(sale_of(s.shop, s.m4).payment, "cash");
  EXPECT_EQ(plug.place, "Ovenden");
  EXPECT_EQ(stage_of(lines_of(s.shop, s.m4)), Stage::sold);
}

TEST(SellTogether, SplitsTaxFeeDeliveryAndTime) {
  SmallShop s;
  Deal deal = deal_of(s);
  deal.sales_tax = dollars(10, 80);
  deal.fee = dollars(4, 1);
  deal.delivery = dollars(15);
  deal.labour = Minutes{25};
  deal.warranty_days = 14;
  const auto shares = shares_of(s.shop, deal);
  ASSERT_TRUE(shares) << shares.error().sentence;
  EXPECT_EQ(sum(*shares, &DealShare::price), dollars(180));
  EXPECT_EQ(sum(*shares, &DealShare::sales_tax), dollars(10, 80));
  EXPECT_EQ(sum(*shares, &DealShare::fee), dollars(4, 1));
  EXPECT_EQ(sum(*shares, &DealShare::delivery), dollars(15));
  EXPECT_EQ((*shares)[0].delivery, dollars(9));  // 15 over 120 : 80
  EXPECT_EQ((*shares)[2].delivery, Money{});
  s.carry_out(sell_together(s.shop, deal));
  EXPECT_EQ(sale_of(s.shop, s.m2).sales_tax, (*shares)[0].sales_tax);
  EXPECT_EQ(sale_of(s.shop, s.m4).fee, (*shares)[1].fee);
  EXPECT_EQ(sale_of(s.shop, s.m4).warranty_days, 14);
  const auto selling = [&](MachineId machine) {
    std::int64_t minutes = 0;
    for (const Labour& line : s.shop.all<Labour>())
      if (line.machine == machine && line.work == Work::sell) minutes += line.minutes.count;
    return minutes;
  };
  EXPECT_EQ(selling(s.m2), 13);
  EXPECT_EQ(selling(s.m4), 12);
}

TEST(SellTogether, OfOneMachineIsItsPlainSale) {
  SmallShop s;
  Deal deal{.date = day("2026-04-10"),
            .buyer = {.known = s.buyer, .new_name = {}},
            .machines = {{.machine = s.m2}},
            .price = dollars(95)};
  const auto change = sell_together(s.shop, deal);
  ASSERT_TRUE(change) << change.error().sentence;  // alone it needs no value
  EXPECT_EQ(change->title(), "Sold #2 to Ruel for $95");
  s.carry_out(change);
  EXPECT_EQ(sale_of(s.shop, s.m2).price, dollars(95));
}

TEST(SellTogether, SettlesTheOffersForEachMachine) {
  SmallShop s;
  const OfferId taken =
      s.add(Offer{.machine = s.m2, .date = day("2026-04-01"), .amount = dollars(110), .who = "Imre"});
  const OfferId other =
      s.add(Offer{.machine = s.m4, .date = day("2026-04-01"), .amount = dollars(60), .who = "Odda"});
  Deal deal = deal_of(s);
  deal.machines[0].taken = taken;
  s.carry_out(sell_together(s.shop, deal));
  EXPECT_EQ(s.shop.find(taken)->result, OfferResult::taken);
  EXPECT_EQ(s.shop.find(other)->result, OfferResult::gone);
}

TEST(SellTogether, SaysWhatIsWrongAndWhere) {
  SmallShop s;
  Deal deal = deal_of(s);
  deal.machines[0].value.reset();  // #2 has no asking price
  EXPECT_EQ(field_of(sell_together(s.shop, deal)), "value");
  deal = deal_of(s);
  deal.parts[0].value.reset();
  EXPECT_EQ(field_of(sell_together(s.shop, deal)), "value");
  deal = deal_of(s);
  deal.machines.push_back(deal.machines[0]);
  EXPECT_EQ(field_of(sell_together(s.shop, deal)), "machine");
  deal = deal_of(s);
  deal.machines[0].machine = s.m1;  // sold
  EXPECT_EQ(field_of(sell_together(s.shop, deal)), "machine");
  deal = deal_of(s);
  deal.parts[0].quantity = 99;
  EXPECT_EQ(field_of(sell_together(s.shop, deal)), "quantity");
  deal = deal_of(s);
  deal.machines.clear();
  deal.delivery = dollars(5);
  EXPECT_EQ(field_of(sell_together(s.shop, deal)), "delivery");
  EXPECT_EQ(field_of(sell_together(s.shop, Deal{.date = day("2026-04-10")})), "machine");
  deal = deal_of(s);
  deal.price = dollars(-1);
  EXPECT_EQ(field_of(sell_together(s.shop, deal)), "price");
}

TEST(SellTogether, RefusesThemAllIfOneIsRecalled) {
  SmallShop s;
  s.carry_out(record_recall_lookup(s.shop, s.m4, day("2026-04-01"), std::string{kRecallStep}, true));
  EXPECT_EQ(field_of(sell_together(s.shop, deal_of(s))), "recall");
}

RC_GTEST_PROP(SellTogether, ItsSharesAddUpToTheCentWhateverTheValues, ()) {
  SmallShop s;
  Deal deal{.date = day("2026-04-10"), .buyer = {.known = s.buyer, .new_name = {}}};
  const auto amount = [](std::int64_t most) {
    return Money::from_minor(*rc::gen::inRange<std::int64_t>(0, most));
  };
  for (const MachineId machine : {s.m2, s.m4})
    if (*rc::gen::arbitrary<bool>()) deal.machines.push_back({.machine = machine, .value = amount(100'000)});
  if (deal.machines.empty() || *rc::gen::arbitrary<bool>())
    deal.parts.push_back({.part = s.plug, .quantity = 1, .value = amount(10'000)});
  deal.price = amount(1'000'000);
  deal.sales_tax = amount(10'000);
  deal.fee = amount(10'000);
  if (!deal.machines.empty()) deal.delivery = amount(10'000);

  const auto before = s.shop;
  const auto change = sell_together(s.shop, deal);
  RC_ASSERT(change.has_value());
  const auto after = apply(s.shop, *change);
  RC_ASSERT(after.has_value());
  Money price, tax, fee, delivery;
  for (const Sale& sale : after->all<Sale>())
    if (before.find(sale.id) == nullptr) {
      price += sale.price;
      tax += sale.sales_tax;
      fee += sale.fee;
      delivery += sale.delivery;
      RC_ASSERT(sale.price >= Money{});
    }
  for (const PartSale& sale : after->all<PartSale>())
    if (before.find(sale.id) == nullptr) {
      price += sale.price;
      tax += sale.sales_tax;
      fee += sale.fee;
    }
  RC_ASSERT(price == deal.price);
  RC_ASSERT(tax == deal.sales_tax);
  RC_ASSERT(fee == deal.fee);
  RC_ASSERT(delivery == deal.delivery);
  RC_ASSERT(test::told(broken_rules(*after)).empty());
}

}  // namespace
}  // namespace secondpull
