#include "core/lessons/hour_worth.h"

#include <gmock/gmock.h>

#include "tests/core/lessons/lesson_shop.h"

namespace secondpull::lessons {
namespace {

using test::books_of;
using test::cents;
using test::day;
using test::LessonShop;

TEST(HourWorth, IsWhatTheQueueSaysWhatWasPaidAndWhatIsLeftAfterTheShopsOwnHours) {
  LessonShop s;
  s.earned(6'000, 120);
  s.earned(3'000, 60);
  s.add(Labour{.date = day("2026-03-02"), .minutes = {90}, .work = Work::other});
  s.shop.settings.hour_value = cents(1'500);
  const HourWorth worth = hour_worth(books_of(s), {18, planning::HourValue::From::computed});
  EXPECT_EQ(worth.ahead.value, 18);
  EXPECT_EQ(worth.said, cents(1'500));
  EXPECT_EQ(worth.so_far.pay_per_hour, cents(3'000));
  EXPECT_EQ(worth.shop_in_general, Minutes{90});
  EXPECT_EQ(worth.with_the_shop, cents(2'000));  // 90 over 4 h 30 min
}

TEST(HourWorth, OfAnEmptyShopIsNothing) {
  const HourWorth worth = hour_worth(books_of({}), {});
  EXPECT_EQ(worth.so_far.machines, 0U);
  EXPECT_EQ(worth.with_the_shop, std::nullopt);
}

}  // namespace
}  // namespace secondpull::lessons
