// Figures of the tax year of the United States that were published elsewhere.

#include <algorithm>

#include <gmock/gmock.h>

#include "core/books/schedule.h"
#include "core/books/year_papers.h"
#include "db/rates/published_rates.h"
#include "tests/core/books/shop_builder.h"

namespace secondpull {
namespace {

using test::day;
using test::money;
using testing::HasSubstr;

Trip trip(const char* on, std::int64_t miles) {
  return {.date = day(on), .miles = {miles * 10}, .purpose = "fetch", .destination = "Quell"};
}

YearFigures figures_of(const test::ShopBuilder& shop, int year) {
  return shop.books(db::published_mileage_rates()).year(year, db::published_self_employment_rates()).value();
}

// Standard mileage rates, cents a mile, by the date of the trip: 2018 54.5; 2019 58; 2020 57.5; 2021 56; 2022
// 58.5 to June 30 and 62.5 from July 1; 2023 65.5; 2024 67; 2025 70; 2026 72.5 to June 30 (IRS Notice
// 2026-10) and 76 from July 1 (IRS Announcement 2026-11); all second hand.
TEST(PublishedTaxYear, HasTheMileageRateOfEachDay) {
  const std::pair<const char*, const char*> kAHundredMiles[] = {
      {"2018-01-01", "54.50"}, {"2018-12-31", "54.50"}, {"2019-01-01", "58.00"}, {"2019-12-31", "58.00"},
      {"2020-01-01", "57.50"}, {"2020-12-31", "57.50"}, {"2021-01-01", "56.00"}, {"2021-12-31", "56.00"},
      {"2022-01-01", "58.50"}, {"2022-06-30", "58.50"}, {"2022-07-01", "62.50"}, {"2022-12-31", "62.50"},
      {"2023-01-01", "65.50"}, {"2023-12-31", "65.50"}, {"2024-01-01", "67.00"}, {"2024-12-31", "67.00"},
      {"2025-01-01", "70.00"}, {"2025-12-31", "70.00"}, {"2026-01-01", "72.50"}, {"2026-06-30", "72.50"},
      {"2026-07-01", "76.00"}, {"2026-12-31", "76.00"}};
  for (const auto& [on, cost] : kAHundredMiles)
    EXPECT_EQ(db::published_mileage_rates().cost(trip(on, 100)), money(cost)) << on;
}

// 100 miles on 2022-06-30 and 100 on 2022-07-01: 121.00. 1,000 miles on 2026-09-10: 760.00. The rates above.
TEST(PublishedTaxYear, CountsTripsByTheRateOfTheirDay) {
  test::ShopBuilder shop;
  shop.add(trip("2022-06-30", 100));
  shop.add(trip("2022-07-01", 100));
  shop.add(trip("2026-09-10", 1000));
  EXPECT_EQ(figures_of(shop, 2022).car_and_truck, money("121.00"));
  EXPECT_EQ(figures_of(shop, 2026).car_and_truck, money("760.00"));
}

// The rate from July 2026 is to be confirmed at the source, and the table has to say so.
TEST(PublishedTaxYear, SaysWhichMileageRateIsToBeConfirmed) {
  const auto& rates = db::published_mileage_rates().rates();
  const auto from_july = std::find_if(rates.begin(), rates.end(),
                                      [](const MileageRate& rate) { return rate.from == day("2026-07-01"); });
  ASSERT_NE(from_july, rates.end());
  EXPECT_THAT(from_july->source, HasSubstr("confirm"));
}

// A date without a published rate is refused, never guessed.
TEST(PublishedTaxYear, RefusesATripOnADayWithoutARate) {
  for (const char* on : {"2017-12-31", "2027-01-01"}) {
    test::ShopBuilder shop;
    shop.add(trip(on, 10));
    const auto books = shop.try_books(db::published_mileage_rates());
    ASSERT_FALSE(books) << on;
    EXPECT_THAT(books.error().sentence, HasSubstr(on));
    EXPECT_EQ(books.error().value, on);
  }
}

std::optional<Money> self_employment_tax(const char* profit, int year) {
  return db::published_self_employment_rates().tax(money(profit), year);
}

// IRS Schedule SE: net x 0.9235; 12.4 % up to the wage base and 2.9 % on all; recomputed in decimals (binary
// floating point gives 7,064.77 for the first). The second is over the base: 22,878.00 + 5,356.30.
TEST(PublishedTaxYear, HasTheSelfEmploymentTaxOfAProfit) {
  EXPECT_EQ(self_employment_tax("50000", 2025), money("7064.78"));
  EXPECT_EQ(self_employment_tax("200000", 2026), money("28234.30"));
}

// IRS Schedule SE: nothing if net x 0.9235 is under 400, tested before rounding: 399.9956 and 400.0048.
TEST(PublishedTaxYear, TaxesSelfEmploymentFromFourHundredOn) {
  EXPECT_EQ(self_employment_tax("433.13", 2025), Money{});
  EXPECT_EQ(self_employment_tax("433.14", 2025), money("61.20"));  // 400.0048 x 15.3 %, recomputed
  EXPECT_EQ(self_employment_tax("0", 2025), Money{});
  EXPECT_EQ(self_employment_tax("-5000", 2025), Money{}) << "a loss";
}

// Wage bases (second hand): 2022 147,000; 2023 160,200; 2024 168,600; 2025 176,100; 2026 184,500.
TEST(PublishedTaxYear, HasTheWageBaseOfEachYear) {
  const std::pair<int, const char*> kBases[] = {
      {2022, "147000"}, {2023, "160200"}, {2024, "168600"}, {2025, "176100"}, {2026, "184500"}};
  for (const auto& [year, amount] : kBases) {
    const WageBase* const base = db::published_self_employment_rates().base(year);
    ASSERT_NE(base, nullptr) << year;
    EXPECT_EQ(base->amount, money(amount)) << year;
    EXPECT_FALSE(base->source.empty()) << year;
    EXPECT_FALSE(base->sure.empty()) << year;
  }
  EXPECT_EQ(self_employment_tax("50000", 2027), std::nullopt) << "a year without a known base";
}

/// The number of the line with that key.
std::string number_of(int year, std::string_view key) {
  for (const FormLine& line : db::published_form_lines().of(year)->lines)
    if (line.key == key) return line.number;
  return "none";
}

/// The number of the line that a category of expense stands on.
std::string number_for(int year, std::string_view category) {
  for (const FormLine& line : db::published_form_lines().of(year)->lines)
    if (std::find(line.categories.begin(), line.categories.end(), category) != line.categories.end())
      return line.number;
  return number_of(year, "other_expenses");
}

// Schedule C, Part II: other expenses are on 27a up to tax year 2024 and on 27b for 2025 (second hand,
// several agreeing texts).
TEST(PublishedTaxYear, PutsOtherExpensesOnTheLineOfTheYear) {
  for (int year = 2018; year <= 2024; ++year)
    EXPECT_EQ(number_of(year, "other_expenses"), "27a") << year;
  EXPECT_EQ(number_of(2025, "other_expenses"), "27b");
}

// Schedule C, Part II: 8 advertising, 9 car and truck, 10 commissions and fees, 15 insurance, 18 office, 20b
// rent, 21 repairs, 22 supplies, 23 taxes and licences, 25 utilities (second hand).
TEST(PublishedTaxYear, PutsExpensesOnTheLinesOfScheduleC) {
  const std::pair<const char*, const char*> kLines[] = {{"advertising", "8"}, {"commissions and fees", "10"},
                                                        {"insurance", "15"},  {"office", "18"},
                                                        {"rent", "20b"},      {"repairs", "21"},
                                                        {"supplies", "22"},   {"taxes and licences", "23"},
                                                        {"utilities", "25"}};
  for (const int year : {2024, 2025}) {
    for (const auto& [category, number] : kLines)
      EXPECT_EQ(number_for(year, category), number) << category;
    EXPECT_EQ(number_of(year, "car_and_truck"), "9");
  }
  EXPECT_EQ(number_for(2024, "delivery"), "27a");
  EXPECT_EQ(number_for(2025, "delivery"), "27b");
}

Money on_line(const Schedule& schedule, std::string_view number) {
  for (const SchedulePart& part : schedule.parts)
    for (const ScheduleLine& line : part.lines)
      if (line.number == number) return line.amount.value();
  throw std::runtime_error("no line " + std::string{number});
}

/// Stock in, worked on, sold and taken for own use, over two years.
test::ShopBuilder two_years() {
  test::ShopBuilder shop;
  const MachineId sold = shop.bought("1", day("2024-05-01"), money("40.00"));
  const MachineId kept = shop.bought("2", day("2024-05-02"), money("25.00"));
  shop.bought("3", day("2025-02-01"), money("61.00"));
  const PartId blade = shop.part("blade");
  shop.bought_parts(blade, day("2024-06-01"), 3, money("11.00"));
  shop.fit(sold, day("2025-03-01"), blade);
  shop.add(Material{.machine = sold, .date = day("2025-03-02"), .what = "paint", .cost = money("4.00")});
  shop.add(Finding{.machine = sold, .date = day("2025-03-02"), .step = "weld", .cost = money("12.00")});
  shop.sell(sold, day("2025-04-01"), money("150.00"));
  shop.add(Disposal{.machine = kept, .date = day("2025-04-02"), .how = DisposalKind::kept});
  return shop;
}

// Schedule C, Part III: 35 opening stock, 36 purchases less what was withdrawn for own use, 37 labour
// (nothing paid to yourself), 38 materials, 39 other, 40 sum, 41 closing stock, 42 = 40 - 41 (IRS Publication
// 334, text).
TEST(PublishedTaxYear, LaysOutTheCostOfGoodsAsPartThree) {
  const test::ShopBuilder shop = two_years();
  const Schedule form = schedule_c(figures_of(shop, 2025), db::published_form_lines());
  EXPECT_EQ(on_line(form, "35"), money("98.00"));
  EXPECT_EQ(on_line(form, "36"), money("36.00"));  // 61.00 - 25.00
  EXPECT_EQ(on_line(form, "37"), money("0.00"));
  EXPECT_EQ(on_line(form, "38"), money("4.00"));
  EXPECT_EQ(on_line(form, "39"), money("12.00"));
  EXPECT_EQ(on_line(form, "40"), money("150.00"));
  EXPECT_EQ(on_line(form, "41"), money("83.00"));  // machine 3 and two blades
  EXPECT_EQ(on_line(form, "42"), money("67.00"));  // machine 1 with its blade, paint and weld
}

// Opening stock is last year's closing stock (IRS Publication 334, text).
TEST(PublishedTaxYear, OpensWithLastYearsClosingStock) {
  const test::ShopBuilder shop = two_years();
  EXPECT_EQ(on_line(schedule_c(figures_of(shop, 2024), db::published_form_lines()), "41"), money("98.00"));
  EXPECT_EQ(on_line(schedule_c(figures_of(shop, 2025), db::published_form_lines()), "35"), money("98.00"));
}

// A mileage record holds date, destination, business purpose and miles of each trip, and the miles of the
// year (26 CFR 1.274-5T(b)(6), second hand).
TEST(PublishedTaxYear, HasTheElementsOfAMileageRecord) {
  test::ShopBuilder shop;
  Trip nowhere_said = trip("2025-02-03", 20);
  nowhere_said.destination.clear();
  Trip no_purpose = trip("2025-01-02", 30);
  no_purpose.purpose.clear();
  shop.add(nowhere_said);
  shop.add(no_purpose);
  shop.add(trip("2025-03-04", 50));
  shop.add(trip("2026-03-04", 70));

  const MileageLog log = mileage_log(shop.shop(), db::published_mileage_rates(), 2025);
  ASSERT_EQ(log.trips.size(), 3u);
  EXPECT_EQ(log.trips[0].missing, "purpose");
  EXPECT_EQ(log.trips[1].missing, "destination");
  EXPECT_EQ(log.trips[2].missing, "");
  EXPECT_EQ(log.trips[2].date, day("2025-03-04"));
  EXPECT_EQ(log.trips[2].destination, "Quell");
  EXPECT_EQ(log.trips[2].purpose, "fetch");
  EXPECT_EQ(log.trips[2].miles, Tenths{500});
  EXPECT_EQ(log.incomplete, 2u);
  EXPECT_EQ(log.miles, Tenths{1000});
  EXPECT_EQ(log.cost, money("70.00"));
}

}  // namespace
}  // namespace secondpull
