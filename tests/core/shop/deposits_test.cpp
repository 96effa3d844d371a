#include "core/shop/deposits.h"

#include <memory>

#include <gtest/gtest.h>

#include "core/books/books.h"
#include "core/shop/offers.h"
#include "core/shop/selling.h"
#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;

std::string field_of(const Result<Change>& made) {
  return made ? "" : made.error().field;
}

/// The gift #4 is out front at $80, and Ruel offered $75 for it.
struct OfferedShop : SmallShop {
  OfferId for_m4 = add(Offer{.machine = m4, .date = day("2026-03-20"), .amount = dollars(75), .who = "Ruel"});
  DepositId leave(Money amount) {
    carry_out(take_deposit(shop, for_m4, day("2026-03-21"), amount, "cash"));
    return std::prev(shop.all<Deposit>().end())->id;
  }
};

TEST(TakeDeposit, IsKeptWithTheOffer) {
  OfferedShop s;
  const auto change = take_deposit(s.shop, s.for_m4, day("2026-03-21"), dollars(20), "cash");
  ASSERT_TRUE(change) << change.error().sentence;
  EXPECT_EQ(change->title(), "Deposit of $20 by Ruel for #4");
  s.carry_out(change);
  const Deposit& kept = *std::prev(s.shop.all<Deposit>().end());
  EXPECT_EQ(kept.offer, s.for_m4);
  EXPECT_EQ(kept.payment, "cash");
  EXPECT_EQ(deposit_left(s.shop, s.for_m4), dollars(20));
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
}

TEST(TakeDeposit, OfTwoAddUpAndAreNotMoreThanWasOffered) {
  OfferedShop s;
  s.leave(dollars(20));
  s.leave(dollars(55));
  EXPECT_EQ(deposit_left(s.shop, s.for_m4), dollars(75));
  EXPECT_EQ(field_of(take_deposit(s.shop, s.for_m4, day("2026-03-21"), dollars(0, 1), "")), "amount");
}

TEST(TakeDeposit, RefusesWhatCannotBe) {
  OfferedShop s;
  EXPECT_EQ(field_of(take_deposit(s.shop, s.for_m4, day("2026-03-21"), Money{}, "")), "amount");
  EXPECT_EQ(field_of(take_deposit(s.shop, s.for_m4, day("2026-03-21"), dollars(-5), "")), "amount");
  EXPECT_EQ(field_of(take_deposit(s.shop, s.for_m4, day("2026-03-19"), dollars(5), "")), "date");
  EXPECT_EQ(field_of(take_deposit(s.shop, OfferId{999}, day("2026-03-21"), dollars(5), "")), "offer");
  s.carry_out(settle_offer(s.shop, s.for_m4, OfferResult::no_show));
  EXPECT_EQ(field_of(take_deposit(s.shop, s.for_m4, day("2026-03-21"), dollars(5), "")), "offer");
}

TEST(ReturnDeposit, GoesBackOnce) {
  OfferedShop s;
  const DepositId deposit = s.leave(dollars(20));
  EXPECT_EQ(field_of(return_deposit(s.shop, deposit, day("2026-03-20"))), "date");
  const auto change = return_deposit(s.shop, deposit, day("2026-03-25"));
  ASSERT_TRUE(change) << change.error().sentence;
  EXPECT_EQ(change->title(), "Gave back the deposit of $20 to Ruel for #4");
  s.carry_out(change);
  EXPECT_EQ(deposit_left(s.shop, s.for_m4), Money{});
  EXPECT_TRUE(deposits_held(s.shop, s.m4).empty());
  EXPECT_EQ(field_of(return_deposit(s.shop, deposit, day("2026-03-26"))), "deposit");
}

TEST(Deposits, OfAnOfferTakenArePartOfItsPrice) {
  OfferedShop s;
  const DepositId deposit = s.leave(dollars(20));
  ASSERT_EQ(deposits_held(s.shop, s.m4).size(), 1u);
  NewSale sale{.machine = s.m4, .date = day("2026-03-28"), .price = dollars(75)};
  s.carry_out(sell(s.shop, sale).and_then([&](Change change) {
    return settling_offers(s.shop, std::move(change), s.m4, s.for_m4);
  }));
  EXPECT_EQ(deposit_left(s.shop, s.for_m4), dollars(20));
  EXPECT_TRUE(deposits_held(s.shop, s.m4).empty());
  EXPECT_EQ(field_of(return_deposit(s.shop, deposit, day("2026-03-29"))), "offer");
}

TEST(Deposits, OfOneWhoDidNotGetTheMachineAreStillHeld) {
  OfferedShop s;
  const DepositId deposit = s.leave(dollars(20));
  NewSale sale{.machine = s.m4, .date = day("2026-03-28"), .price = dollars(80)};
  s.carry_out(sell(s.shop, sale).and_then([&](Change change) {
    return settling_offers(s.shop, std::move(change), s.m4, std::nullopt);
  }));
  ASSERT_EQ(deposits_held(s.shop, s.m4).size(), 1u);
  s.carry_out(return_deposit(s.shop, deposit, day("2026-03-29")));
  EXPECT_TRUE(deposits_held(s.shop, s.m4).empty());
}

// The price is the whole price: the deposit before it moves no figure of the books.
TEST(Deposits, AreNoIncome) {
  const auto profit = [](const OfferedShop& s) {
    const auto books = Books::without_unrated_trips(std::make_shared<const Shop>(s.shop), MileageRates{});
    if (!books) throw std::invalid_argument{books.error().sentence};
    return books->machine(s.m4)->gross_profit;
  };
  const auto sold = [](OfferedShop& s) {
    NewSale sale{.machine = s.m4, .date = day("2026-03-28"), .price = dollars(75)};
    s.carry_out(sell(s.shop, sale).and_then([&](Change change) {
      return settling_offers(s.shop, std::move(change), s.m4, s.for_m4);
    }));
  };
  OfferedShop without, with;
  with.leave(dollars(20));
  EXPECT_EQ(profit(with), profit(without));
  sold(without);
  sold(with);
  EXPECT_NE(profit(with), std::nullopt);
  EXPECT_EQ(profit(with), profit(without));
}

}  // namespace
}  // namespace secondpull
