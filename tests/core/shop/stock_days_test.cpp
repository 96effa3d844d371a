#include "core/shop/stock_days.h"

#include <gmock/gmock.h>

#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;

/// A shelf of one part of its own.
struct Shelf : SmallShop {
  PartId cord = add(Part{.code = "cord", .name = "cord"});
  OrderId comes_in(const char* date, std::int64_t quantity) {
    const OrderId id = add(Order{.code = std::string{"X"} + date, .date = day(date), .arrived = day(date)});
    add(OrderLine{.order = id, .part = cord, .quantity = quantity, .price = dollars(1)});
    return id;
  }
  FittedId fit(const char* date, std::int64_t quantity, std::optional<OrderId> from = {}) {
    return add(
        Fitted{.machine = m2, .date = day(date), .part = cord, .quantity = quantity, .from_order = from});
  }
  PartSaleId sell(const char* date, std::int64_t quantity) {
    return add(PartSale{.date = day(date), .part = cord, .quantity = quantity});
  }
  std::vector<AnyId> short_uses() const {
    std::vector<AnyId> uses;
    for (const Shortage& shortage : shortages(shop))
      uses.push_back(shortage.use);
    return uses;
  }
};

TEST(StockDays, ServeUsesFromTheDayOfArrivalOn) {
  Shelf s;
  s.comes_in("2026-03-10", 2);
  const FittedId too_early = s.fit("2026-03-09", 1);
  s.fit("2026-03-10", 2);
  EXPECT_THAT(s.short_uses(), testing::ElementsAre(AnyId{too_early}));
}

TEST(StockDays, LetPartsFittedGoBeforePartsSoldOnADay) {
  Shelf s;
  s.comes_in("2026-03-10", 1);
  const PartSaleId sold = s.sell("2026-03-10", 1);
  s.fit("2026-03-10", 1);
  EXPECT_THAT(s.short_uses(), testing::ElementsAre(AnyId{sold}));
}

TEST(StockDays, TakeNothingForAUseThatCannotBeServed) {
  Shelf s;
  s.comes_in("2026-03-10", 2);
  const FittedId too_many = s.fit("2026-03-10", 3);
  s.fit("2026-03-11", 2);
  EXPECT_THAT(s.short_uses(), testing::ElementsAre(AnyId{too_many}));
}

TEST(StockDays, KeepToTheReceiptPointedAt) {
  Shelf s;
  const OrderId first = s.comes_in("2026-03-10", 1);
  const OrderId second = s.comes_in("2026-03-11", 1);
  s.fit("2026-03-12", 1, second);
  s.fit("2026-03-13", 1);
  EXPECT_TRUE(s.short_uses().empty());
  const FittedId none_left = s.fit("2026-03-14", 1, first);  // the oldest went to the use without a receipt
  EXPECT_THAT(s.short_uses(), testing::ElementsAre(AnyId{none_left}));
  EXPECT_EQ(shortages(s.shop, s.cord).front().in_stock, 0);
}

TEST(StockDays, NeverHaveAnOrderThatIsStillUnderWay) {
  Shelf s;
  const FittedId use = s.add(Fitted{
      .machine = s.m2, .date = day("2026-12-01"), .part = s.plug, .quantity = 1, .from_order = s.under_way});
  EXPECT_THAT(s.short_uses(), testing::ElementsAre(AnyId{use}));
}

TEST(StockDays, CountWhatIsOnHandAtTheEndOfADay) {
  const SmallShop s;
  EXPECT_EQ(in_stock_on(s.shop, s.plug, day("2026-03-11")), 0);
  EXPECT_EQ(in_stock_on(s.shop, s.plug, day("2026-03-12")), 1);
  EXPECT_EQ(in_stock_on(s.shop, s.blade, day("2026-03-31")), 0);
}

}  // namespace
}  // namespace secondpull
