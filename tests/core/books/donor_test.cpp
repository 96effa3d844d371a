#include <gtest/gtest.h>

#include "tests/core/books/shop_builder.h"

namespace secondpull {
namespace {

using test::day;
using test::money;
using test::ShopBuilder;

/// A donor bought for 30.00 on 1 March.
struct DonorShop : ShopBuilder {
  MachineId donor = bought("D", day("2026-03-01"), money("30.00"));
  PartId deck = part("deck");
  PartId wheel = part("wheel");

  HarvestId harvest(PartId taken, std::string_view date, std::string_view value, std::int64_t quantity = 1) {
    return add(Harvest{
        .donor = donor, .date = day(date), .part = taken, .quantity = quantity, .value = money(value)});
  }
  Disposal parted(std::string_view date) const {
    return {.machine = donor, .date = day(date), .how = DisposalKind::parted_out};
  }
  MachineFigures figures() const { return *books().machine(donor); }
};

TEST(Donor, IsSplitOverPartsAndHulkByValue) {
  DonorShop shop;
  shop.harvest(shop.deck, "2026-03-10", "20.00");
  Disposal disposal = shop.parted("2026-03-10");
  disposal.hulk_value = money("10.00");
  shop.add(disposal);
  EXPECT_EQ(shop.books().cost_of_next(shop.deck, 1), money("20.00"));
  EXPECT_EQ(shop.figures().cost_basis, money("10.00"));
}

TEST(Donor, WeighsTheHulkByItsScrapMoneyWithoutAValue) {
  DonorShop shop;
  shop.harvest(shop.deck, "2026-03-10", "20.00");
  Disposal disposal = shop.parted("2026-03-10");
  disposal.proceeds = money("5.00");
  shop.add(disposal);
  EXPECT_EQ(shop.books().cost_of_next(shop.deck, 1), money("24.00"));
  EXPECT_EQ(shop.figures().cost_basis, money("6.00"));
  EXPECT_EQ(shop.figures().gross_profit, money("-1.00"));
}

TEST(Donor, LeavesAHulkWithoutValueAndMoneyWithNothing) {
  DonorShop shop;
  shop.harvest(shop.deck, "2026-03-10", "20.00");
  shop.add(shop.parted("2026-03-10"));
  EXPECT_EQ(shop.books().cost_of_next(shop.deck, 1), money("30.00"));
  EXPECT_EQ(shop.figures().cost_basis, money("0.00"));
}

TEST(Donor, SharesEquallyWhenNothingHasAValue) {
  DonorShop shop;
  shop.harvest(shop.deck, "2026-03-10", "0.00");
  shop.harvest(shop.wheel, "2026-03-10", "0.00");
  shop.add(shop.parted("2026-03-10"));
  EXPECT_EQ(shop.books().cost_of_next(shop.deck, 1), money("10.00"));
  EXPECT_EQ(shop.figures().cost_basis, money("10.00"));
}

TEST(Donor, KeepsItsBasisInTheHulkWhenNothingWasHarvested) {
  DonorShop shop;
  shop.add(shop.parted("2026-03-10"));
  EXPECT_EQ(shop.figures().cost_basis, money("30.00"));
  EXPECT_EQ(shop.figures().net_proceeds, money("0.00"));
}

TEST(Donor, GivesLeftOverCentsByRemainderToLinesInOrderOfEntry) {
  DonorShop shop;
  shop.add(Material{.machine = shop.donor, .date = day("2026-03-02"), .what = "oil", .cost = money("0.01")});
  // Entered first, though harvested later: 30.01 over 1 : 1 is 15.005 each.
  shop.harvest(shop.wheel, "2026-03-12", "1.00");
  shop.harvest(shop.deck, "2026-03-10", "1.00");
  shop.add(shop.parted("2026-03-10"));
  EXPECT_EQ(shop.books().cost_of_next(shop.wheel, 1), money("15.01"));
  EXPECT_EQ(shop.books().cost_of_next(shop.deck, 1), money("15.00"));
}

TEST(Donor, CountsLaterHarvestsInTheOneSplitAndGivesThemOutFromTheirDay) {
  DonorShop shop;
  const MachineId other = shop.bought("M", day("2026-03-01"), money("0.00"));
  shop.harvest(shop.deck, "2026-03-10", "20.00");
  shop.harvest(shop.wheel, "2026-05-01", "10.00");
  shop.add(shop.parted("2026-03-10"));
  EXPECT_EQ(shop.books().cost_of_next(shop.deck, 1), money("20.00"));
  EXPECT_EQ(shop.books().cost_of_next(shop.wheel, 1), money("10.00"));
  const FittedId early = shop.fit(other, day("2026-04-30"), shop.wheel);
  ASSERT_FALSE(shop.try_books());
  EXPECT_EQ(shop.try_books().error().field, "quantity");
  shop.shop().all<Fitted>().erase(early);
  shop.fit(other, day("2026-05-01"), shop.wheel);
  EXPECT_EQ(shop.books().machine(other)->cost_basis, money("10.00"));
}

TEST(Donor, IsSplitAtItsFirstHarvestAndWhatIsSpentLaterStaysWithTheHulk) {
  DonorShop shop;
  shop.add(Material{.machine = shop.donor, .date = day("2026-03-10"), .what = "oil", .cost = money("6.00")});
  shop.harvest(shop.deck, "2026-03-10", "20.00");
  shop.add(Material{.machine = shop.donor, .date = day("2026-03-12"), .what = "saw", .cost = money("2.00")});
  Disposal disposal = shop.parted("2026-03-20");
  disposal.hulk_value = money("10.00");
  shop.add(disposal);
  EXPECT_EQ(shop.books().cost_of_next(shop.deck, 1), money("24.00"));  // 36.00 over 2 : 1
  EXPECT_EQ(shop.figures().cost_basis, money("14.00"));
}

TEST(Donor, CountsAPartFittedOnTheDayOfThePartingWithTheHulk) {
  DonorShop shop;
  shop.bought_parts(shop.wheel, day("2026-03-10"), 1, money("9.00"));
  shop.fit(shop.donor, day("2026-03-10"), shop.wheel);
  shop.harvest(shop.deck, "2026-03-10", "20.00");
  Disposal disposal = shop.parted("2026-03-10");
  disposal.hulk_value = money("10.00");
  shop.add(disposal);
  EXPECT_EQ(shop.books().cost_of_next(shop.deck, 1), money("20.00"));
  EXPECT_EQ(shop.figures().cost_basis, money("19.00"));
}

TEST(Donor, TellsNoProceedsWhileItsHulkIsHere) {
  DonorShop shop;
  Disposal disposal = shop.parted("2026-03-10");
  disposal.hulk_here = true;
  shop.add(disposal);
  shop.add(Material{.machine = shop.donor, .date = day("2026-03-20"), .what = "saw", .cost = money("1.00")});
  const MachineFigures figures = shop.figures();
  EXPECT_EQ(figures.stage, Stage::parted_out);
  EXPECT_EQ(figures.cost_basis, money("31.00"));
  EXPECT_EQ(figures.net_proceeds, std::nullopt);
  EXPECT_EQ(figures.profit, std::nullopt);
  EXPECT_EQ(figures.days_held, std::nullopt);
}

TEST(Donor, EarnsTheScrapMoneyOnTheDayTheHulkGoes) {
  DonorShop shop;
  Disposal disposal = shop.parted("2026-03-10");
  disposal.proceeds = money("7.50");
  disposal.hulk_gone = day("2026-04-10");
  shop.add(disposal);
  const Books books = shop.books();
  EXPECT_EQ(books.machine(shop.donor)->net_proceeds, money("7.50"));
  EXPECT_EQ(books.machine(shop.donor)->days_held, 40);
  const Transaction& last = books.transactions().back();
  EXPECT_EQ(last.date, day("2026-04-10"));
  EXPECT_EQ(last.what, "hulk of #D gone");
}

TEST(Donor, WithHarvestedLinesMustBePartedOut) {
  DonorShop shop;
  shop.harvest(shop.deck, "2026-03-10", "20.00");
  ASSERT_FALSE(shop.try_books());
  EXPECT_EQ(shop.try_books().error().field, "donor");
}

TEST(Donor, CannotLoseItsHulkBeforeItIsPartedOut) {
  DonorShop shop;
  Disposal disposal = shop.parted("2026-03-10");
  disposal.hulk_gone = day("2026-03-09");
  shop.add(disposal);
  ASSERT_FALSE(shop.try_books());
  EXPECT_EQ(shop.try_books().error().field, "hulk_gone");
}

}  // namespace
}  // namespace secondpull
