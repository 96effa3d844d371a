#include <deque>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/core/books/shop_builder.h"

namespace secondpull {
namespace {

using test::day;
using test::money;
using test::ShopBuilder;

struct Shelf : ShopBuilder {
  MachineId it = bought("M", day("2026-03-01"), Money{});
  PartId plug = part("plug");
  PartId belt = part("belt");
  Money cost() const { return books().machine(it)->cost_basis; }
};

TEST(Stock, IsIssuedFirstInFirstOut) {
  Shelf shop;
  shop.bought_parts(shop.plug, day("2026-03-05"), 2, money("4.00"));
  shop.bought_parts(shop.plug, day("2026-03-02"), 2, money("3.00"));
  shop.fit(shop.it, day("2026-03-06"), shop.plug, 3);
  EXPECT_EQ(shop.cost(), money("10.00"));
  EXPECT_EQ(shop.books().on_hand(shop.plug), 1);
  EXPECT_EQ(shop.books().cost_of_next(shop.plug, 1), money("4.00"));
}

TEST(Stock, SharesALinesCostOverItsPiecesIssuedInTurn) {
  Shelf shop;
  const OrderId order =
      shop.add(Order{.date = day("2026-03-02"), .arrived = day("2026-03-02"), .freight = money("0.02")});
  shop.add(OrderLine{.order = order, .part = shop.plug, .quantity = 3, .price = money("1.00")});
  const Books full = shop.books();  // 3.02: 1.01, 1.01, 1.00
  EXPECT_EQ(full.cost_of_next(shop.plug, 1), money("1.01"));
  EXPECT_EQ(full.cost_of_next(shop.plug, 2), money("2.02"));
  EXPECT_EQ(full.cost_of_next(shop.plug, 3), money("3.02"));
  EXPECT_EQ(full.cost_of_next(shop.plug, 4), std::nullopt);
  shop.fit(shop.it, day("2026-03-03"), shop.plug);
  EXPECT_EQ(shop.books().cost_of_next(shop.plug, 2), money("2.01"));
}

TEST(Stock, LandsFreightAndTaxOnTheLinesAsOneSumByValue) {
  Shelf shop;
  const OrderId order = shop.add(Order{.date = day("2026-03-02"),
                                       .arrived = day("2026-03-04"),
                                       .freight = money("0.01"),
                                       .tax = money("0.01")});
  shop.add(OrderLine{.order = order, .part = shop.plug, .quantity = 2, .price = money("1.00")});
  shop.add(OrderLine{.order = order, .part = shop.belt, .price = money("2.00")});
  const Books books = shop.books();  // two cents over 2.00 : 2.00
  EXPECT_EQ(books.cost_of_next(shop.plug, 2), money("2.01"));
  EXPECT_EQ(books.cost_of_next(shop.belt, 1), money("2.01"));
}

TEST(Stock, LandsFreightEquallyOnLinesThatCostNothing) {
  Shelf shop;
  const OrderId order =
      shop.add(Order{.date = day("2026-03-02"), .arrived = day("2026-03-04"), .freight = money("0.03")});
  shop.add(OrderLine{.order = order, .part = shop.plug});
  shop.add(OrderLine{.order = order, .part = shop.belt});
  EXPECT_EQ(shop.books().cost_of_next(shop.plug, 1), money("0.02"));
  EXPECT_EQ(shop.books().cost_of_next(shop.belt, 1), money("0.01"));
}

TEST(Stock, ComesInOnTheDayTheOrderArrived) {
  Shelf shop;
  const OrderId order = shop.add(Order{.date = day("2026-03-02"), .arrived = day("2026-03-06")});
  shop.add(OrderLine{.order = order, .part = shop.plug, .price = money("3.00")});
  const FittedId early = shop.fit(shop.it, day("2026-03-05"), shop.plug);
  ASSERT_FALSE(shop.try_books());
  EXPECT_EQ(shop.try_books().error().field, "quantity");
  shop.shop().all<Fitted>().erase(early);
  shop.fit(shop.it, day("2026-03-06"), shop.plug);
  EXPECT_EQ(shop.cost(), money("3.00"));
}

TEST(Stock, DoesNotCountAnOrderUnderWay) {
  Shelf shop;
  const OrderId order = shop.add(Order{.date = day("2026-03-02")});
  shop.add(OrderLine{.order = order, .part = shop.plug, .price = money("3.00")});
  const Books books = shop.books();
  EXPECT_EQ(books.on_hand(shop.plug), 0);
  EXPECT_TRUE(books.stock().empty());
  EXPECT_TRUE(books.transactions().empty());  // the machine cost nothing, and nothing was paid for the plug
}

TEST(Stock, IssuesFromTheOrderPointedAt) {
  Shelf shop;
  shop.bought_parts(shop.plug, day("2026-03-02"), 1, money("3.00"));
  const OrderId later = shop.bought_parts(shop.plug, day("2026-03-03"), 1, money("4.00"));
  shop.add(Fitted{.machine = shop.it, .date = day("2026-03-04"), .part = shop.plug, .from_order = later});
  EXPECT_EQ(shop.cost(), money("4.00"));
  EXPECT_EQ(shop.books().cost_of_next(shop.plug, 1), money("3.00"));
  shop.add(Fitted{.machine = shop.it, .date = day("2026-03-05"), .part = shop.plug, .from_order = later});
  EXPECT_FALSE(shop.try_books());  // one is there, but not of that order
}

TEST(Stock, IssuesFromTheDonorPointedAt) {
  Shelf shop;
  shop.bought_parts(shop.plug, day("2026-03-02"), 1, money("3.00"));
  const MachineId donor = shop.bought("D", day("2026-03-01"), money("1.00"));
  shop.add(Harvest{.donor = donor, .date = day("2026-03-02"), .part = shop.plug, .value = money("1.00")});
  shop.add(Disposal{.machine = donor, .date = day("2026-03-02"), .how = DisposalKind::parted_out});
  shop.add(Fitted{.machine = shop.it, .date = day("2026-03-02"), .part = shop.plug, .from_donor = donor});
  EXPECT_EQ(shop.cost(), money("1.00"));
}

TEST(Stock, IssuesOrderedPartsBeforeHarvestedOnesOfTheSameDay) {
  Shelf shop;
  const MachineId donor = shop.bought("D", day("2026-03-01"), money("1.00"));
  shop.add(Harvest{.donor = donor, .date = day("2026-03-02"), .part = shop.plug, .value = money("1.00")});
  shop.add(Disposal{.machine = donor, .date = day("2026-03-02"), .how = DisposalKind::parted_out});
  shop.bought_parts(shop.plug, day("2026-03-02"), 1, money("3.00"));
  shop.fit(shop.it, day("2026-03-02"), shop.plug);
  EXPECT_EQ(shop.cost(), money("3.00"));
}

TEST(Stock, IsFittedBeforeItIsSoldOnOneDay) {
  Shelf shop;
  shop.bought_parts(shop.plug, day("2026-03-02"), 1, money("3.00"));
  shop.bought_parts(shop.plug, day("2026-03-03"), 1, money("4.00"));
  shop.add(PartSale{.date = day("2026-03-04"), .part = shop.plug, .price = money("9.00")});
  shop.fit(shop.it, day("2026-03-04"), shop.plug);
  EXPECT_EQ(shop.cost(), money("3.00"));
}

TEST(Stock, WrittenOffOrSoldLeavesAsCostOfGoods) {
  Shelf shop;
  shop.bought_parts(shop.plug, day("2026-03-02"), 3, money("3.00"));
  shop.add(Fitted{.date = day("2026-03-04"), .part = shop.plug});
  shop.add(PartSale{.date = day("2026-03-04"),
                    .part = shop.plug,
                    .price = money("9.00"),
                    .sales_tax = money("0.54"),
                    .fee = money("0.50"),
                    .place = "Wend"});
  Money goods, cash, tax, fees;
  const Books books = shop.books();
  for (const Transaction& transaction : books.transactions())
    for (const Posting& posting : transaction.postings) {
      if (posting.account.kind == AccountKind::cost_of_goods) goods += posting.amount;
      if (posting.account.kind == AccountKind::cash) cash += posting.amount;
      if (posting.account == Account{AccountKind::sales_tax, MachineId{}, "Wend"}) tax += posting.amount;
      if (posting.account == Account{AccountKind::expense, MachineId{}, "commissions and fees"})
        fees += posting.amount;
    }
  EXPECT_EQ(goods, money("6.00"));
  EXPECT_EQ(cash, money("0.04"));  // 9.04 in, 9.00 out
  EXPECT_EQ(tax, money("-0.54"));
  EXPECT_EQ(fees, money("0.50"));
  EXPECT_EQ(shop.books().on_hand(shop.plug), 1);
  EXPECT_EQ(shop.cost(), money("0.00"));
}

TEST(Stock, TooFewPiecesAreRefusedWithWhatWasThere) {
  Shelf shop;
  shop.bought_parts(shop.plug, day("2026-03-02"), 2, money("3.00"));
  shop.fit(shop.it, day("2026-03-04"), shop.plug, 3);
  const auto books = shop.try_books();
  ASSERT_FALSE(books);
  EXPECT_EQ(books.error().sentence,
            "3 of plug were used on 2026-03-04, and only 2 were in stock on that day.");
  EXPECT_EQ(books.error().value, "3");
}

TEST(Stock, OpeningLinesAreBroughtInByTheOwner) {
  Shelf shop;
  const OrderId order =
      shop.add(Order{.date = day("2026-03-01"), .arrived = day("2026-03-01"), .opening = true});
  shop.add(OrderLine{.order = order, .part = shop.plug, .price = money("3.00")});
  shop.machine("O", shop.add(Acquisition{.date = day("2026-03-01"),
                                         .price = money("20.00"),
                                         .pickup_cost = money("1.00"),
                                         .opening = true}));
  Money owner;
  const Books books = shop.books();
  for (const Transaction& transaction : books.transactions())
    for (const Posting& posting : transaction.postings) {
      EXPECT_NE(posting.account.kind, AccountKind::cash);
      if (posting.account.kind == AccountKind::owner) owner += posting.amount;
    }
  EXPECT_EQ(owner, money("-24.00"));
}

// A second way to the same figures: every piece a thing of its own in a queue.
RC_GTEST_PROP(Stock, CostsWhatAQueueOfSinglePiecesCosts, ()) {
  Shelf shop;
  std::deque<Money> queue;
  const Date start = day("2026-03-01");
  const int days = *rc::gen::inRange(1, 30);
  Money fitted;
  for (int i = 0; i < days; ++i) {
    const Date today = plus_days(start, i);
    if (*rc::gen::arbitrary<bool>()) {
      const auto quantity = *rc::gen::inRange<std::int64_t>(1, 8);
      const Money each = Money::from_minor(*rc::gen::inRange<std::int64_t>(0, 1000));
      const Money freight = Money::from_minor(*rc::gen::inRange<std::int64_t>(0, 100));
      const OrderId order = shop.add(Order{.date = today, .arrived = today, .freight = freight});
      shop.add(OrderLine{.order = order, .part = shop.plug, .quantity = quantity, .price = each});
      for (const Money piece : split_evenly(each * quantity + freight, static_cast<std::size_t>(quantity)))
        queue.push_back(piece);
    }
    const auto wanted = *rc::gen::inRange<std::int64_t>(0, 6);
    if (wanted == 0 || wanted > static_cast<std::int64_t>(queue.size())) continue;
    shop.fit(shop.it, today, shop.plug, wanted);
    for (std::int64_t piece = 0; piece < wanted; ++piece) {
      fitted += queue.front();
      queue.pop_front();
    }
  }
  const Books books = shop.books();
  RC_ASSERT(books.machine(shop.it)->cost_basis == fitted);
  RC_ASSERT(books.on_hand(shop.plug) == static_cast<std::int64_t>(queue.size()));
  Money left;
  for (std::size_t i = 0; i <= queue.size(); ++i) {
    RC_ASSERT(books.cost_of_next(shop.plug, static_cast<std::int64_t>(i)) == left);
    if (i < queue.size()) left += queue[i];
  }
}

}  // namespace
}  // namespace secondpull
