#include "core/books/earned.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace secondpull {
namespace {

MachineFigures machine(std::int64_t gross, std::int64_t running, std::int64_t minutes) {
  const Money profit = Money::from_minor(gross - running);
  return {.cost_basis = Money::from_minor(1000),
          .net_proceeds = Money::from_minor(gross + 1000),
          .gross_profit = Money::from_minor(gross),
          .running_costs = Money::from_minor(running),
          .profit = profit,
          .minutes = {minutes},
          .pay_per_hour = per_hour(profit, {minutes})};
}

// The first machine of the worked month of the money model: 89.94 over 3 h 20 min is 26.98 an hour, 77.76 is
// 23.33.
TEST(PerHour, ComesFromTheMinutesAndRoundsOnce) {
  EXPECT_EQ(per_hour(Money::from_minor(8994), {200}), Money::from_minor(2698));
  EXPECT_EQ(per_hour(Money::from_minor(7776), {200}), Money::from_minor(2333));
  EXPECT_EQ(per_hour(Money::from_minor(-5), {120}), Money::from_minor(-3));  // half away from zero
}

TEST(PerHour, IsNotDefinedWithoutHours) {
  EXPECT_EQ(per_hour(Money::from_minor(8994), {0}), std::nullopt);
}

TEST(Earned, LeavesOutMachinesWithoutAProfitAndTheirHours) {
  const MachineFigures sold = machine(8994, 1218, 200);
  const MachineFigures here{.cost_basis = Money::from_minor(500), .minutes = {90}};
  const MachineFigures* both[] = {&sold, &here};
  const MachineFigures* one[] = {&sold};
  EXPECT_EQ(earned(both), earned(one));
  EXPECT_EQ(earned(both).machines, 1u);
  EXPECT_EQ(earned(both).pay_per_hour, sold.pay_per_hour);
}

TEST(Earned, OfNobodyIsNothing) {
  EXPECT_EQ(earned({}).profit, Money{});
  EXPECT_EQ(earned({}).pay_per_hour, std::nullopt);
}

RC_GTEST_PROP(Earned, OfGroupsAddsUpToThatOfAll,
              (const std::vector<std::pair<int, int>>& gross_and_minutes)) {
  std::vector<MachineFigures> machines;
  for (const auto& [gross, minutes] : gross_and_minutes)
    machines.push_back(machine(gross, gross / 7, std::abs(minutes % 10000)));
  std::vector<const MachineFigures*> all, first, rest;
  for (std::size_t at = 0; at < machines.size(); ++at) {
    all.push_back(&machines[at]);
    (at % 3 == 0 ? first : rest).push_back(&machines[at]);
  }
  const Earned whole = earned(all), a = earned(first), b = earned(rest);
  RC_ASSERT(whole.machines == a.machines + b.machines);
  RC_ASSERT(whole.profit == a.profit + b.profit);
  RC_ASSERT(whole.gross_profit == a.gross_profit + b.gross_profit);
  RC_ASSERT(whole.minutes == a.minutes + b.minutes);
  RC_ASSERT(whole.profit == whole.gross_profit - whole.running_costs);
}

// The first machine of the worked month: sold for 185.00 with a fee of 4.63, basis 60.00 and parts 30.43,
// pickup trip 12.18; gross profit 89.94, profit 77.76.
TEST(Waterfall, GoesFromThePriceOfTheWorkedMonthToItsProfit) {
  const auto line = [](LineKind kind, std::int64_t amount) {
    return FigureLine{.kind = kind, .what = {}, .amount = Money::from_minor(amount)};
  };
  const std::vector<FigureLine> lines{line(LineKind::acquisition, -6000), line(LineKind::part, -2087),
                                      line(LineKind::part, -456),         line(LineKind::part, -500),
                                      line(LineKind::price, 18500),       line(LineKind::fee, -463),
                                      line(LineKind::trip, -1218)};
  const std::vector<WaterfallStep> steps = waterfall(lines);
  std::vector<std::pair<StepKind, std::int64_t>> said;
  for (const WaterfallStep& step : steps)
    said.emplace_back(step.kind, step.amount.minor());
  const std::vector<std::pair<StepKind, std::int64_t>> expected{
      {StepKind::price, 18500}, {StepKind::fee, -463},          {StepKind::acquisition, -6000},
      {StepKind::parts, -3043}, {StepKind::gross_profit, 8994}, {StepKind::trips, -1218},
      {StepKind::profit, 7776}};
  EXPECT_EQ(said, expected);
}

TEST(Waterfall, OfNothingEndsAtNothing) {
  const std::vector<WaterfallStep> steps = waterfall({});
  ASSERT_EQ(steps.size(), 1u);
  EXPECT_EQ(steps.front().kind, StepKind::profit);
  EXPECT_EQ(steps.front().to, Money{});
}

RC_GTEST_PROP(Waterfall, StepsFollowEachOtherAndEndAtTheSumOfAllLines,
              (const std::vector<std::pair<std::uint8_t, int>>& kinds_and_amounts)) {
  constexpr int kKinds = static_cast<int>(LineKind::overhead) + 1;
  std::vector<FigureLine> lines;
  Money sum;
  for (const auto& [kind, amount] : kinds_and_amounts) {
    lines.push_back(
        {.kind = static_cast<LineKind>(kind % kKinds), .what = {}, .amount = Money::from_minor(amount)});
    sum += Money::from_minor(amount);
  }
  Money level;
  const std::vector<WaterfallStep> steps = waterfall(lines);
  for (const WaterfallStep& step : steps) {
    if (step.is_level()) {
      RC_ASSERT(step.to == level);
      RC_ASSERT(step.from == Money{});
    } else {
      RC_ASSERT(step.from == level);
      RC_ASSERT(step.to == level + step.amount);
    }
    level = step.to;
  }
  RC_ASSERT(steps.back().kind == StepKind::profit);
  RC_ASSERT(steps.back().amount == sum);
}

}  // namespace
}  // namespace secondpull
