#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "core/decision/hours.h"
#include "tests/core/decision/case_count.h"
#include "tests/core/decision/linear_program.h"
#include "tests/core/decision/plain_solver.h"
#include "tests/core/decision/random_case.h"

namespace secondpull::test {
namespace {

using decision::Backlog;
using diagnosis::Case;

constexpr double kAgree = 1e-6;

/// What following one plan for a machine brings in, its hours apart.
struct PlanPoint {
  double money = 0;
  double hours = 0;
};

PlanPoint best_plan_at(Case of, double hour_value) {
  of.hour_value = hour_value;
  const PlainCourse course = PlainSolver{of}.solve();
  return {course.expected.cash - of.day_cost * course.expected.days, course.expected.hours};
}

/// Shares of plans for every machine so that the money is most and the hours suffice. Plans are added while
/// one is worth more at the current price of an hour than the machine's share already is, so in the end the
/// program knows every plan that matters.
class BacklogProgram {
 public:
  explicit BacklogProgram(const Backlog& backlog) : backlog_{backlog}, plans_(backlog.cases.size()) {
    for (std::size_t m = 0; m < plans_.size(); ++m)
      for (const double hour_value : {0.0, decision::highest_hour_value})
        plans_[m].push_back(best_plan_at(backlog.cases[m].of, hour_value));
    while (add_better_plans()) {
    }
  }

  double hour_value() const { return solved_.prices[0]; }
  double money() const { return solved_.objective; }
  /// Hours of the plans for dear hours and for free ones.
  double least_hours() const { return sum_of_hours(1); }
  double most_hours() const { return sum_of_hours(0); }

 private:
  const Backlog& backlog_;
  std::vector<std::vector<PlanPoint>> plans_;  ///< by machine
  LinearProgram::Solved solved_;

  double sum_of_hours(std::size_t plan) const {
    double sum = 0;
    for (const std::vector<PlanPoint>& plans : plans_)
      sum += plans[plan].hours;
    return sum;
  }

  void solve() {
    LinearProgram program{LinearProgram::Aim::largest};
    LinearProgram::Terms hours;
    std::vector<LinearProgram::Terms> shares(plans_.size());
    for (std::size_t m = 0; m < plans_.size(); ++m)
      for (const PlanPoint& plan : plans_[m]) {
        const std::size_t share = program.add_variable(plan.money);
        hours.emplace_back(share, plan.hours);
        shares[m].emplace_back(share, 1);
      }
    program.add_at_most(hours, backlog_.hours);
    for (const LinearProgram::Terms& machine : shares)
      program.add_equal(machine, 1);
    const auto solved = program.solve();
    ASSERT_TRUE(solved);
    solved_ = *solved;
  }

  bool add_better_plans() {
    solve();
    if (testing::Test::HasFatalFailure()) return false;
    bool added = false;
    for (std::size_t m = 0; m < plans_.size(); ++m) {
      const PlanPoint plan = best_plan_at(backlog_.cases[m].of, hour_value());
      const double machine_price = solved_.prices[1 + m];
      if (plan.money - hour_value() * plan.hours <= machine_price + kAgree / 10) continue;
      plans_[m].push_back(plan);
      added = true;
    }
    return added;
  }
};

constexpr CaseSizes kSmall{.causes = 3, .tests = 2, .outcomes = 2, .repairs = 3, .tries = 2};

Backlog random_backlog(std::uint64_t seed) {
  Dice dice{seed};
  Backlog backlog;
  const std::size_t machines = dice.from_to(1, 12);
  for (std::size_t m = 0; m < machines; ++m)
    backlog.cases.push_back({"machine-" + std::to_string(m), random_case(1000 * seed + m, kSmall)});
  backlog.hours = 1e6;
  const BacklogProgram plenty{backlog};
  // Now and then more hours than anyone asks for.
  backlog.hours =
      plenty.least_hours() + dice.between(0.02, 1.1) * (plenty.most_hours() - plenty.least_hours()) + 1e-6;
  return backlog;
}

// The price of the hours' row is the shadow price of an hour; by duality the program's money is the least
// value of the Lagrangian dual. D. Bertsimas and J. Tsitsiklis, Introduction to Linear Optimization (from
// memory).
TEST(HoursReferee, FindsThePriceOfAnHour) {
  std::uint64_t scarce = 0;
  for (std::uint64_t seed = 0; seed < case_count(150); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Backlog backlog = random_backlog(seed);
    const BacklogProgram program{backlog};
    const auto answer = decision::hours(backlog);
    ASSERT_TRUE(answer) << answer.error().sentence;
    EXPECT_TRUE(answer->exact);
    EXPECT_FALSE(answer->too_few_hours);
    EXPECT_NEAR(answer->hour_value, program.hour_value(), kAgree * (1 + program.hour_value()));
    double dual = answer->hour_value * backlog.hours;
    for (const decision::BacklogCase& machine : backlog.cases) {
      Case of = machine.of;
      of.hour_value = answer->hour_value;
      dual += PlainSolver{of}.solve().value;
    }
    EXPECT_NEAR(dual, program.money(), kAgree * (1 + std::abs(program.money())));
    EXPECT_EQ(answer->queue.size() + answer->stop_now.size(), backlog.cases.size());
    if (answer->hour_value > 0) ++scarce;
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GT(scarce, case_count(150) / 2);
}

/// Equal machines are solved once and count as many.
TEST(HoursReferee, PricesAnHourOfEqualMachinesAsTheProgramDoesOfAll) {
  for (std::uint64_t seed = 0; seed < case_count(40); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    Backlog backlog = random_backlog(seed);
    const std::size_t machines = backlog.cases.size();
    for (std::size_t i = 0; i < machines; ++i) {
      decision::BacklogCase again = backlog.cases[i];
      again.id += " again";
      again.of.sunk.cash += 10;
      again.of.hour_value = 3;
      backlog.cases.push_back(again);
    }
    backlog.hours *= 2;
    const double by_program = BacklogProgram{backlog}.hour_value();
    const auto price = decision::shadow_price(backlog);
    ASSERT_TRUE(price) << price.error().sentence;
    EXPECT_NEAR(price->hour_value, by_program, kAgree * (1 + by_program));
    EXPECT_EQ(price->hour_value, decision::hours(backlog)->hour_value);
    if (testing::Test::HasFailure()) return;
  }
}

/// A machine is queued if going on beats stopping now at the price of an hour; the plain solver says so too.
TEST(HoursReferee, QueuesTheMachinesWorthWorkingOnByWorthPerHour) {
  for (std::uint64_t seed = 0; seed < case_count(150); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Backlog backlog = random_backlog(seed);
    const auto answer = decision::hours(backlog);
    ASSERT_TRUE(answer);
    double before = HUGE_VAL;
    for (const decision::Queued& queued : answer->queue) {
      const double worth = queued.worth_per_hour.value_or(decision::highest_hour_value);
      EXPECT_LE(worth, before) << queued.id;
      EXPECT_GT(worth, answer->hour_value - kAgree) << queued.id;
      EXPECT_GE(queued.gain, 0) << queued.id;
      before = worth;
    }
    if (testing::Test::HasFailure()) return;
  }
}

/// The demand at an hour value is the hours of the plans that are best there, between any two of its breaks.
TEST(HoursDemand, IsWhatThePlansAskForBetweenItsBreaks) {
  for (std::uint64_t seed = 0; seed < case_count(40); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Backlog backlog = random_backlog(seed);
    const auto demand = decision::demand(backlog);
    ASSERT_TRUE(demand);
    ASSERT_FALSE(demand->empty());
    EXPECT_EQ(demand->front().hour_value, 0);
    for (std::size_t i = 0; i < demand->size(); ++i) {
      const double from = (*demand)[i].hour_value;
      const double to = i + 1 < demand->size() ? (*demand)[i + 1].hour_value : decision::highest_hour_value;
      ASSERT_LE(from, to);
      if (to - from < 1e-4) continue;  // two breaks that rounding may have told apart
      double hours = 0;
      for (const decision::BacklogCase& machine : backlog.cases)
        hours += best_plan_at(machine.of, (from + to) / 2).hours;
      EXPECT_NEAR((*demand)[i].hours, hours, kAgree) << "from " << from << " to " << to;
    }
    if (testing::Test::HasFailure()) return;
  }
}

}  // namespace
}  // namespace secondpull::test
