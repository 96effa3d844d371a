#include <gmock/gmock.h>

#include "core/calendar/date.h"
#include "core/money/money.h"

namespace secondpull {
namespace {

using testing::ElementsAre;

std::vector<std::int64_t> apportion(std::int64_t seats, std::vector<std::int64_t> weights) {
  std::vector<std::int64_t> parts;
  for (const Money part : split(Money::from_minor(seats), weights))
    parts.push_back(part.minor());
  return parts;
}

// OpenStax, Contemporary Mathematics, sections 11.4 and 11.5: Hamilton's method of largest remainders, and
// the Alabama paradox (the third state loses a seat although the house grew).
TEST(PublishedSplitting, FollowsHamiltonsMethodIntoTheAlabamaParadox) {
  EXPECT_THAT(apportion(10, {6, 6, 2}), ElementsAre(4, 4, 2));
  EXPECT_THAT(apportion(11, {6, 6, 2}), ElementsAre(5, 5, 1));
}

// OpenStax, Contemporary Mathematics, section 11.4, without a minimum for each (recomputed).
TEST(PublishedSplitting, SharesOutAWholeHouse) {
  EXPECT_THAT(apportion(616, {46'310, 224'230, 20, 16'560, 38'450}), ElementsAre(88, 424, 0, 31, 73));
}

// Common practice, no source: a dollar in three equal shares.
TEST(PublishedSplitting, PartsADollarInThree) {
  EXPECT_THAT(apportion(100, {1, 1, 1}), ElementsAre(34, 33, 33));
}

// ISO 4217, list one: minor units.
TEST(PublishedCurrencies, HaveTheirMinorUnits) {
  EXPECT_EQ(currency_of("USD")->digits, 2);
  EXPECT_EQ(currency_of("JPY")->digits, 0);
  EXPECT_EQ(currency_of("KWD")->digits, 3);
  // From memory of the same list.
  EXPECT_EQ(currency_of("EUR")->digits, 2);
  EXPECT_EQ(currency_of("TND")->digits, 3);
  EXPECT_EQ(currency_of("KRW")->digits, 0);
  EXPECT_EQ(currency_of("CLF")->digits, 4);
  EXPECT_EQ(currency_of("UYW")->digits, 4);
}

TEST(PublishedCurrencies, AreKnownByTheirLettersAlone) {
  for (const char* code : {"", "usd", "US", "USDX", "XXX", "XTS", "XAU", "DOL"}) {
    const auto currency = currency_of(code);
    ASSERT_FALSE(currency) << code;
    EXPECT_EQ(currency.error().field, "currency");
    EXPECT_EQ(currency.error().value, code);
  }
  EXPECT_GT(currencies().size(), 150u);
  for (const Currency& currency : currencies())
    EXPECT_EQ(currency_of(currency.code), currency);
}

// The Gregorian calendar: a century is a leap year only if 400 divides it (inter gravissimas, 1582: from
// memory).
TEST(PublishedDates, KeepTheLeapYearsOfTheGregorianCalendar) {
  EXPECT_TRUE(parse_date("2000-02-29", "date"));
  EXPECT_FALSE(parse_date("1900-02-29", "date"));
  EXPECT_FALSE(parse_date("2001-02-29", "date"));
  EXPECT_FALSE(parse_date("2000-13-01", "date"));
}

}  // namespace
}  // namespace secondpull
