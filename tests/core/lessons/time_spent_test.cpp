#include "core/lessons/time_spent.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "tests/core/lessons/lesson_shop.h"

namespace secondpull::lessons {
namespace {

using test::books_of;
using test::cents;
using test::day;
using test::LessonShop;
using testing::ElementsAre;
using testing::Field;

TEST(TimeSpent, IsByKindOfWorkOverMachinesThatHaveGone) {
  LessonShop s;
  const MachineId sold = s.bought("2026-03-01", 0);
  s.work(sold, "2026-03-02", 50, Work::repair);
  s.work(sold, "2026-03-03", 10, Work::diagnose);
  s.work(sold, "2026-03-04", 25, Work::repair);
  s.sell(sold, "2026-03-09", 5'000);
  const MachineId here = s.bought("2026-03-01", 0);
  s.work(here, "2026-03-02", 500, Work::clean);
  s.add(Labour{.date = day("2026-03-02"), .minutes = {45}, .work = Work::other});
  const TimeSpent spent = time_spent(books_of(s));
  EXPECT_EQ(spent.machines, 1U);
  EXPECT_EQ(spent.minutes, Minutes{85});
  EXPECT_EQ(spent.shop_in_general, Minutes{45});
  ASSERT_EQ(spent.by_work.size(), 2U);
  EXPECT_EQ(spent.by_work[0].work, Work::repair);
  EXPECT_EQ(spent.by_work[0].minutes, Minutes{75});
  EXPECT_EQ(spent.by_work[0].machines, 1U);
  EXPECT_EQ(spent.by_work[1].work, Work::diagnose);
}

TEST(TimeSpent, SharesAnAcquisitionsHoursAsTheBooksDo) {
  LessonShop s;
  const AcquisitionId lot = s.add(Acquisition{.date = day("2026-03-01"), .price = cents(4'000)});
  const auto in_lot = [&](std::int64_t value) {
    return s.add(
        Machine{.tag = std::to_string(s.shop.next_id), .acquisition = lot, .value_then = cents(value)});
  };
  const MachineId sold = in_lot(3'000);
  in_lot(1'000);
  s.add(Labour{.acquisition = lot, .date = day("2026-03-01"), .minutes = {80}, .work = Work::pickup});
  s.sell(sold, "2026-03-09", 5'000);
  const TimeSpent spent = time_spent(books_of(s));
  ASSERT_EQ(spent.by_work.size(), 1U);
  EXPECT_EQ(spent.by_work[0].work, Work::pickup);
  EXPECT_EQ(spent.by_work[0].minutes, Minutes{60});
}

RC_GTEST_PROP(TimeSpent, AddsUpToTheMinutesOfTheBooks, ()) {
  LessonShop s;
  const AcquisitionId lot = s.add(Acquisition{.date = day("2026-03-01"), .price = cents(4'000)});
  const auto count = *rc::gen::inRange(1, 6);
  for (int times = 0; times < count; ++times) {
    const MachineId machine = s.add(Machine{.tag = std::to_string(s.shop.next_id),
                                            .acquisition = lot,
                                            .value_then = cents(*rc::gen::inRange(0, 9'000))});
    s.work(machine, "2026-03-02", *rc::gen::inRange(1, 90),
           *rc::gen::elementOf(std::vector<Work>{Work::repair, Work::clean, Work::pickup}));
    if (*rc::gen::arbitrary<bool>()) s.sell(machine, "2026-04-01", 5'000);
  }
  for (const Work work : {Work::pickup, Work::other})
    s.add(Labour{
        .acquisition = lot, .date = day("2026-03-01"), .minutes = {*rc::gen::inRange(1, 200)}, .work = work});
  const TimeSpent spent = time_spent(books_of(s));
  Minutes sum;
  for (const TimeOfWork& each : spent.by_work)
    sum += each.minutes;
  RC_ASSERT(sum == spent.minutes);
}

}  // namespace
}  // namespace secondpull::lessons
