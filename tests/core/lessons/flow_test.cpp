#include "core/lessons/flow.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "tests/core/lessons/lesson_shop.h"

namespace secondpull::lessons {
namespace {

using test::cents;
using test::day;
using test::LessonShop;

std::vector<Stay> stays_of(const LessonShop& s) {
  return stays(ByMachine{s.shop}, s.shop);
}

TEST(Stays, EndWithASaleAndBeginAgainWithAReturn) {
  LessonShop s;
  const MachineId machine = s.bought("2026-03-01", 0);
  s.sell(machine, "2026-03-10", 5'000);
  s.add(Return{.machine = machine, .date = day("2026-03-15")});
  s.sell(machine, "2026-03-20", 5'000);
  const MachineId donor = s.bought("2026-03-02", 0);
  s.add(Disposal{
      .machine = donor, .date = day("2026-03-05"), .how = DisposalKind::parted_out, .hulk_here = true});
  const MachineId here = s.bought("2026-03-03", 0);
  const auto all = stays_of(s);
  ASSERT_EQ(all.size(), 4U);
  EXPECT_EQ(all[0].came, day("2026-03-01"));
  EXPECT_EQ(all[0].left, day("2026-03-10"));
  EXPECT_EQ(all[1].came, day("2026-03-15"));
  EXPECT_EQ(all[1].left, day("2026-03-20"));
  EXPECT_EQ(all[2].machine, donor);
  EXPECT_EQ(all[2].left, day("2026-03-05"));
  EXPECT_EQ(all[3].machine, here);
  EXPECT_FALSE(all[3].left);
}

// By hand, days 11 to 20: the first is here on 9 of them (11 to 19), the second on none before 15, on 15, 16
// and 17, the third on all ten.
TEST(Flow, CountsWhoIsHereByTheDay) {
  const std::vector<Stay> all{{MachineId{1}, day("2026-03-01"), day("2026-03-20")},
                              {MachineId{2}, day("2026-03-15"), day("2026-03-18")},
                              {MachineId{3}, day("2026-02-01"), std::nullopt},
                              {MachineId{4}, day("2026-02-01"), day("2026-03-10")}};
  const Flow window = flow(all, day("2026-03-11"), day("2026-03-20"));
  EXPECT_EQ(window.days, 10);
  EXPECT_EQ(window.here_before, 2U);
  EXPECT_EQ(window.came, 1U);
  EXPECT_EQ(window.left, 2U);
  EXPECT_EQ(window.here_after, 1U);
  EXPECT_EQ(window.machine_days, 9 + 3 + 10);
  EXPECT_DOUBLE_EQ(window.in_work(), 2.2);
  EXPECT_EQ(window.days_through.count, 2U);
  EXPECT_EQ(window.days_through.mean, (19 + 3) / 2.0);
}

TEST(Flow, SaysThatTheShopFillsOnlyWhenTheMachinesCarryIt) {
  EXPECT_EQ(grows({.came = 12, .left = 2}), Differs::higher);
  EXPECT_EQ(grows({.came = 2, .left = 12}), Differs::lower);
  EXPECT_EQ(grows({.came = 8, .left = 5}), Differs::no);
  EXPECT_EQ(grows({.came = 4, .left = 0}), Differs::no);
}

Date plus(int days) {
  return plus_days(day("2026-01-01"), days);
}

RC_GTEST_PROP(Flow, KeepsLittlesLawAndLosesNobody, ()) {
  std::vector<Stay> all;
  const auto count = *rc::gen::inRange(0, 15);
  for (int each = 0; each < count; ++each) {
    const auto came = *rc::gen::inRange(0, 80);
    Stay stay{.machine = MachineId{each}, .came = plus(came)};
    if (*rc::gen::inRange(0, 3) > 0) stay.left = plus(came + *rc::gen::inRange(0, 60));
    all.push_back(stay);
  }
  const auto from = *rc::gen::inRange(0, 80);
  const Flow window = flow(all, plus(from), plus(from + *rc::gen::inRange(0, 60)));
  // Who is here, counted evening by evening and not stay by stay.
  std::int64_t evenings = 0;
  for (int at = 0; at < window.days; ++at)
    for (const Stay& stay : all)
      evenings += stay.came <= plus(from + at) && (!stay.left || *stay.left > plus(from + at)) ? 1 : 0;
  RC_ASSERT(evenings == window.machine_days);
  // L = lambda x W over the window, of all who were here in it.
  const auto here = static_cast<double>(window.here_before + window.came);
  if (here > 0) {
    const double lambda = here / window.days;
    const double mean_days = static_cast<double>(evenings) / here;
    RC_ASSERT(std::abs(lambda * mean_days - window.in_work()) < 1e-9);
  }
  const std::size_t came_and_gone_at_once = static_cast<std::size_t>(
      std::count_if(all.begin(), all.end(), [&](const Stay& stay) { return stay.left == stay.came; }));
  if (came_and_gone_at_once == 0)
    RC_ASSERT(window.here_before + window.came == window.here_after + window.left);
}

TEST(Waits, AreInTheYardOnTheBenchAndForSale) {
  LessonShop s;
  const MachineId machine = s.bought("2026-03-01", 0);
  s.work(machine, "2026-03-01", 40, Work::pickup);
  s.work(machine, "2026-03-11", 40);
  s.add(Listing{.machine = machine, .date = day("2026-03-15"), .asking = cents(9'000)});
  s.sell(machine, "2026-04-01", 9'000);
  s.sell(s.bought("2026-03-01", 0), "2026-04-01", 9'000);  // was never listed
  const Waits days = waits(ByMachine{s.shop}, s.shop);
  EXPECT_EQ(days.yard, (Mean{.count = 1, .mean = 10}));
  EXPECT_EQ(days.bench.mean, 4);
  EXPECT_EQ(days.sale.mean, 17);
}

}  // namespace
}  // namespace secondpull::lessons
