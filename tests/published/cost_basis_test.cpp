#include <gtest/gtest.h>

#include "tests/core/books/shop_builder.h"

namespace secondpull {
namespace {

using test::day;
using test::money;
using test::ShopBuilder;

// A lump sum is split by fair market value: 26 CFR 1.167(a)-5, IRS Publication 551 (text for the rule). The
// example is of IRS Publication 527 (second hand): 200,000 for a house and its land, assessed at 136,000 and
// 24,000, is 170,000 and 30,000.
TEST(PublishedCostBasis, LumpSumPurchase) {
  ShopBuilder shop;
  const AcquisitionId lot = shop.add(Acquisition{.date = day("2026-03-02"), .price = money("200000.00")});
  const MachineId house = shop.machine("1", lot, money("136000.00"));
  const MachineId land = shop.machine("2", lot, money("24000.00"));
  const Books books = shop.books();
  EXPECT_EQ(books.machine(house)->cost_basis, money("170000.00"));
  EXPECT_EQ(books.machine(land)->cost_basis, money("30000.00"));
}

/// Gain or loss on a gift worth 8,000 when given, of which the giver's basis was 10,000.
Money gain_on_gift(Money price) {
  ShopBuilder shop;
  const MachineId gift = shop.given("1", day("2026-03-02"), money("10000.00"), money("8000.00"));
  shop.sell(gift, day("2026-04-02"), price);
  return shop.books().machine(gift)->gross_profit.value();
}

// A gift worth less than the giver's basis: the rule is that of IRS Publication 551 and of the IRS's answer
// on the basis of a gift (text); the examples are of Publication 551 (second hand).
TEST(PublishedCostBasis, GiftSoldAtAGainHasTheGiversBasis) {
  EXPECT_EQ(gain_on_gift(money("12000.00")), money("2000.00"));
}

TEST(PublishedCostBasis, GiftSoldAtALossHasItsValueWhenGiven) {
  EXPECT_EQ(gain_on_gift(money("7000.00")), money("-1000.00"));
}

// The same rule; this price is from memory.
TEST(PublishedCostBasis, GiftSoldInBetweenHasNeitherGainNorLoss) {
  EXPECT_EQ(gain_on_gift(money("9000.00")), money("0.00"));
}

// Standard mileage rates for business use, cents a mile (all second hand): 58.5 to 30 June 2022 and 62.5 from
// 1 July; 72.5 to 30 June 2026 (IRS Notice 2026-10) and 76 from 1 July (Announcement 2026-11, to be confirmed
// at the source). The rate is that of the day of the trip.
MileageRates published_rates() {
  return *MileageRates::make({{day("2022-01-01"), day("2022-06-30"), 585, "IRS, second hand"},
                              {day("2022-07-01"), day("2022-12-31"), 625, "IRS, second hand"},
                              {day("2026-01-01"), day("2026-06-30"), 725, "IRS Notice 2026-10"},
                              {day("2026-07-01"), day("2026-12-31"), 760, "IRS Announcement 2026-11"}});
}

Money driving_cost(const std::vector<Trip>& trips) {
  ShopBuilder shop;
  for (const Trip& trip : trips)
    shop.add(trip);
  Money cost;
  const Books books = shop.books(published_rates());
  for (const Transaction& transaction : books.transactions())
    for (const Posting& posting : transaction.postings)
      if (posting.account.kind == AccountKind::expense) cost += posting.amount;
  return cost;
}

TEST(PublishedMileage, TakesTheRateOfTheDayOfEachTrip) {
  EXPECT_EQ(driving_cost(
                {{.date = day("2022-06-30"), .miles = {1000}}, {.date = day("2022-07-01"), .miles = {1000}}}),
            money("121.00"));
  EXPECT_EQ(driving_cost({{.date = day("2026-09-10"), .miles = {10000}}}), money("760.00"));
}

TEST(PublishedMileage, GuessesNoRateForADayWithoutOne) {
  ShopBuilder shop;
  shop.add(Trip{.date = day("2027-01-02"), .miles = {10}});
  EXPECT_FALSE(shop.try_books(published_rates()));
}

}  // namespace
}  // namespace secondpull
