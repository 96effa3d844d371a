#include "core/lessons/paid.h"

#include <random>

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "tests/core/lessons/lesson_shop.h"

namespace secondpull::lessons {
namespace {

using test::books_of;
using test::cents;
using test::day;
using test::LessonShop;
using test::small_knowledge;
using testing::ElementsAre;

std::vector<Paid> paid(const LessonShop& s, PaidBy by) {
  return paid_by(books_of(s), small_knowledge(), by);
}

std::vector<std::string> names(const std::vector<Paid>& all) {
  std::vector<std::string> found;
  for (const Paid& each : all)
    found.push_back(each.name);
  return found;
}

/// Profits of $60, 20, 90, 30, 10 in 2, 1, 2, 3, 2 hours as push mowers, of $-20, 10, 0, -30, 5, 15 in 2, 1,
/// 4, 3, 1, 1 as trimmers.
LessonShop two_kinds() {
  LessonShop s;
  for (const auto& [profit, hours] : {std::pair{60, 2}, {20, 1}, {90, 2}, {30, 3}, {10, 2}})
    s.earned(profit * 100, hours * 60, MachineKind::push);
  for (const auto& [profit, hours] : {std::pair{-20, 2}, {10, 1}, {0, 4}, {-30, 3}, {5, 1}, {15, 1}})
    s.earned(profit * 100, hours * 60, MachineKind::trimmer);
  return s;
}

// In R: R = sum(profit) / sum(hours), v = n / (n - 1) * sum((profit - R * hours)^2) / sum(hours)^2,
// R +- qt(.9, n - 1) * sqrt(v).
TEST(Paid, IsAllProfitOverAllHoursWithTheRangeOfSuchARatio) {
  const auto kinds = paid(two_kinds(), PaidBy::kind);
  ASSERT_THAT(names(kinds), ElementsAre("push", "trimmer"));
  EXPECT_EQ(kinds[0].machines.size(), 5U);
  EXPECT_EQ(kinds[0].together.profit, cents(21'000));
  EXPECT_EQ(kinds[0].hourly, 21);
  EXPECT_NEAR(kinds[0].hourly_range->low, 9.19580516694669, 1e-10);
  EXPECT_NEAR(kinds[0].hourly_range->high, 32.80419483305331, 1e-10);
  EXPECT_EQ(kinds[0].profit.mean, 42);
  // By the machine: 30, 20, 45, 10 and 5 an hour.
  EXPECT_DOUBLE_EQ(kinds[0].middle_half->low, 10);
  EXPECT_DOUBLE_EQ(kinds[0].middle_half->high, 30);
}

TEST(Paid, HasARangeThatIsThatOfItsFigureWithAMachineThatTookNoHours) {
  LessonShop s;
  s.earned(5'000, 60, MachineKind::push);
  s.earned(5'000, 60, MachineKind::push);
  s.earned(50'000, 0, MachineKind::push);
  const Paid push = paid(s, PaidBy::kind).front();
  EXPECT_EQ(push.hourly, 300);
  EXPECT_LT(push.hourly_range->low, 300);
  EXPECT_GT(push.hourly_range->high, 300);
  EXPECT_DOUBLE_EQ(push.middle_half->high, 50);
}

// In R: two-sided p of Welch's t is 0.0388 between the two; of two groups, 0.1 / 2 suffices.
TEST(Paid, SaysThatAKindPaysBetterOnlyWhenTheMachinesCarryIt) {
  LessonShop s = two_kinds();
  auto kinds = paid(s, PaidBy::kind);
  EXPECT_EQ(kinds[0].differs, Differs::higher);
  EXPECT_EQ(kinds[1].differs, Differs::lower);
  // With a third large group alike to the others together 0.1 / 3 is asked.
  for (int times = 0; times < 5; ++times)
    s.earned(0, 0, MachineKind::blower);
  EXPECT_EQ(paid(s, PaidBy::kind)[0].differs, Differs::higher) << "machines without hours do not count";
  LessonShop few;
  for (int times = 0; times < 4; ++times) {
    few.earned(10'000 + times, 60, MachineKind::push);
    few.earned(100 + times, 60, MachineKind::trimmer);
  }
  EXPECT_EQ(paid(few, PaidBy::kind)[0].differs, Differs::no);
}

TEST(Paid, GroupsByMakeSourceSymptomAndTheMonthInWhichItLeft) {
  LessonShop s;
  const AcquisitionId dump = s.add(Acquisition{.date = day("2025-03-01"), .source = Source::dump});
  const auto sold = [&](std::string make, std::string symptom, std::string_view date, std::int64_t minutes) {
    const MachineId machine = s.add(Machine{.tag = std::to_string(s.shop.next_id),
                                            .acquisition = dump,
                                            .make = std::move(make),
                                            .symptom = std::move(symptom)});
    s.work(machine, "2025-03-02", minutes);
    s.sell(machine, date, 6'000);
  };
  sold("Tarnwick", "won't pop", "2025-12-30", 60);
  sold("tarnwick ", "Pulls over, does not start", "2026-12-02", 60);
  sold("", "squeals", "2026-04-01", 120);
  EXPECT_THAT(names(paid(s, PaidBy::make)), ElementsAre("Tarnwick", ""));
  EXPECT_THAT(names(paid(s, PaidBy::symptom)), ElementsAre("Pulls over, does not start", "squeals"));
  EXPECT_THAT(names(paid(s, PaidBy::month)), ElementsAre("12", "04"));
  EXPECT_THAT(names(paid(s, PaidBy::source)), ElementsAre("dump"));
}

TEST(Paid, LeavesOutMachinesThatAreHereOrWereKept) {
  LessonShop s;
  s.bought("2026-03-01", 4'000);
  const MachineId kept = s.bought("2026-03-01", 4'000);
  s.add(Disposal{.machine = kept, .date = day("2026-04-01"), .how = DisposalKind::kept});
  EXPECT_TRUE(paid(s, PaidBy::kind).empty());
}

RC_GTEST_PROP(Paid, HoldsEveryMachineOnceHoweverGrouped, ()) {
  LessonShop s;
  const auto count = *rc::gen::inRange(1, 12);
  Money profit;
  for (int times = 0; times < count; ++times) {
    const auto amount = *rc::gen::inRange(-9'000, 20'000);
    s.earned(amount, *rc::gen::inRange(0, 400), *rc::gen::element(MachineKind::push, MachineKind::blower));
    profit += cents(amount);
  }
  for (const PaidBy by : {PaidBy::kind, PaidBy::make, PaidBy::source, PaidBy::symptom, PaidBy::month}) {
    std::size_t machines = 0;
    Money sum;
    for (const Paid& group : paid(s, by)) {
      machines += group.machines.size();
      sum += group.together.profit;
      RC_ASSERT(group.hourly.has_value() == (group.together.minutes.count > 0));
      if (group.hourly_range) RC_ASSERT(group.hourly_range->low <= group.hourly_range->high);
    }
    RC_ASSERT(machines == static_cast<std::size_t>(count));
    RC_ASSERT(sum == profit);
  }
}

}  // namespace
}  // namespace secondpull::lessons
