#include "core/books/year_papers.h"

#include <gmock/gmock.h>

#include "core/books/schedule.h"
#include "tests/core/books/shop_builder.h"
#include "tests/core/books/worked_month.h"

namespace secondpull::test {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

TEST(MileageLogOfAYear, NamesWhatARecordLacksAndAddsUpTheMiles) {
  ShopBuilder build;
  const MachineId machine = build.bought("7", day("2026-01-02"), money("10.00"));
  build.add(Trip{.date = day("2026-03-05"), .miles = {105}, .purpose = "parts", .destination = "Corrow"});
  build.add(Trip{.date = day("2026-03-01"), .miles = {20}, .purpose = "deliver", .machine = machine});
  build.add(Trip{.date = day("2025-03-01"), .miles = {99}, .purpose = "last year"});
  const MileageLog log = mileage_log(build.shop(), WorkedMonth::rates(), 2026);
  ASSERT_EQ(log.trips.size(), 2u);
  EXPECT_EQ(log.trips[0].about, "#7") << "by day";
  EXPECT_EQ(log.trips[0].missing, "destination");
  EXPECT_EQ(log.trips[0].cost, money("1.45"));
  EXPECT_EQ(log.trips[1].missing, "");
  EXPECT_EQ(log.miles, Tenths{125});
  EXPECT_EQ(log.cost, money("9.06")) << "rounded trip by trip: 1.45 and 7.61, from 7.6125";
  EXPECT_EQ(log.incomplete, 1u);
}

TEST(MileageLogOfAYear, HasNoCostWithoutARateAndOutsideTheUs) {
  ShopBuilder build;
  build.add(Trip{.date = day("2011-03-05"), .miles = {105}, .purpose = "parts"});
  EXPECT_FALSE(mileage_log(build.shop(), WorkedMonth::rates(), 2011).trips.front().cost);
  build.shop().settings.currency = *currency_of("EUR");
  build.add(Trip{.date = day("2026-03-05"), .miles = {105}, .purpose = "parts"});
  EXPECT_FALSE(mileage_log(build.shop(), WorkedMonth::rates(), 2026).trips.front().cost);
}

TEST(MoneyReceived, StandsByWayOfPaymentWithItsSalesTaxAndBeforeFeesAndRefunds) {
  ShopBuilder build;
  const MachineId one = build.bought("1", day("2026-01-02"), money("10.00"));
  build.add(Sale{.machine = one,
                 .date = day("2026-02-01"),
                 .price = money("100.00"),
                 .sales_tax = money("6.00"),
                 .fee = money("3.00"),
                 .payment = "card"});
  build.take_back(one, day("2026-02-05"), money("100.00"));
  build.add(Sale{.machine = one, .date = day("2026-03-01"), .price = money("80.00"), .payment = "card"});
  const PartId plug = build.part("plug");
  build.bought_parts(plug, day("2026-01-03"), 1, money("3.00"));
  build.add(PartSale{.date = day("2026-04-01"), .part = plug, .price = money("5.00")});
  const auto ways = received_by_payment(build.shop(), 2026);
  ASSERT_EQ(ways.size(), 2u);
  EXPECT_EQ(ways[0].payment, "");
  EXPECT_EQ(ways[0].total(), money("5.00"));
  EXPECT_EQ(ways[1].payment, "card");
  EXPECT_EQ(ways[1].sales, 2);
  EXPECT_EQ(ways[1].total(), money("186.00"));
  EXPECT_THAT(received_by_payment(build.shop(), 2025), IsEmpty());
}

TEST(SalesTaxOfAYear, RunsOnFromYearToYearByPlace) {
  ShopBuilder build;
  const MachineId one = build.bought("1", day("2025-01-02"), money("10.00"));
  build.add(Sale{.machine = one,
                 .date = day("2025-12-01"),
                 .price = money("100.00"),
                 .sales_tax = money("6.00"),
                 .place = "Corrow"});
  build.add(TaxPaid{.date = day("2026-01-20"), .place = "Corrow", .amount = money("5.00")});
  const auto places = build.books().sales_tax(2026);
  ASSERT_EQ(places.size(), 1u);
  EXPECT_EQ(places[0].owed_before, money("6.00"));
  EXPECT_EQ(places[0].collected, Money{});
  EXPECT_EQ(places[0].handed_on, money("5.00"));
  EXPECT_EQ(places[0].owed, money("1.00"));
}

TEST(TiedUpMoney, LiesInMachinesHulksAndPartsTheLongestFirst) {
  ShopBuilder build;
  build.bought("1", day("2026-02-01"), money("40.00"));
  const MachineId donor = build.bought("2", day("2026-01-10"), money("12.00"));
  const PartId blade = build.part("blade");
  build.add(Harvest{.donor = donor, .date = day("2026-03-01"), .part = blade, .value = money("1.00")});
  build.add(Disposal{.machine = donor,
                     .date = day("2026-03-01"),
                     .how = DisposalKind::parted_out,
                     .hulk_value = money("1.00"),
                     .hulk_here = true});
  build.sell(build.bought("3", day("2026-01-01"), money("9.00")), day("2026-01-05"), money("20.00"));
  const auto lies = tied_up(build.books(), day("2026-03-11"));
  ASSERT_EQ(lies.size(), 3u);
  EXPECT_EQ(lies[0].machine, donor) << "its hulk";
  EXPECT_EQ(lies[0].amount, money("6.00"));
  EXPECT_EQ(lies[0].days, 60);
  EXPECT_EQ(lies[1].days, 38);
  EXPECT_EQ(lies[2].parts->part, blade);
  EXPECT_EQ(lies[2].amount, money("6.00"));
}

/// A form of three lines.
FormLines small_form() {
  FormOfYears form{.from = 2025, .to = 2025, .source = "a form", .sure = "made up", .lines = {}};
  form.lines = {{"1", "Receipts", "gross_receipts", "I", {}},
                {"9", "Car", "car_and_truck", "II", {"car and truck"}},
                {"20b", "Rent", "rent", "II", {"rent"}},
                {"28", "All", "total_expenses", "II", {}},
                {"48", "Other", "other_total", "V", {}}};
  return FormLines{{form}};
}

TEST(ScheduleOfAYear, PutsEachCategoryOnOneLineWhateverItsCapitalsAndTheRestIntoThePartOfOthers) {
  YearFigures year{.year = 2025};
  year.car_and_truck = money("7.00");
  year.expenses = {{"RENT", money("10.00")},
                   {"rent", money("5.00")},
                   {"car and truck", money("2.00")},
                   {"gross_receipts", money("1.00")}};
  const Schedule schedule = schedule_c(year, small_form());
  ASSERT_EQ(schedule.parts.size(), 5u);
  const auto& costs = schedule.parts[1].lines;
  EXPECT_EQ(costs[0].amount, money("9.00"));
  EXPECT_EQ(costs[1].amount, money("15.00"));
  EXPECT_THAT(costs[1].names, ElementsAre("RENT", "rent"));
  EXPECT_EQ(costs[2].amount, money("25.00"));
  const auto& others = schedule.parts[4].lines;
  ASSERT_EQ(others.size(), 2u);
  EXPECT_EQ(others[0].what, "gross_receipts");
  EXPECT_EQ(others[1].amount, money("1.00"));
  EXPECT_EQ(schedule.sure, "made up");
}

TEST(ScheduleOfAYear, SaysWhenItsLineNumbersAreAnotherYears) {
  const Schedule schedule = schedule_c(YearFigures{.year = 2027}, small_form());
  EXPECT_THAT(schedule.sure, testing::HasSubstr("used for 2027"));
}

}  // namespace
}  // namespace secondpull::test
