#include "core/learning/own_sales.h"

#include <cmath>

#include <gmock/gmock.h>

#include "tests/core/learning/small_knowledge.h"

namespace secondpull::learning {
namespace {

using test::BareShop;
using test::cents;
using test::day;
using test::small_knowledge;

const Currency kDollars{"USD", 2};

std::vector<OwnSale> sales_of(const BareShop& s, std::string_view today = "2027-01-01") {
  return own_sales(ByMachine{s.shop}, s.shop, small_knowledge(), day(today));
}
MachineId sold(BareShop& s, std::int64_t price, std::optional<SoldAs> as = SoldAs::running,
               std::string_view date = "2026-05-01") {
  const MachineId m = s.machine();
  s.add(Sale{.machine = m, .date = day(date), .price = cents(price), .sold_as = as});
  return m;
}

TEST(OwnSales, AreAsTheSaleSaysOrElseTheListing) {
  BareShop s;
  const MachineId listed = sold(s, 9'000, std::nullopt);
  s.add(Listing{.machine = listed, .date = day("2026-04-01"), .sold_as = SoldAs::running});
  s.add(Listing{.machine = listed, .date = day("2026-04-20"), .sold_as = SoldAs::as_is});
  s.add(Listing{.machine = listed, .date = day("2026-06-01"), .sold_as = SoldAs::running});
  sold(s, 8'000, std::nullopt);  // nobody said
  const auto own = sales_of(s);
  ASSERT_EQ(own.size(), 1u);
  EXPECT_EQ(own[0].machine, listed);
  EXPECT_EQ(s.shop.find(own[0].sale)->price, cents(9'000));
  EXPECT_EQ(own[0].as, SoldAs::as_is);
  EXPECT_EQ(own[0].price, 90);
}

TEST(OwnSales, KnowSinceWhenTheMachineWasOfferedInThatWay) {
  BareShop s;
  const MachineId machine = s.machine();
  s.add(Listing{.machine = machine, .date = day("2026-03-10"), .sold_as = SoldAs::as_is});
  s.add(Listing{.machine = machine, .date = day("2026-04-20")});  // as what, nobody said
  s.add(Listing{.machine = machine, .date = day("2026-04-28"), .sold_as = SoldAs::running});
  s.add(Sale{.machine = machine, .date = day("2026-05-01"), .sold_as = SoldAs::running});
  s.add(Return{.machine = machine, .date = day("2026-05-10")});
  s.add(Sale{.machine = machine, .date = day("2026-06-01"), .sold_as = SoldAs::running});
  const auto own = sales_of(s);
  ASSERT_EQ(own.size(), 2U);
  EXPECT_EQ(own[0].date, day("2026-05-01"));
  EXPECT_EQ(own[0].listed, day("2026-04-20"));
  EXPECT_EQ(own[1].listed, std::nullopt);  // it was not listed again
}

TEST(OwnSales, OfMachinesSoldAsIsKnowTheirSymptom) {
  BareShop s;
  const MachineId faulty = sold(s, 2'000, SoldAs::as_is);
  s.fault(faulty, "no-start", "jet", "2026-03-09");
  s.fault(faulty, "Surges", "", "2026-03-10", FaultEnd::given_up);
  const MachineId untouched = sold(s, 1'500, SoldAs::as_is);
  Machine told = *s.shop.find(untouched);
  told.symptom = "won't pop";
  s.shop.all<Machine>().replace(told);
  const auto own = sales_of(s);
  EXPECT_EQ(own[0].symptom, "surges");
  EXPECT_EQ(own[1].symptom, "no-start");
}

TEST(OwnSales, DrawTheKnowledgesPriceTowardsTheirs) {
  BareShop s;
  const Knowledge k = small_knowledge();
  EXPECT_EQ(running_price({}, k.kinds[0], kDollars).median, 100);
  for (int i = 0; i < 5; ++i)
    sold(s, 16'000);
  sold(s, 2'000, SoldAs::as_is);
  // Five own sales against five believed: half way, as a ratio.
  EXPECT_NEAR(running_price(sales_of(s), k.kinds[0], kDollars).median, std::sqrt(100.0 * 160), 1e-9);
}

TEST(OwnSales, CountNoAsIsSaleTwice) {
  const Knowledge k = small_knowledge();
  const OwnSale with{.as = SoldAs::as_is, .symptom = "no-start", .price = 40};
  const OwnSale without{.as = SoldAs::as_is, .symptom = "surges", .price = 40};
  const std::vector<OwnSale> five(5, with), other(5, without);
  const double half_way = std::sqrt(10.0 * 40);
  EXPECT_NEAR(as_is_price(five, k.kinds[0], "no-start", kDollars).median, half_way, 1e-9);
  EXPECT_NEAR(as_is_price(five, k.kinds[0], "surges", kDollars).median, half_way, 1e-9);
  std::vector<OwnSale> all = five;
  all.insert(all.end(), other.begin(), other.end());
  EXPECT_NEAR(as_is_price(all, k.kinds[0], "no-start", kDollars).median, std::sqrt(half_way * 40), 1e-9);
  EXPECT_NEAR(as_is_price(all, k.kinds[0], "", kDollars).median,
              std::exp((5 * std::log(10) + 10 * std::log(40)) / 15), 1e-9);
}

TEST(OwnSales, TellWhatShareSellingTakes) {
  EXPECT_EQ(deducted_share({}, SoldAs::running), 0);
  const std::vector<OwnSale> own{{.price = 100, .deducted = 5},
                                 {.price = 300, .deducted = 35},
                                 {.as = SoldAs::as_is, .price = 10, .deducted = 10}};
  EXPECT_DOUBLE_EQ(deducted_share(own, SoldAs::running), 0.1);
  EXPECT_DOUBLE_EQ(deducted_share(own, SoldAs::as_is), 1);
}

TEST(Comebacks, AreCountedOnceTheirTimeIsOver) {
  BareShop s;
  const MachineId brought_back = sold(s, 9'000);
  s.add(Return{.machine = brought_back, .date = day("2026-05-20"), .refunded = cents(9'000)});
  const MachineId worked_on = sold(s, 9'000);
  s.add(Labour{.machine = worked_on, .date = day("2026-05-31"), .minutes = {30}, .work = Work::comeback});
  const MachineId too_late = sold(s, 9'000);
  s.add(Allowance{.machine = too_late, .date = day("2026-06-01"), .amount = cents(1'000)});
  sold(s, 9'000);
  sold(s, 9'000, SoldAs::as_is);
  // 2 in 20 believed; 2 of 4 seen.
  EXPECT_EQ(comeback_chance(sales_of(s, "2026-06-01"), {2, 18}), (Beta{4, 20}));
  // On the thirtieth day none of them is over, not even those that came back.
  EXPECT_EQ(comeback_chance(sales_of(s, "2026-05-31"), {2, 18}), (Beta{2, 18}));
}

TEST(Comebacks, BelongToTheSaleBeforeThem) {
  BareShop s;
  const MachineId m = sold(s, 9'000);
  s.add(Return{.machine = m, .date = day("2026-05-05"), .refunded = cents(9'000)});
  s.add(Sale{.machine = m, .date = day("2026-05-10"), .price = cents(8'000), .sold_as = SoldAs::running});
  auto own = sales_of(s);
  EXPECT_TRUE(own[0].came_back);
  EXPECT_FALSE(own[1].came_back);
  s.add(Allowance{.machine = m, .date = day("2026-05-12"), .amount = cents(500)});
  EXPECT_TRUE(sales_of(s)[1].came_back);
}

TEST(Comebacks, HaveAsLongAsTheWarrantyIfThatIsLonger) {
  BareShop s;
  const MachineId m = s.machine();
  s.add(Sale{.machine = m,
             .date = day("2026-05-01"),
             .price = cents(100),
             .sold_as = SoldAs::running,
             .warranty_days = 90});
  s.add(Allowance{.machine = m, .date = day("2026-07-01"), .amount = cents(500)});
  EXPECT_TRUE(sales_of(s)[0].came_back);
  EXPECT_FALSE(sales_of(s, "2026-07-20")[0].over);
}

TEST(Revived, IsTheSaleOfItsKindWithTheHoursOfAComeback) {
  const Knowledge k = small_knowledge();
  const std::vector<OwnSale> own{{.price = 100, .deducted = 5}};
  const diagnosis::Revived sale =
      revived(own, k.kinds[0], k, {.days = 9, .comeback_cost = 12, .known_work = {{3, 20}}}, kDollars);
  EXPECT_EQ(sale.price, 100);
  EXPECT_NEAR(sale.spread, std::sqrt(5.0 / 6) * price_belief({50, 100, 200}).spread, 1e-12);
  EXPECT_EQ(sale.fee_rate, 0.05);
  EXPECT_NEAR(sale.hours, (60 + 0.1 * 60) / 60, 1e-12);
  EXPECT_EQ(sale.days, 9);
  EXPECT_EQ(sale.comeback_chance, 0.1);
  EXPECT_EQ(sale.comeback_cost, 12);
  ASSERT_EQ(sale.known_work.size(), 1u);
  const auto better = revived(own, k.kinds[0], k, {.price = PriceBelief{150.126, 0.2}}, kDollars);
  EXPECT_EQ(better.price, 150.13);
  EXPECT_EQ(better.spread, 0.2);
}

}  // namespace
}  // namespace secondpull::learning
