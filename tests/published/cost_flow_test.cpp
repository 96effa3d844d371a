#include <gtest/gtest.h>

#include "tests/core/books/shop_builder.h"

namespace secondpull {
namespace {

using test::day;
using test::money;
using test::ShopBuilder;

// OpenStax, Principles of Accounting, Volume 1: Financial Accounting, chapter 10, the example carried through
// its cost flow methods (text): 150 pieces at 21 in stock; 120 sold at 36; 225 bought at 27; 180 sold at 39;
// 210 bought at 33; 285 left.
struct CostFlow : ShopBuilder {
  PartId piece = part("piece");
  OrderId first = bought_parts(piece, day("2026-07-01"), 150, money("21.00"));
  OrderId second = bought_parts(piece, day("2026-07-10"), 225, money("27.00"));
  OrderId third = bought_parts(piece, day("2026-07-25"), 210, money("33.00"));

  void sell_pieces(std::string_view date, std::int64_t quantity, Money each,
                   std::optional<OrderId> from = std::nullopt) {
    add(PartSale{.date = day(date),
                 .part = piece,
                 .quantity = quantity,
                 .price = each * quantity,
                 .from_order = from});
  }
};

Money balance(const Books& books, AccountKind kind) {
  Money sum;
  for (const Transaction& transaction : books.transactions())
    for (const Posting& posting : transaction.postings)
      if (posting.account.kind == kind) sum += posting.amount;
  return sum;
}

void expect_figures(const Books& books, std::string_view goods, std::string_view stock,
                    std::string_view margin) {
  EXPECT_EQ(balance(books, AccountKind::cost_of_goods), money(goods));
  EXPECT_EQ(balance(books, AccountKind::parts), money(stock));
  EXPECT_EQ(-balance(books, AccountKind::sales) - balance(books, AccountKind::cost_of_goods), money(margin));
  // In any method the two add up to what was available for sale: 16,155 (the same source).
  EXPECT_EQ(balance(books, AccountKind::cost_of_goods) + balance(books, AccountKind::parts),
            money("16155.00"));
}

TEST(PublishedCostFlow, FirstInFirstOut) {
  CostFlow shop;
  shop.sell_pieces("2026-07-05", 120, money("36.00"));
  shop.sell_pieces("2026-07-15", 180, money("39.00"));
  const Books books = shop.books();
  EXPECT_EQ(books.on_hand(shop.piece), 285);
  expect_figures(books, "7200.00", "8955.00", "4140.00");
}

// The same source, specific identification: the first sale is 120 of the first lot; of the second, 20 are of
// the first lot and 160 of the second.
TEST(PublishedCostFlow, SpecificIdentification) {
  CostFlow shop;
  shop.sell_pieces("2026-07-05", 120, money("36.00"), shop.first);
  shop.sell_pieces("2026-07-15", 20, money("39.00"), shop.first);
  shop.sell_pieces("2026-07-15", 160, money("39.00"), shop.second);
  const Books books = shop.books();
  EXPECT_EQ(books.on_hand(shop.piece), 285);
  expect_figures(books, "7260.00", "8895.00", "4080.00");
}

}  // namespace
}  // namespace secondpull
