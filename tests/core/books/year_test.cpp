#include "core/books/year.h"

#include <numeric>

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "tests/core/books/random_shop.h"
#include "tests/core/books/worked_month.h"

namespace secondpull::test {
namespace {

using testing::HasSubstr;

const SelfEmploymentRates kRates{{{2026, WageBase{money("184500"), "IRS Schedule SE", "second hand"}}}};

YearFigures year_of(const Books& books, int year) {
  auto figures = books.year(year, kRates);
  if (!figures) throw std::runtime_error(figures.error().sentence);
  return *std::move(figures);
}

std::int64_t total(const YearWhy& why) {
  return std::accumulate(why.details.begin(), why.details.end(), std::int64_t{0},
                         [](std::int64_t sum, const YearDetail& one) { return sum + one.size; });
}

// A shop may sell where no place is named, and where one is.
TEST(Year, ExplainsTheSalesTaxOfNoPlaceByItself) {
  ShopBuilder build;
  const Date sold = day("2026-03-02");
  for (const char* place : {"", "Quell"})
    build.add(Sale{.machine = build.bought(std::string{"at "} + place, sold, {}),
                   .date = sold,
                   .price = money("100.00"),
                   .sales_tax = money(place[0] == 0 ? "5.00" : "7.00"),
                   .place = place});
  const Books books = build.books();
  for (const YearLine line : {YearLine::sales_tax_collected, YearLine::sales_tax_owed}) {
    EXPECT_EQ(books.why(2026, line, "", kRates)->size, 500);
    EXPECT_EQ(total(*books.why(2026, line, "", kRates)), 500);
    EXPECT_EQ(books.why(2026, line, "Quell", kRates)->size, 700);
  }
}

TEST(Year, OfTheWorkedMonthIsAsTheMoneyModelSays) {
  const WorkedMonth month{true, true};
  const YearFigures year = year_of(month.books(), 2026);
  EXPECT_EQ(year.gross_receipts, money("189.20"));
  EXPECT_EQ(year.purchases, money("125.43"));
  EXPECT_EQ(year.closing_inventory, money("33.33"));
  EXPECT_EQ(year.cost_of_goods_sold, money("92.10"));
  EXPECT_EQ(year.gross_profit, money("97.10"));
  EXPECT_EQ(year.car_and_truck, money("20.30"));
  EXPECT_EQ(year.net_profit, money("72.17"));
  EXPECT_EQ(year.moved.left, money("92.10")) << "90.43 sold and the hulk's 1.67";
  EXPECT_EQ(year.machines_sold, 1);
  EXPECT_EQ(year.minutes, Minutes{200});
}

TEST(Year, IsNoneOfTheBooksForWhatWasOnlySeen) {
  ShopBuilder build;
  build.bought("1", day("2026-03-02"), {});
  const FindId find = build.add(Find{.date = day("2025-03-02"), .asking = money("40.00")});
  build.add(FindAnswer{.find = find, .date = day("2027-01-01"), .test = "turns", .outcome = "yes"});
  EXPECT_EQ(build.books().years(), (std::pair{2026, 2026}));
}

TEST(Year, AfterTheLastOneHasItsStockAndNothingElse) {
  const Books books = WorkedMonth{true, true}.books();
  const YearFigures year = year_of(books, 2027);
  EXPECT_EQ(year.opening_inventory, money("33.33"));
  EXPECT_EQ(year.closing_inventory, money("33.33"));
  EXPECT_EQ(year.net_profit, Money{});
  EXPECT_EQ(year_of(books, 2025).closing_inventory, Money{});
}

TEST(Year, OpensWithTheLinesMarkedOpeningWhichAreNoPurchases) {
  ShopBuilder build;
  build.machine("1", build.add(Acquisition{.date = day("2026-01-02"),
                                           .price = money("40.00"),
                                           .pickup_cost = money("5.00"),
                                           .opening = true}));
  const PartId plug = build.part("plug");
  const OrderId order = build.add(Order{
      .date = day("2026-01-02"), .arrived = day("2026-01-02"), .freight = money("1.00"), .opening = true});
  build.add(OrderLine{.order = order, .part = plug, .quantity = 3, .price = money("3.00")});
  const YearFigures year = year_of(build.books(), 2026);
  EXPECT_EQ(year.opening_inventory, money("55.00"));
  EXPECT_EQ(year.purchases, Money{});
  EXPECT_EQ(year.closing_inventory, money("55.00"));
  EXPECT_TRUE(year.off().is_zero());
}

TEST(Year, CountsAnOrderOnTheDayItArrives) {
  ShopBuilder build;
  const PartId plug = build.part("plug");
  const OrderId order = build.add(Order{.date = day("2025-12-28"), .arrived = day("2026-01-03")});
  build.add(OrderLine{.order = order, .part = plug, .price = money("3.00")});
  const Books books = build.books();
  EXPECT_EQ(year_of(books, 2025).purchases, Money{});
  EXPECT_EQ(year_of(books, 2025).closing_inventory, Money{});
  EXPECT_EQ(year_of(books, 2026).purchases, money("3.00"));
}

TEST(Year, HasHarvestedPartsInStockFromThePartingOnThoughTheirLineIsLater) {
  ShopBuilder build;
  const MachineId donor = build.bought("1", day("2025-12-01"), money("10.00"));
  const PartId blade = build.part("blade");
  build.add(Harvest{.donor = donor, .date = day("2026-01-10"), .part = blade, .value = money("1.00")});
  build.add(Disposal{.machine = donor, .date = day("2025-12-20"), .how = DisposalKind::parted_out});
  const YearFigures year = year_of(build.books(), 2025);
  EXPECT_EQ(year.closing_inventory, money("10.00"));
  EXPECT_TRUE(year.off().is_zero());
}

TEST(Year, TakesAKeptMachineAndWhatIsSpentOnItLaterOutOfThePurchases) {
  ShopBuilder build;
  const MachineId kept = build.bought("1", day("2026-02-01"), money("30.00"));
  build.add(Disposal{.machine = kept, .date = day("2026-03-01"), .how = DisposalKind::kept});
  build.add(Material{.machine = kept, .date = day("2026-04-01"), .what = "oil", .cost = money("6.00")});
  const YearFigures year = year_of(build.books(), 2026);
  EXPECT_EQ(year.withdrawals, money("36.00"));
  EXPECT_EQ(year.materials, money("6.00"));
  EXPECT_EQ(year.cost_of_goods_sold, Money{});
}

TEST(Year, OfARefundIsTheOneInWhichItWasPaid) {
  ShopBuilder build;
  const MachineId machine = build.bought("1", day("2025-05-01"), money("20.00"));
  build.add(Sale{.machine = machine,
                 .date = day("2025-12-20"),
                 .price = money("100.00"),
                 .sales_tax = money("6.00"),
                 .place = "Corrow"});
  build.take_back(machine, day("2026-01-05"), money("50.00"));
  const Books books = build.books();
  const YearFigures sold = year_of(books, 2025);
  EXPECT_EQ(sold.returns, Money{});
  EXPECT_EQ(sold.cost_of_goods_sold, money("20.00"));
  EXPECT_EQ(sold.sales_tax_owed, (ByName{{"Corrow", money("6.00")}}));
  const YearFigures back = year_of(books, 2026);
  EXPECT_EQ(back.returns, money("50.00"));
  EXPECT_EQ(back.cost_of_goods_sold, money("-20.00"));
  EXPECT_EQ(back.moved.came_back, money("20.00"));
  EXPECT_EQ(back.machines_sold, -1);
  EXPECT_EQ(back.sales_tax_collected, (ByName{{"Corrow", money("-3.00")}}));
  EXPECT_EQ(back.sales_tax_owed, (ByName{{"Corrow", money("3.00")}}));
}

TEST(Year, KeepsExpensesOfTheCategoryCarAndTruckApartFromTheTrips) {
  ShopBuilder build;
  build.add(Expense{.date = day("2026-02-01"), .category = "car and truck", .amount = money("12.00")});
  build.add(Trip{.date = day("2026-02-01"), .miles = {100}, .purpose = "parts"});
  const YearFigures year = year_of(build.books(WorkedMonth::rates()), 2026);
  EXPECT_EQ(year.expenses, (ByName{{"car and truck", money("12.00")}}));
  EXPECT_EQ(year.car_and_truck, money("7.25"));
  EXPECT_EQ(year.net_profit, money("-19.25"));
}

TEST(Year, GivesNoSelfEmploymentTaxWithoutAKnownBaseOrOutsideTheUs) {
  ShopBuilder build;
  EXPECT_EQ(year_of(build.books(), 2026).self_employment_tax, Money{});
  EXPECT_FALSE(year_of(build.books(), 2019).self_employment_tax);
  build.shop().settings.currency = *currency_of("JPY");
  EXPECT_FALSE(year_of(build.books(), 2026).self_employment_tax);
}

TEST(Year, IsRefusedForATripWithoutARateAndNoOtherYearIs) {
  ShopBuilder build;
  build.bought("1", day("2025-02-01"), money("30.00"));
  build.add(Trip{.date = day("2027-02-03"), .miles = {100}, .purpose = "parts"});
  const auto shop = std::make_shared<const Shop>(build.shop());
  const auto books = Books::without_unrated_trips(shop, WorkedMonth::rates());
  ASSERT_TRUE(books);
  EXPECT_EQ(year_of(*books, 2025).purchases, money("30.00"));
  const auto refused = books->year(2027, kRates);
  ASSERT_FALSE(refused);
  EXPECT_THAT(refused.error().sentence, HasSubstr("2027-02-03"));
  EXPECT_FALSE(books->months(2027));
  EXPECT_FALSE(Books::of(shop, WorkedMonth::rates()));
}

RC_GTEST_PROP(YearProperties, StockAndMovementsGiveTheSameCostOfGoods, ()) {
  const RandomShop shop;
  const Books books = shop.books();
  for (int year = 2024; year <= 2027; ++year)
    RC_ASSERT(year_of(books, year).off().is_zero());
}

/// What the events marked as opening put in stock.
Money brought_along(const Books& books) {
  Money stock;
  for (const Transaction& transaction : books.transactions()) {
    const auto* const in = std::get_if<AcquisitionId>(&transaction.event);
    const auto* const order = std::get_if<OrderId>(&transaction.event);
    const bool opening = (in != nullptr && books.shop().find(*in)->opening) ||
                         (order != nullptr && books.shop().find(*order)->opening);
    for (const Posting& posting : transaction.postings)
      if (opening &&
          (posting.account.kind == AccountKind::machines || posting.account.kind == AccountKind::parts))
        stock += posting.amount;
  }
  return stock;
}

RC_GTEST_PROP(YearProperties, EachOpensWithTheStockThatTheOneBeforeClosedWith, ()) {
  const RandomShop shop;
  const Books books = shop.books();
  RC_ASSERT(year_of(books, 2025).opening_inventory == brought_along(books));
  for (int year = 2026; year <= 2027; ++year)
    RC_ASSERT(year_of(books, year).opening_inventory == year_of(books, year - 1).closing_inventory);
}

RC_GTEST_PROP(YearProperties, TheStockAtTheEndIsWhatTheBooksSayIsThere, ()) {
  const RandomShop shop;
  const Books books = shop.books();
  const auto span = books.years();
  Money posted;
  for (const Transaction& transaction : books.transactions())
    for (const Posting& posting : transaction.postings)
      if (posting.account.kind == AccountKind::machines || posting.account.kind == AccountKind::parts)
        posted += posting.amount;
  RC_ASSERT(year_of(books, span->second).closing_inventory == posted);
}

RC_GTEST_PROP(YearProperties, TheMonthsAddUpToTheYear, ()) {
  const RandomShop shop;
  const Books books = shop.books();
  for (int number = 2025; number <= 2026; ++number) {
    const YearFigures year = year_of(books, number);
    MonthFigures sum;
    const auto months = books.months(number);
    for (const MonthFigures& month : *months) {
      sum.receipts += month.receipts;
      sum.cost_of_goods += month.cost_of_goods;
      sum.expenses += month.expenses;
      sum.net_profit += month.net_profit;
      sum.machines_sold += month.machines_sold;
      sum.minutes += month.minutes;
    }
    RC_ASSERT(sum.receipts == year.gross_receipts - year.returns);
    RC_ASSERT(sum.cost_of_goods == year.cost_of_goods_sold);
    RC_ASSERT(sum.expenses == year.all_expenses() + year.car_and_truck);
    RC_ASSERT(sum.net_profit == year.net_profit);
    RC_ASSERT(sum.machines_sold == year.machines_sold);
    RC_ASSERT(sum.minutes == year.minutes);
  }
}

RC_GTEST_PROP(YearProperties, EveryFigureIsTheSumOfWhatItsWhyNames, ()) {
  const RandomShop shop;
  const Books books = shop.books();
  for (int number = 2025; number <= 2026; ++number)
    for (const YearSize& figure : sizes(year_of(books, number))) {
      const auto why = books.why(number, figure.line, figure.name, kRates);
      RC_ASSERT(why.has_value());
      RC_ASSERT(why->size == figure.size);
      if (why->adds_up) RC_ASSERT(total(*why) == figure.size);
    }
}

}  // namespace
}  // namespace secondpull::test
