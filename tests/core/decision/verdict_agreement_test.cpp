#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "core/decision/planner.h"
#include "tests/core/decision/case_count.h"
#include "tests/core/decision/plain_solver.h"
#include "tests/core/decision/random_case.h"

/// The whole answer to a case against the plain solver.
namespace secondpull::test {
namespace {

using decision::Answer;
using decision::Figure;
using decision::Move;
using diagnosis::Case;

constexpr double kAgree = 1e-9;

std::string kind_of(Move::Kind kind) {
  switch (kind) {
    case Move::Kind::stop:
      return "stop";
    case Move::Kind::repair:
      return "repair";
    case Move::Kind::test:
      return "test";
  }
  return {};
}

void compare_first_moves(const Answer& answer, PlainSolver& plain) {
  const std::vector<PlainMove> moves = plain.moves(plain.start());
  ASSERT_EQ(answer.ranking.size(), moves.size());
  double before = answer.ranking.front().value;
  for (const decision::Ranked& ranked : answer.ranking) {
    const auto same = std::find_if(moves.begin(), moves.end(), [&](const PlainMove& move) {
      return move.kind == kind_of(ranked.move.kind) && move.id == ranked.move.id;
    });
    ASSERT_NE(same, moves.end()) << ranked.move.id;
    EXPECT_NEAR(ranked.value, plain.value(*same), kAgree) << ranked.move.id;
    EXPECT_LE(ranked.value, before);
    before = ranked.value;
  }
}

void compare_best_stop(const Answer& answer, PlainSolver& plain) {
  std::string best;
  double worth = 0;
  for (const PlainMove& move : plain.moves(plain.start())) {
    if (move.kind != "stop") continue;
    if (best.empty() || plain.value(move) > worth + kAgree) {
      best = move.id;
      worth = plain.value(move);
    }
  }
  EXPECT_EQ(answer.stop_now.id, best);
  EXPECT_NEAR(answer.stop_now_value, worth, kAgree);
  EXPECT_NEAR(answer.gain, plain.best(plain.start()).value - worth, kAgree);
}

TEST(TheVerdict, AgreesWithThePlainSolverInEveryFigure) {
  for (std::uint64_t seed = 0; seed < case_count(3000); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Case of = random_case(seed);
    PlainSolver plain{of};
    const PlainCourse best = plain.solve();
    const auto answer = decision::verdict(of);
    ASSERT_TRUE(answer) << answer.error().sentence;
    EXPECT_NEAR(answer->value, best.value, kAgree);
    EXPECT_EQ(answer->gap, 0);
    EXPECT_EQ(kind_of(answer->next.kind), best.kind);
    EXPECT_EQ(answer->next.id, best.id);
    EXPECT_EQ(answer->verdict, best.kind == "stop" ? best.id : "revive");
    EXPECT_NEAR(answer->expected.cash, best.expected.cash, kAgree);
    EXPECT_NEAR(answer->expected.hours, best.expected.hours, kAgree);
    EXPECT_NEAR(answer->expected.days, best.expected.days, kAgree);
    EXPECT_NEAR(answer->expected.revived, best.chances.at("revived"), kAgree);
    for (std::size_t s = 0; s < of.stops.size(); ++s)
      EXPECT_NEAR(answer->chance_of_stop[s], best.chances.at(of.stops[s].id), kAgree) << of.stops[s].id;
    const std::vector<double> belief = plain.belief(plain.start());
    ASSERT_EQ(answer->posterior.size(), belief.size());
    for (std::size_t c = 0; c < belief.size(); ++c)
      EXPECT_NEAR(answer->posterior[c], belief[c], kAgree) << of.causes[c].id;
    compare_first_moves(*answer, plain);
    compare_best_stop(*answer, plain);
    if (testing::Test::HasFailure()) return;
  }
}

/// The worth of going on less that of the best stop, by the plain solver; nothing to go on with: minus
/// infinity.
double ahead(const Case& of) {
  PlainSolver plain{of};
  double stop = -HUGE_VAL;
  double on = -HUGE_VAL;
  for (const PlainMove& move : plain.moves(plain.start())) {
    double& best = move.kind == "stop" ? stop : on;
    best = std::max(best, plain.value(move));
  }
  return on - stop;
}

double ahead_at_price(Case of, double price) {
  of.revived.price = price;
  return ahead(of);
}

double ahead_at_hour_value(Case of, double hour_value) {
  of.hour_value = hour_value;
  return ahead(of);
}

constexpr double kNear = 1e-6;     // relative: how right the figures must be
constexpr double kHardly = 1e-8;   // a difference that ties and rounding can make
constexpr double kFarPrice = 1e6;  // beyond which no price is looked at
constexpr CaseSizes kSmall{.causes = 4, .tests = 2, .outcomes = 2, .repairs = 3, .tries = 2};

// The gain is convex in the price, so above the break-even going on beats stopping, and below it never does.
TEST(TheBreakEvenPrice, IsWhereGoingOnStartsToBeatStopping) {
  std::uint64_t found = 0;
  std::uint64_t none = 0;
  for (std::uint64_t seed = 0; seed < case_count(2000); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Case of = random_case(seed, kSmall);
    const auto answer = decision::verdict(of);
    ASSERT_TRUE(answer);
    const Figure& price = answer->break_even_price;
    EXPECT_TRUE(price.exact);
    if (!price.value) {
      ++none;
      EXPECT_LE(ahead_at_price(of, kFarPrice), kHardly);
    } else {
      ++found;
      const double step = kNear * std::max(1.0, *price.value);
      EXPECT_GT(ahead_at_price(of, *price.value + step), 0) << *price.value;
      if (*price.value > 0) {
        EXPECT_LE(ahead_at_price(of, std::max(0.0, *price.value - step)), kHardly) << *price.value;
      }
    }
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GT(found, case_count(2000) / 3);
  EXPECT_GT(none, 0u);
}

TEST(TheWorthPerHour, IsTheHighestHourValueAtWhichGoingOnBeatsStopping) {
  constexpr int kLooks = 40;
  std::uint64_t found = 0;
  std::uint64_t never = 0;
  std::uint64_t always = 0;
  for (std::uint64_t seed = 0; seed < case_count(2000); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Case of = random_case(seed, kSmall);
    const auto answer = decision::verdict(of);
    ASSERT_TRUE(answer);
    const Figure& worth = answer->worth_per_hour;
    EXPECT_TRUE(worth.exact);
    if (!worth.value) {
      ++always;
      EXPECT_GT(ahead_at_hour_value(of, decision::highest_hour_value), 0);
      continue;
    }
    ++(*worth.value > 0 ? found : never);
    const double step = kNear * std::max(1.0, *worth.value);
    if (*worth.value > 0) {
      EXPECT_GT(ahead_at_hour_value(of, *worth.value - step), 0) << *worth.value;
    }
    for (int look = 0; look <= kLooks; ++look) {
      const double from = std::min(*worth.value + step, decision::highest_hour_value);
      const double hour_value = from + (decision::highest_hour_value - from) * look / kLooks;
      EXPECT_LE(ahead_at_hour_value(of, hour_value), kHardly)
          << "at " << hour_value << ", not " << *worth.value;
    }
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GT(found, case_count(2000) / 4);
  EXPECT_GT(never, 0u);
  EXPECT_GT(always, 0u);
}

/// The profit's mixture, from the plain solver's plan.
class PlainProfit {
 public:
  explicit PlainProfit(const Case& of) : case_{of}, plain_{of} { follow(plain_.start(), 1, -of.sunk.cash); }

  /// P(profit <= amount), an ending within a hair of it taken whole where `generous`, left out where not.
  double chance_up_to(double amount, bool generous) const {
    const double limit = generous ? amount + kAgree : amount - kAgree;
    double sum = 0;
    for (const Leaf& leaf : leaves_) {
      const double price = case_.revived.price * (1 - case_.revived.fee_rate);
      if (!leaf.sold) {
        sum += leaf.cash <= limit ? leaf.chance : 0;
      } else if (case_.revived.spread <= 0 || price <= 0) {
        sum += leaf.cash + price <= limit ? leaf.chance : 0;
      } else if (limit > leaf.cash) {
        const double z = std::log((limit - leaf.cash) / price) / case_.revived.spread;
        sum += leaf.chance * std::erfc(-z / std::sqrt(2.0)) / 2;
      }
    }
    return sum;
  }

 private:
  struct Leaf {
    bool sold;
    double chance;
    double cash;  // a sale's price is not in it
  };
  Case case_;
  PlainSolver plain_;
  std::vector<Leaf> leaves_;

  void follow(const PlainState& state, double chance, double cash) {
    const PlainCourse best = plain_.best(state);
    const std::vector<PlainMove> moves = plain_.moves(state);
    const auto move = std::find_if(moves.begin(), moves.end(), [&](const PlainMove& candidate) {
      return candidate.kind == best.kind && candidate.id == best.id;
    });
    if (best.kind == "stop") {
      leaves_.push_back({false, chance, cash + move->now.cash});
      return;
    }
    for (const diagnosis::Repair& repair : case_.repairs)
      if (best.kind == "repair" && repair.id == best.id) cash -= repair.cost;
    for (const diagnosis::Test& test : case_.tests)
      if (best.kind == "test" && test.id == best.id) cash -= test.cost;
    if (best.kind == "repair") {
      double after_sale =
          cash - case_.revived.fee_fixed - case_.revived.comeback_chance * case_.revived.comeback_cost;
      for (const diagnosis::KnownWork& work : case_.revived.known_work)
        after_sale -= work.cost;
      leaves_.push_back({true, chance * move->endings.at("revived"), after_sale});
    }
    for (const PlainMove::Branch& branch : move->branches)
      follow(branch.next, chance * branch.chance, cash);
  }
};

TEST(TheProfit, HasTheQuantilesOfTheMixtureOverThePlansEndings) {
  constexpr double kRounding = 1e-9;
  for (std::uint64_t seed = 0; seed < case_count(2000); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Case of = random_case(seed, kSmall);
    const auto answer = decision::verdict(of);
    ASSERT_TRUE(answer);
    const PlainProfit profit{of};
    const auto expect_quantile = [&](double amount, double level) {
      EXPECT_GE(profit.chance_up_to(amount, true), level - kRounding) << amount;
      EXPECT_LE(profit.chance_up_to(amount, false), level + kRounding) << amount;
    };
    expect_quantile(answer->profit.p10, 0.1);
    expect_quantile(answer->profit.p50, 0.5);
    expect_quantile(answer->profit.p90, 0.9);
    EXPECT_LE(answer->profit.chance_of_loss, profit.chance_up_to(0, true) + kRounding);
    EXPECT_GE(answer->profit.chance_of_loss, profit.chance_up_to(0, false) - kRounding);
    if (testing::Test::HasFailure()) return;
  }
}

/// Chances along a plan's tree add up, and what is ahead at a node is what its children promise.
void check_tree(const decision::PlanNode& node) {
  if (node.what == decision::PlanNode::What::revived || node.move.kind == Move::Kind::stop) {
    EXPECT_TRUE(node.children.empty());
    return;
  }
  double chance = 0;
  for (const decision::PlanNode& child : node.children) {
    EXPECT_GT(child.chance, 0);
    chance += child.chance;
    check_tree(child);
  }
  EXPECT_NEAR(chance, node.chance, kAgree);
  EXPECT_NEAR(std::accumulate(node.belief.begin(), node.belief.end(), 0.0), 1, kAgree);
}

TEST(ThePlan, IsATreeWhoseChancesAddUp) {
  for (std::uint64_t seed = 0; seed < case_count(1000); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Case of = random_case(seed);
    const auto answer = decision::verdict(of);
    ASSERT_TRUE(answer);
    check_tree(answer->plan.root);
    EXPECT_NEAR(answer->plan.root.worth, answer->value, kAgree);
    double chance = 0;
    for (const decision::Ending& ending : answer->plan.endings)
      chance += ending.chance;
    EXPECT_NEAR(chance, 1, kAgree);
    if (testing::Test::HasFailure()) return;
  }
}

TEST(TheVerdict, RefusesABadCaseWithItsFirstProblem) {
  Case of = random_case(1);
  of.stops.clear();
  const auto answer = decision::verdict(of);
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error(), diagnosis::problems_of(of).front());
}

}  // namespace
}  // namespace secondpull::test
