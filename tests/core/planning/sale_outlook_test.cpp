#include "core/planning/sale_outlook.h"

#include <gtest/gtest.h>

#include "core/shop/steps.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::planning {
namespace {

using test::BareShop;
using test::cents;
using test::day;

const Date kToday = day("2026-05-20");

learning::Knowledge knowledge() {
  learning::Knowledge k = test::small_knowledge();
  k.kinds.front().days_to_sell = {3, 9, 30};
  // April to June are the best months, the winter the worst.
  k.season.price = {0.85, 0.9, 1, 1.1, 1.1, 1.1, 1.05, 1, 0.95, 0.9, 0.85, 0.85};
  k.season.days = {3, 2.5, 1.5, 1, 1, 1, 1.2, 1.3, 1.6, 2, 2.5, 3};
  return k;
}

Result<SaleOutlook> outlook(const BareShop& s, MachineId machine, SoldAs as = SoldAs::running,
                            Date today = kToday) {
  return sale_outlook(ByMachine{s.shop}, s.shop, knowledge(), machine, as, today);
}

TEST(SaleOutlook, OfAShopWithoutSalesIsWhatTheTradeSays) {
  BareShop s;
  const MachineId machine = s.machine();
  const auto found = outlook(s, machine);
  ASSERT_TRUE(found) << found.error().sentence;
  // The trade pays 50, 100 and 200 for a push mower that runs.
  EXPECT_EQ(found->price.all_sales, 0u);
  EXPECT_GT(found->price.median, 80);
  EXPECT_LT(found->price.median, 140);
  EXPECT_LT(found->price.p10, found->price.median);
  EXPECT_GT(found->price.p90, found->price.median);
  EXPECT_GT(found->ask, found->floor);
  EXPECT_GT(found->floor, found->salvage);
  EXPECT_GT(found->days.median, 0);
}

TEST(SaleOutlook, GivesUpWhereADayCostsMoreThanABuyerBrings) {
  BareShop s;
  const MachineId machine = s.machine();
  EXPECT_FALSE(outlook(s, machine)->give_up);
  s.shop.settings.day_cost = cents(10'000);
  EXPECT_TRUE(outlook(s, machine)->give_up);
}

TEST(SaleOutlook, CountsWhatFeesTakeOfThePrice) {
  BareShop s;
  const MachineId sold = s.machine();
  const SaleId sale = s.add(
      Sale{.machine = sold, .date = day("2026-05-10"), .price = cents(10'000), .sold_as = SoldAs::running});
  const MachineId machine = s.machine();
  const auto free = outlook(s, machine);
  Sale with_fee = *s.shop.find(sale);
  with_fee.fee = cents(2'000);
  s.shop.all<Sale>().replace(with_fee);
  const auto charged = outlook(s, machine);
  EXPECT_EQ(charged->fee_share, 0.2);
  EXPECT_NEAR(charged->price.median, free->price.median, 1e-9) << "the buyer pays the same";
  EXPECT_LT(charged->path.value, 0.85 * free->path.value);
  EXPECT_LE(charged->floor, free->price.p90);
}

TEST(SaleOutlook, LaysTheDropsInTheirOrder) {
  BareShop s;
  const auto found = outlook(s, s.machine());
  ASSERT_TRUE(found);
  double last = found->ask;
  Date before = kToday;
  for (const PriceStep& step : found->drops) {
    EXPECT_LT(step.asking, last);
    EXPECT_GT(step.date, before);
    last = step.asking;
    before = step.date;
  }
  EXPECT_FALSE(found->drops.empty()) << "the nearer the last day, the less is asked";
}

TEST(SaleOutlook, HoldsUntilSpringInTheAutumnAndNotInTheSpring) {
  BareShop s;
  const MachineId machine = s.machine();
  const auto autumn = outlook(s, machine, SoldAs::running, day("2026-11-20"));
  ASSERT_TRUE(autumn);
  EXPECT_EQ(autumn->hold_until, day("2027-04-01"));
  EXPECT_GT(autumn->hold.gained, 0) << "the price rises from 0.85 to 1.1 and waiting costs nothing";
  const auto spring = outlook(s, machine, SoldAs::running, day("2027-03-20"));
  ASSERT_TRUE(spring);
  EXPECT_EQ(spring->hold_until, std::nullopt) << "less than a month";
  const auto may = outlook(s, machine);
  ASSERT_TRUE(may);
  EXPECT_EQ(may->hold_until, std::nullopt) << "nearly a year";
  s.shop.settings.day_cost = cents(200);
  EXPECT_LT(outlook(s, machine, SoldAs::running, day("2026-11-20"))->hold.gained, 0)
      << "132 days at $2 are more than the price rises";
  EXPECT_EQ(outlook(s, machine, SoldAs::as_is)->hold_until, std::nullopt);
}

TEST(SaleOutlook, ADayThatCostsMoreNeverRaisesTheFloor) {
  BareShop s;
  const MachineId machine = s.machine();
  const auto free = outlook(s, machine);
  s.shop.settings.day_cost = cents(200);
  const auto dear = outlook(s, machine);
  ASSERT_TRUE(free && dear);
  EXPECT_EQ(dear->holding_cost, 2);
  EXPECT_LT(dear->floor, free->floor);
}

TEST(SaleOutlook, NamesAMachineThatIsNotThereAndAKindOfWhichNothingIsKnown) {
  BareShop s;
  EXPECT_EQ(outlook(s, MachineId{999}).error().field, "machine");
  EXPECT_EQ(outlook(s, s.machine(MachineKind::zero_turn)).error().field, "kind");
}

TEST(UsualWay, IsRunningOnceItWasMendedOrRan) {
  BareShop s;
  const auto way = [&](MachineId machine) { return usual_way(lines_of(s.shop, machine)); };
  const MachineId untried = s.machine();
  EXPECT_EQ(way(untried), SoldAs::as_is);
  s.finding(untried, "2026-03-04", std::string{kTestRun}, std::string{kRanThrough});
  EXPECT_EQ(way(untried), SoldAs::running);
  const MachineId mended = s.machine();
  s.fault(mended, "Surges", "jet", "2026-03-04");
  EXPECT_EQ(way(mended), SoldAs::running);
  s.fault(mended, "No spark");
  EXPECT_EQ(way(mended), SoldAs::as_is) << "a fault is open";
  s.finding(untried, "2026-03-05", "Safety check: guards", std::string{kFailed});
  EXPECT_EQ(way(untried), SoldAs::as_is);
}

}  // namespace
}  // namespace secondpull::planning
