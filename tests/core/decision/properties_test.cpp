#include <algorithm>
#include <functional>
#include <map>
#include <string>

#include <gtest/gtest.h>

#include "core/decision/planner.h"
#include "core/diagnosis/belief.h"
#include "tests/core/decision/case_count.h"
#include "tests/core/decision/plain_solver.h"
#include "tests/core/decision/planned.h"
#include "tests/core/decision/random_case.h"

/// What must hold for every case, whatever its numbers: decision-model.md, at the end of "How fast".
namespace secondpull::test {
namespace {

using namespace diagnosis;

constexpr double kAgree = 1e-9;
constexpr std::uint64_t kCases = 1500;

/// Larger than the plain solver likes: nothing here is compared with it.
constexpr CaseSizes kSizes{.causes = 6, .tests = 4, .outcomes = 3, .repairs = 5, .tries = 2};
constexpr CaseSizes kWithoutEvidence{
    .causes = 6, .tests = 4, .outcomes = 3, .repairs = 5, .tries = 2, .evidence = false};

void for_random_cases(const CaseSizes& sizes, const std::function<void(const Case&, Dice&)>& check) {
  for (std::uint64_t seed = 0; seed < case_count(kCases); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    Dice dice{seed};
    check(random_case(seed, sizes), dice);
    if (testing::Test::HasFailure()) return;
  }
}

template <class T>
std::vector<T> without(std::vector<T> list, std::size_t place) {
  list.erase(list.begin() + static_cast<std::ptrdiff_t>(place));
  return list;
}

TEST(WorthOfTheBestPlan, NeverRisesWhenAnOptionIsTakenAway) {
  for_random_cases(kWithoutEvidence, [](const Case& of, Dice&) {
    const double all = planned_value(of);
    const auto at_most_all = [&](const Case& fewer, const std::string& what) {
      EXPECT_LE(planned_value(fewer), all + kAgree) << what;
    };
    for (std::size_t t = 0; t < of.tests.size(); ++t) {
      Case fewer = of;
      fewer.tests = without(of.tests, t);
      at_most_all(fewer, "without " + of.tests[t].id);
      fewer = of;
      fewer.tests[t].group = "fuel";  // at most one of a group is made
      if (of.tests[t].group.empty()) at_most_all(fewer, of.tests[t].id + " in a group");
    }
    for (std::size_t r = 0; r < of.repairs.size(); ++r) {
      Case fewer = of;
      fewer.repairs = without(of.repairs, r);
      at_most_all(fewer, "without " + of.repairs[r].id);
      fewer = of;
      if (--fewer.repairs[r].tries > 0) at_most_all(fewer, "a try of " + of.repairs[r].id + " less");
    }
    for (std::size_t s = 0; s < of.stops.size() && of.stops.size() > 1; ++s) {
      Case fewer = of;
      fewer.stops = without(of.stops, s);
      at_most_all(fewer, "without " + of.stops[s].id);
    }
  });
}

TEST(ATestThatShowsNothing, IsWorthNothingBeforeItsCost) {
  for_random_cases(kSizes, [](const Case& of, Dice& dice) {
    const double before = planned_value(of);
    const double cost = dice.between(0, 5);
    Case more = of;
    more.tests.push_back({.id = "shows nothing",
                          .cost = cost,
                          .outcomes = {"this", "that"},
                          .otherwise = std::vector<double>{0.3, 0.7}});
    EXPECT_NEAR(planned_value(more), before, kAgree);
    EXPECT_NEAR(first_moves(more).back().value, before - cost, kAgree);
  });
}

/// New ids, and every list in another order.
class Disguise {
 public:
  Disguise(const Case& of, Dice& dice) : made_{of} {
    shuffle(made_.causes, dice);
    shuffle(made_.tests, dice);
    shuffle(made_.repairs, dice);
    shuffle(made_.stops, dice);
    for (Cause& cause : made_.causes)
      cause.id = named(cause.id);
    for (Test& test : made_.tests)
      disguise(test, dice);
    for (Repair& repair : made_.repairs) {
      repair.id = named(repair.id);
      rename_keys(repair.cures, dice);
    }
    for (Stop& stop : made_.stops) {
      stop.id = named(stop.id);
      rename_keys(stop.value_by_cause, dice);
    }
    for (Evidence& line : made_.evidence)
      if (auto* failed = std::get_if<RepairFailed>(&line))
        failed->repair = named(failed->repair);
      else
        std::get<TestShowed>(line) = {named(std::get<TestShowed>(line).test),
                                      named(std::get<TestShowed>(line).outcome)};
  }
  const Case& made() const { return made_; }
  static std::string named(const std::string& id) { return "another-" + id; }

 private:
  Case made_;

  template <class T>
  static void shuffle(std::vector<T>& list, Dice& dice) {
    for (std::size_t i = list.size(); i > 1; --i)
      std::swap(list[i - 1], list[dice.below(i)]);
  }

  template <class T>
  static void rename_keys(ByCause<T>& entries, Dice& dice) {
    for (auto& [cause, unused] : entries)
      cause = named(cause);
    shuffle(entries, dice);
  }

  static void disguise(Test& test, Dice& dice) {
    test.id = named(test.id);
    if (!test.group.empty()) test.group = named(test.group);
    rename_keys(test.likelihood, dice);
    std::vector<std::size_t> order(test.outcomes.size());
    for (std::size_t o = 0; o < order.size(); ++o)
      order[o] = o;
    shuffle(order, dice);
    const auto reorder = [&](auto& row) {
      auto old = row;
      for (std::size_t o = 0; o < order.size(); ++o)
        row[o] = old[order[o]];
    };
    reorder(test.outcomes);
    for (std::string& outcome : test.outcomes)
      outcome = named(outcome);
    for (auto& [cause, row] : test.likelihood)
      reorder(row);
    if (test.otherwise) reorder(*test.otherwise);
  }
};

std::map<std::string, double> worth_by_name(const Case& of) {
  const decision::Model model = decision::model_of(of);
  std::map<std::string, double> worth;
  for (const decision::MoveWorth& move : first_moves(of)) {
    switch (move.move.kind) {
      case decision::Move::Kind::stop:
        worth[of.stops[model.stops[move.move.place].in_case].id] = move.value;
        break;
      case decision::Move::Kind::repair:
        worth[of.repairs[model.repairs[move.move.place].in_case].id] = move.value;
        break;
      case decision::Move::Kind::test:
        worth[of.tests[model.tests[move.move.place].in_case].id] = move.value;
        break;
    }
  }
  return worth;
}

TEST(WorthOfEveryFirstMove, IsTheSameUnderOtherNamesAndInAnotherOrder) {
  for_random_cases(kSizes, [](const Case& of, Dice& dice) {
    const Disguise disguise{of, dice};
    ASSERT_TRUE(problems_of(disguise.made()).empty());
    const auto worth = worth_by_name(of);
    const auto disguised = worth_by_name(disguise.made());
    ASSERT_EQ(worth.size(), disguised.size());
    for (const auto& [id, value] : worth)
      EXPECT_NEAR(disguised.at(Disguise::named(id)), value, kAgree) << id;
  });
}

Case in_other_money(Case of, double scale) {
  of.hour_value *= scale;
  of.day_cost *= scale;
  for (Test& test : of.tests)
    test.cost *= scale;
  for (Repair& repair : of.repairs)
    repair.cost *= scale;
  of.revived.price *= scale;
  of.revived.fee_fixed *= scale;
  of.revived.comeback_cost *= scale;
  for (KnownWork& work : of.revived.known_work)
    work.cost *= scale;
  for (Stop& stop : of.stops) {
    stop.value *= scale;
    for (auto& [cause, value] : stop.value_by_cause)
      value *= scale;
  }
  return of;
}

TEST(WorthOfTheBestPlan, ScalesWithAllMoney) {
  for_random_cases(kSizes, [](const Case& of, Dice& dice) {
    const double scale = dice.between(0.1, 10);
    EXPECT_NEAR(planned_value(in_other_money(of, scale)), scale * planned_value(of), kAgree * (1 + scale));
  });
}

TEST(TheBestPlan, IsTheSameInOtherMoney) {
  for_random_cases(kSizes, [](const Case& of, Dice&) {
    // A power of two keeps every digit, so that ties stay ties.
    const decision::Plan plan = planned(of);
    const decision::Plan other = planned(in_other_money(of, 4));
    EXPECT_EQ(plan.root.move, other.root.move);
    EXPECT_NEAR(plan.expected.revived, other.expected.revived, kAgree);
    EXPECT_NEAR(plan.expected.hours, other.expected.hours, kAgree);
  });
}

/// V as a function of one number of the case is convex, and at the case itself it has this slope.
void expect_convex(const std::function<double(double)>& value_at, double slope, double step) {
  const double here = value_at(0);
  for (const double by : {-step, -step / 16, step / 16, step})
    EXPECT_GE(value_at(by), here + by * slope - kAgree) << "moved by " << by;
  EXPECT_LE(here, (value_at(-step) + value_at(step)) / 2 + kAgree);
}

TEST(WorthOfTheBestPlan, IsConvexInAStopsValueWithTheChanceOfEndingThereAsSlope) {
  for_random_cases(kSizes, [](const Case& of, Dice& dice) {
    const std::size_t stop = dice.below(of.stops.size());
    double chance = 0;
    for (const decision::Ending& ending : planned(of).endings)
      if (ending.stop == stop) chance += ending.chance;
    const auto value_at = [&](double by) {
      Case other = of;
      other.stops[stop].value += by;
      for (auto& [cause, value] : other.stops[stop].value_by_cause)
        value += by;
      return planned_value(other);
    };
    expect_convex(value_at, chance, 16);
  });
}

TEST(WorthOfTheBestPlan, IsConvexInThePriceWithTheChanceOfARunningMachineLessTheFeeAsSlope) {
  for_random_cases(kSizes, [](const Case& of, Dice&) {
    const auto value_at = [&](double by) {
      Case other = of;
      other.revived.price += by;
      return planned_value(other);
    };
    expect_convex(value_at, planned(of).expected.revived * (1 - of.revived.fee_rate), 16);
  });
}

TEST(WorthOfTheBestPlan, IsConvexInTheValueOfAnHourAndFallsByTheHoursItTakes) {
  for_random_cases(kSizes, [](const Case& of, Dice&) {
    const auto value_at = [&](double by) {
      Case other = of;
      other.hour_value += by;
      return planned_value(other);
    };
    expect_convex(value_at, -planned(of).expected.hours, 8);
  });
}

TEST(WorthOfTheBestPlan, IsConvexInTheCostOfADayAndFallsByTheDaysItTakes) {
  for_random_cases(kSizes, [](const Case& of, Dice&) {
    const auto value_at = [&](double by) {
      Case other = of;
      other.day_cost += by;
      return planned_value(other);
    };
    expect_convex(value_at, -planned(of).expected.days, 1);
  });
}

/// The mean worth if the cause were known from the start.
double perfect_information(const Case& of) {
  const std::vector<double> belief = posterior(of);
  double sum = 0;
  for (std::size_t c = 0; c < belief.size(); ++c) {
    if (belief[c] <= 0) continue;
    Case known = of;
    for (Cause& cause : known.causes)
      cause.weight = 0;
    known.causes[c].weight = 1;
    sum += belief[c] * planned_value(known);
  }
  return sum;
}

TEST(WorthOfATest, IsNeverMoreThanThatOfPerfectInformation) {
  for_random_cases(kSizes, [](const Case& of, Dice&) {
    const double perfect = perfect_information(of);
    EXPECT_LE(planned_value(of), perfect + kAgree);
    for (std::size_t t = 0; t < of.tests.size(); ++t) {
      Case free = of;
      free.tests[t].cost = free.tests[t].minutes = free.tests[t].days = 0;
      EXPECT_LE(planned_value(free), perfect_information(free) + kAgree) << of.tests[t].id;
    }
  });
}

// A test that tells every cause apart, free of cost, is perfect information and worth as much.
TEST(WorthOfATest, ReachesPerfectInformationWhenItTellsAllCausesApart) {
  for_random_cases(kSizes, [](const Case& of, Dice&) {
    Case all_told = of;
    diagnosis::Test oracle{.id = "oracle"};
    for (const Cause& cause : of.causes)
      oracle.outcomes.push_back(cause.id);
    for (std::size_t c = 0; c < of.causes.size(); ++c) {
      std::vector<double> row(of.causes.size(), 0.0);
      row[c] = 1;
      oracle.likelihood.push_back({of.causes[c].id, row});
    }
    all_told.tests.push_back(oracle);
    EXPECT_NEAR(planned_value(all_told), perfect_information(of), kAgree);
  });
}

TEST(TheMyopicPlan, IsNeverBetterThanTheBestAndSometimesWorse) {
  std::uint64_t worse = 0;
  for (std::uint64_t seed = 0; seed < case_count(kCases); ++seed) {
    const Case of = random_case(seed);
    const double best = planned_value(of);
    const double myopic = myopic_value(of);
    EXPECT_LE(myopic, best + kAgree) << "seed " << seed;
    if (myopic < best - 0.01) ++worse;
  }
  EXPECT_GT(worse, case_count(kCases) / 20);
}

TEST(FewerFigures, LeaveThePlanAsItIsAndPromiseNoMoreForAnHour) {
  std::uint64_t promised = 0;
  for_random_cases(kSizes, [&](const Case& of, Dice&) {
    const auto all = decision::verdict(of);
    ASSERT_TRUE(all);
    for (const decision::Figures figures : {decision::Figures::for_a_queue, decision::Figures::plan_alone}) {
      const auto fewer = decision::verdict(of, {}, figures);
      ASSERT_TRUE(fewer);
      EXPECT_EQ(fewer->value, all->value);
      EXPECT_EQ(fewer->next, all->next);
      EXPECT_FALSE(fewer->break_even_price.value);
      EXPECT_FALSE(fewer->break_even_price.exact);
      const double worth = fewer->worth_per_hour.value.value_or(decision::highest_hour_value);
      EXPECT_LE(worth, all->worth_per_hour.value.value_or(decision::highest_hour_value) + 1e-6);
      if (figures == decision::Figures::plan_alone && worth > 0) ++promised;
    }
  });
  EXPECT_GT(promised, case_count(kCases) / 20);
}

TEST(WhatIsSunk, ChangesNothingButTheProfit) {
  for_random_cases(kSizes, [](const Case& of, Dice&) {
    Case other = of;
    other.sunk = {1000, 50};
    EXPECT_EQ(planned_value(other), planned_value(of));
    EXPECT_EQ(planned(other).root.move, planned(of).root.move);
  });
}

}  // namespace
}  // namespace secondpull::test
