#include <gtest/gtest.h>

#include "tests/core/books/shop_builder.h"

namespace secondpull {
namespace {

using test::day;
using test::money;
using test::ShopBuilder;

// The rule: IRS Publication 551, property received as a gift. The amounts are worked by hand.

/// A gift with a giver's basis of 100.00, worth 80.00 when given; pickup 10.00 and a belt 5.00 make k 15.00.
struct GiftedMachine : ShopBuilder {
  MachineId gift = machine("G",
                           add(Acquisition{.date = day("2026-03-01"),
                                           .source = Source::gift,
                                           .pickup_cost = money("10.00"),
                                           .giver_basis = money("100.00")}),
                           money("80.00"));
  MaterialId belt =
      add(Material{.machine = gift, .date = day("2026-03-05"), .what = "belt", .cost = money("5.00")});

  MachineFigures figures() const { return *books().machine(gift); }
};

TEST(Gift, IsCarriedAtTheLowerSumWhileItIsHere) {
  const GiftedMachine shop;
  EXPECT_EQ(shop.figures().cost_basis, money("95.00"));
}

TEST(Gift, TakesTheGiversBasisForAGain) {
  GiftedMachine shop;
  shop.sell(shop.gift, day("2026-04-01"), money("150.00"), money("3.00"), money("2.00"));
  EXPECT_EQ(shop.figures().cost_basis, money("115.00"));
  EXPECT_EQ(shop.figures().gross_profit, money("30.00"));
}

TEST(Gift, TakesTheLowerBasisForALoss) {
  GiftedMachine shop;
  shop.sell(shop.gift, day("2026-04-01"), money("60.00"));
  EXPECT_EQ(shop.figures().cost_basis, money("95.00"));
  EXPECT_EQ(shop.figures().gross_profit, money("-35.00"));
}

TEST(Gift, LeavesNeitherGainNorLossInBetween) {
  GiftedMachine shop;
  shop.sell(shop.gift, day("2026-04-01"), money("105.00"));
  EXPECT_EQ(shop.figures().cost_basis, money("105.00"));
  EXPECT_EQ(shop.figures().gross_profit, money("0.00"));
}

TEST(Gift, HasNoLowerSumWithoutAValueOrWithAHigherOne) {
  ShopBuilder shop;
  const MachineId no_value = shop.given("A", day("2026-03-01"), money("100.00"), std::nullopt);
  const MachineId worth_more = shop.given("B", day("2026-03-01"), money("100.00"), money("140.00"));
  EXPECT_EQ(shop.books().machine(no_value)->cost_basis, money("100.00"));
  EXPECT_EQ(shop.books().machine(worth_more)->cost_basis, money("100.00"));
}

TEST(Gift, OfSeveralMachinesSharesTheGiversBasisByValue) {
  ShopBuilder shop;
  const AcquisitionId both = shop.add(
      Acquisition{.date = day("2026-03-01"), .source = Source::gift, .giver_basis = money("100.00")});
  const MachineId large = shop.machine("A", both, money("60.00"));
  const MachineId small = shop.machine("B", both, money("20.00"));
  shop.sell(large, day("2026-03-02"), money("90.00"));  // g 75, l 60: a gain of 15
  shop.sell(small, day("2026-03-02"), money("22.00"));  // g 25, l 20: in between
  const Books books = shop.books();
  EXPECT_EQ(books.machine(large)->cost_basis, money("75.00"));
  EXPECT_EQ(books.machine(small)->cost_basis, money("22.00"));
}

TEST(Gift, WithoutAGiversBasisCostsNothing) {
  ShopBuilder shop;
  const MachineId found = shop.machine(
      "A", shop.add(Acquisition{.date = day("2026-03-01"), .source = Source::gift}), money("50.00"));
  EXPECT_EQ(shop.books().machine(found)->cost_basis, money("0.00"));
}

TEST(Gift, LeavesAtTheLowerSumWhenScrapped) {
  GiftedMachine shop;
  shop.add(Disposal{.machine = shop.gift, .date = day("2026-04-01"), .proceeds = money("200.00")});
  EXPECT_EQ(shop.figures().cost_basis, money("95.00"));
}

TEST(Gift, IsSettledByCostsOfTheDayOfSaleAndNotByLaterOnes) {
  GiftedMachine shop;
  shop.add(Material{.machine = shop.gift, .date = day("2026-04-01"), .what = "oil", .cost = money("4.00")});
  shop.sell(shop.gift, day("2026-04-01"), money("105.00"));  // k 19: in between, at 86
  shop.add(Material{.machine = shop.gift, .date = day("2026-04-02"), .what = "cap", .cost = money("3.00")});
  shop.add(Allowance{.machine = shop.gift, .date = day("2026-04-03"), .amount = money("8.00")});
  EXPECT_EQ(shop.figures().cost_basis, money("108.00"));
  EXPECT_EQ(shop.figures().gross_profit, money("-11.00"));
}

TEST(Gift, IsSettledAnewAtASecondSale) {
  GiftedMachine shop;
  shop.sell(shop.gift, day("2026-04-01"), money("150.00"), money("5.00"));  // a gain, at 100
  shop.take_back(shop.gift, day("2026-04-05"), money("150.00"));
  EXPECT_EQ(shop.figures().cost_basis, money("115.00"));    // what left came back
  shop.sell(shop.gift, day("2026-04-09"), money("60.00"));  // a loss, at 80: 20 taken back
  EXPECT_EQ(shop.figures().cost_basis, money("95.00"));
  EXPECT_EQ(shop.figures().net_proceeds, money("55.00"));
  EXPECT_EQ(shop.figures().gross_profit, money("-40.00"));
}

TEST(Gift, CountsWhatTheComebackCostInTheSecondSale) {
  GiftedMachine shop;
  shop.sell(shop.gift, day("2026-04-01"), money("150.00"));
  shop.add(Material{.machine = shop.gift, .date = day("2026-04-03"), .what = "cap", .cost = money("3.00")});
  shop.take_back(shop.gift, day("2026-04-05"), money("150.00"));
  shop.add(Material{.machine = shop.gift, .date = day("2026-04-06"), .what = "seal", .cost = money("4.00")});
  shop.sell(shop.gift, day("2026-04-09"), money("105.00"));  // k 22: between 102 and 122, so at 83
  EXPECT_EQ(shop.figures().cost_basis, money("105.00"));
}

TEST(Gift, ThatCameBackIsScrappedAtTheLowerSumAgain) {
  GiftedMachine shop;
  shop.sell(shop.gift, day("2026-04-01"), money("150.00"));
  shop.take_back(shop.gift, day("2026-04-05"), money("150.00"));
  shop.add(Disposal{.machine = shop.gift, .date = day("2026-04-09"), .proceeds = money("6.00")});
  EXPECT_EQ(shop.figures().cost_basis, money("95.00"));
  EXPECT_EQ(shop.figures().net_proceeds, money("6.00"));
}

TEST(Gift, IsPartedAtTheLowerSum) {
  GiftedMachine shop;
  const PartId deck = shop.part("deck");
  shop.sell(shop.gift, day("2026-04-01"), money("150.00"));
  shop.take_back(shop.gift, day("2026-04-05"), money("150.00"));
  shop.add(Harvest{.donor = shop.gift, .date = day("2026-04-06"), .part = deck, .value = money("3.00")});
  shop.add(Disposal{.machine = shop.gift,
                    .date = day("2026-04-06"),
                    .how = DisposalKind::parted_out,
                    .hulk_value = money("1.00")});
  EXPECT_EQ(shop.books().cost_of_next(deck, 1), money("71.25"));  // 95.00 over 3 : 1
  EXPECT_EQ(shop.figures().cost_basis, money("23.75"));
}

TEST(Gift, IsToldAtAnAskingPriceAsTheSaleWouldSettleIt) {
  const GiftedMachine shop;
  const Books books = shop.books();
  const auto at = [&](std::string_view price) {
    return books.if_sold(shop.gift, money(price), {}, {}, day("2026-04-01"))->gross_profit;
  };
  EXPECT_EQ(at("150.00"), money("35.00"));
  EXPECT_EQ(at("105.00"), money("0.00"));
  EXPECT_EQ(at("60.00"), money("-35.00"));
}

}  // namespace
}  // namespace secondpull
