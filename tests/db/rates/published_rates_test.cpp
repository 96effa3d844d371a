#include "db/rates/published_rates.h"

#include <gtest/gtest.h>

namespace secondpull::db {
namespace {

Date day(const char* iso) {
  return *parse_date(iso, "date");
}
Trip trip(const char* on, std::int64_t miles) {
  Trip trip;
  trip.date = day(on);
  trip.miles = Tenths{miles * 10};
  return trip;
}

// IRS standard mileage rates (2022: 58.5 cents to 30 June, 62.5 from 1 July; 2026: 76 from 1 July), second
// hand.
TEST(PublishedRates, FollowTheDateOfTheTripWhereARateChangesWithinAYear) {
  EXPECT_EQ(published_mileage_rates().cost(trip("2022-06-30", 100)), Money::from_minor(5850));
  EXPECT_EQ(published_mileage_rates().cost(trip("2022-07-01", 100)), Money::from_minor(6250));
  EXPECT_EQ(published_mileage_rates().cost(trip("2026-09-10", 1000)), Money::from_minor(76000));
}

TEST(PublishedRates, RefuseADayWithoutARate) {
  EXPECT_FALSE(published_mileage_rates().cost(trip("2017-12-31", 10)));
}

TEST(PublishedRates, NameTheirSource) {
  for (const MileageRate& rate : published_mileage_rates().rates())
    EXPECT_FALSE(rate.source.empty());
}

}  // namespace
}  // namespace secondpull::db
