#include "core/shop/side_trades.h"

#include <gtest/gtest.h>

#include "core/shop/stock_days.h"
#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;

std::string field_of(const Result<Change>& made) {
  return made ? "" : made.error().field;
}

TEST(PayTax, KeepsDayPlaceAndAmount) {
  SmallShop s;
  const auto before = s.shop.all<TaxPaid>().size();
  const auto change =
      pay_tax(s.shop, {.date = day("2026-04-20"), .place = "Brenholt", .amount = dollars(7, 50)});
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Handed on $7.50 of sales tax to Brenholt");
  s.carry_out(change);
  EXPECT_EQ(s.shop.all<TaxPaid>().size(), before + 1);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
  EXPECT_EQ(field_of(pay_tax(s.shop, {.date = day("2026-04-20")})), "amount");
  EXPECT_EQ(field_of(pay_tax(s.shop, {.date = day("2026-04-20"), .amount = dollars(-1)})), "amount");
}

TEST(GiveAllowance, GoesToTheBuyerOfAMachineThatIsSold) {
  SmallShop s;
  const auto change = give_allowance(
      s.shop, {.machine = s.m1, .date = day("2026-12-01"), .amount = dollars(10), .note = "scratched deck"});
  ASSERT_TRUE(change) << change.error().sentence;
  s.carry_out(change);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
  EXPECT_EQ(field_of(give_allowance(s.shop, {.machine = s.m1, .date = day("2026-12-01")})), "amount");
  EXPECT_EQ(
      field_of(give_allowance(s.shop, {.machine = s.m2, .date = day("2026-12-01"), .amount = dollars(1)})),
      "date");
}

TEST(SellPart, TakesPiecesThatAreInStockAndNoMore) {
  SmallShop s;
  const auto in_stock = in_stock_on(s.shop, s.plug, day("2026-12-31"));
  ASSERT_GE(in_stock, 1);
  NewPartSale sale{.date = day("2026-12-30"), .part = s.plug, .price = dollars(6)};
  sale.buyer.new_name = "Imre";
  const auto change = sell_part(s.shop, sale);
  ASSERT_TRUE(change) << change.error().sentence;
  EXPECT_EQ(change->title(), "Sold 1 x spark plug to Imre for $6");
  s.carry_out(change);
  EXPECT_EQ(in_stock_on(s.shop, s.plug, day("2026-12-31")), in_stock - 1);
  sale.quantity = 99;
  EXPECT_EQ(field_of(sell_part(s.shop, sale)), "quantity");
  sale.quantity = 0;
  EXPECT_EQ(field_of(sell_part(s.shop, sale)), "quantity");
}

TEST(TakeInFound, PutsPiecesOnTheShelfAtNoCost) {
  SmallShop s;
  PartChoice choice;
  choice.new_name = "muffler guard";
  const auto change = take_in_found(s.shop, day("2026-04-20"), choice, 2, Money{});
  ASSERT_TRUE(change) << change.error().sentence;
  EXPECT_EQ(change->title(), "Found 2 x muffler guard");
  s.carry_out(change);
  const PartId part = std::prev(s.shop.all<Part>().end())->id;
  EXPECT_EQ(in_stock_on(s.shop, part, day("2026-04-20")), 2);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
  EXPECT_EQ(field_of(take_in_found(s.shop, day("2026-04-20"), choice, 0, Money{})), "quantity");
}

}  // namespace
}  // namespace secondpull
