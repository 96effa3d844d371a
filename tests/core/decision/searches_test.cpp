#include <chrono>
#include <functional>
#include <map>
#include <string>

#include <gtest/gtest.h>

#include "core/decision/depth_first.h"
#include "core/decision/graph_search.h"
#include "core/decision/pair_bound.h"
#include "core/decision/simple_plan.h"
#include "core/decision/sweep.h"
#include "tests/core/decision/case_count.h"
#include "tests/core/decision/plain_solver.h"
#include "tests/core/decision/random_case.h"

namespace secondpull::test {
namespace {

using namespace decision;
using diagnosis::Case;

constexpr double kAgree = 1e-9;

using Search = std::unique_ptr<Solution> (*)(const Model&, const Budget&, Root);

struct NamedSearch {
  const char* name;
  Search run;
};
void PrintTo(const NamedSearch& search, std::ostream* out) {
  *out << search.name;
}

class Searches : public testing::TestWithParam<NamedSearch> {};
INSTANTIATE_TEST_SUITE_P(Each, Searches,
                         testing::Values(NamedSearch{"DepthFirst", search_depth_first},
                                         NamedSearch{"Graph", search_graph}),
                         [](const auto& param) { return std::string(param.param.name); });

/// Large enough that bounds have something to cut off, small enough for the plain solver.
constexpr CaseSizes kSmall{.causes = 6, .tests = 4, .outcomes = 3, .repairs = 4, .tries = 2};
constexpr CaseSizes kMedium{.causes = 9, .tests = 6, .outcomes = 3, .repairs = 6, .tries = 2};

Position after(const Model& model, const Position& at, const Move& move, std::size_t outcome) {
  return move.kind == Move::Kind::repair ? after_failure(at, move.place)
                                         : after_answer(model, at, move.place, outcome);
}

double chance_of(const Model& model, const Position& at) {
  double sum = 0;
  for (const double weight : weights_at(model, at))
    sum += weight;
  return sum;
}

/// The worth of the plan that the solution's best moves make, added up from its endings.
class FollowedPlan {
 public:
  FollowedPlan(const Model& model, Solution& solution) : model_{model}, solution_{solution} {}
  double worth(const Position& at) {
    if (const auto known = known_.find(at); known != known_.end()) return known->second;
    const double here = chance_of(model_, at);
    if (here <= 0) return 0;
    const MoveWorth best = best_of(solution_.moves(at));
    double worth = 0;
    if (best.move.kind == Move::Kind::stop) {
      worth = best.value;
    } else if (best.move.kind == Move::Kind::repair) {
      const Position failed = after(model_, at, best.move, 0);
      const double left = chance_of(model_, failed) / here;
      worth = -model_.repairs[best.move.place].cost.full + (1 - left) * model_.running_worth;
      if (left > 0) worth += left * this->worth(failed);
    } else {
      const Model::Test& test = model_.tests[best.move.place];
      worth = -test.cost.full;
      for (std::size_t outcome = 0; outcome < test.likelihood.size(); ++outcome) {
        const Position seen = after(model_, at, best.move, outcome);
        const double part = chance_of(model_, seen) / here;
        if (part > 0) worth += part * this->worth(seen);
      }
    }
    return known_[at] = worth;
  }

 private:
  const Model& model_;
  Solution& solution_;
  std::map<Position, double> known_;
};

/// Compares what two solutions say of every move at every position that can come about; the first is exact.
void expect_bounds_hold_everywhere(const Model& model, Solution& exact, Solution& searched) {
  std::map<Position, bool> seen;
  std::function<void(const Position&)> visit = [&](const Position& at) {
    if (!seen.emplace(at, true).second || chance_of(model, at) <= 0) return;
    const auto expected = exact.moves(at);
    const auto given = searched.moves(at);
    ASSERT_EQ(given.size(), expected.size());
    for (std::size_t i = 0; i < given.size(); ++i) {
      ASSERT_EQ(given[i].move, expected[i].move);
      EXPECT_LE(given[i].value, expected[i].value + kAgree);
      EXPECT_GE(given[i].at_most, expected[i].value - kAgree);
      if (given[i].move.kind == Move::Kind::stop) continue;
      const std::size_t outcomes =
          given[i].move.kind == Move::Kind::repair ? 1 : model.tests[given[i].move.place].likelihood.size();
      for (std::size_t outcome = 0; outcome < outcomes; ++outcome)
        visit(after(model, at, given[i].move, outcome));
    }
  };
  visit(start_of(model));
}

TEST_P(Searches, FindWhatThePlainSolverFinds) {
  for (std::uint64_t seed = 0; seed < case_count(400); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Case of = random_case(seed, kSmall);
    const Model model = model_of(of);
    const auto solution = GetParam().run(model, {}, Root::any);
    ASSERT_NE(solution, nullptr);
    const PlainCourse expected = PlainSolver{of}.solve();
    EXPECT_NEAR(solution->progress().value, expected.value, kAgree);
    EXPECT_EQ(solution->progress().at_most, solution->progress().value);
    const MoveWorth best = best_of(solution->moves(start_of(model)));
    EXPECT_NEAR(best.value, expected.value, kAgree);
    EXPECT_NEAR(FollowedPlan(model, *solution).worth(start_of(model)), expected.value, kAgree);
    if (testing::Test::HasFailure()) return;
  }
}

TEST_P(Searches, PreferTheSameOfEqualMovesAsASweep) {
  for (std::uint64_t seed = 1000; seed < 1000 + case_count(300); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Model model = model_of(random_case(seed, kSmall));
    const auto solution = GetParam().run(model, {}, Root::any);
    const auto exact = sweep(model, {}, Root::any);
    EXPECT_EQ(best_of(solution->moves(start_of(model))).move, best_of(exact->moves(start_of(model))).move);
    if (testing::Test::HasFailure()) return;
  }
}

TEST_P(Searches, BoundEveryMoveAtEveryPosition) {
  for (std::uint64_t seed = 2000; seed < 2000 + case_count(100); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Model model = model_of(random_case(seed));
    const auto solution = GetParam().run(model, {}, Root::any);
    const auto exact = sweep(model, {}, Root::any);
    expect_bounds_hold_everywhere(model, *exact, *solution);
    if (testing::Test::HasFailure()) return;
  }
}

TEST_P(Searches, AgreeWithASweepOnMiddlingCases) {
  for (std::uint64_t seed = 3000; seed < 3000 + case_count(60); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Model model = model_of(random_case(seed, kMedium));
    if (states_of(model) > 2'000'000) continue;
    const auto solution = GetParam().run(model, {}, Root::any);
    const auto exact = sweep(model, {}, Root::any);
    EXPECT_NEAR(solution->progress().value, exact->progress().value, kAgree);
    EXPECT_NEAR(FollowedPlan(model, *solution).worth(start_of(model)), exact->progress().value, kAgree);
    if (testing::Test::HasFailure()) return;
  }
}

TEST_P(Searches, FindTheBestPlanThatGoesOn) {
  for (std::uint64_t seed = 4000; seed < 4000 + case_count(300); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Model model = model_of(random_case(seed, kSmall));
    if (model.tests.empty() && model.repairs.empty()) continue;
    const auto solution = GetParam().run(model, {}, Root::going_on);
    const auto exact = sweep(model, {}, Root::going_on);
    EXPECT_NEAR(solution->progress().value, exact->progress().value, kAgree);
    EXPECT_EQ(solution->progress().at_most, solution->progress().value);
    EXPECT_EQ(solution->moves(start_of(model)).size(), exact->moves(start_of(model)).size());
    if (testing::Test::HasFailure()) return;
  }
}

TEST_P(Searches, TakeTheSameWayEveryTime) {
  for (std::uint64_t seed = 5000; seed < 5000 + case_count(30); ++seed) {
    const Model model = model_of(random_case(seed, kMedium));
    const auto once = GetParam().run(model, {}, Root::any);
    const auto twice = GetParam().run(model, {}, Root::any);
    EXPECT_EQ(once->progress().value, twice->progress().value);
    EXPECT_EQ(once->progress().states, twice->progress().states);
    EXPECT_EQ(best_of(once->moves(start_of(model))).move, best_of(twice->moves(start_of(model))).move);
  }
}

/// The first middling case that takes many states.
Model hard_model() {
  for (std::uint64_t seed = 8000;; ++seed) {
    Model model = model_of(random_case(seed, kMedium));
    if (search_depth_first(model, {}, Root::any)->progress().states > 4000) return model;
  }
}

TEST(GraphSearch, StatesAPlanAndABoundWheneverItsBudgetEnds) {
  for (std::uint64_t seed = 6000; seed < 6000 + case_count(60); ++seed) {
    const Model model = model_of(random_case(seed, kMedium));
    if (states_of(model) > 2'000'000) continue;
    const auto exact = sweep(model, {}, Root::any);
    for (const std::size_t states : {0U, 1U, 5U, 20U, 80U, 320U}) {
      SCOPED_TRACE(testing::Message() << "seed " << seed << ", states " << states);
      const auto solution = search_graph(model, {.states = states}, Root::any);
      const Progress progress = solution->progress();
      EXPECT_LE(progress.value, exact->progress().value + kAgree);
      EXPECT_GE(progress.at_most, exact->progress().value - kAgree);
      const auto moves = solution->moves(start_of(model));
      EXPECT_NEAR(best_of(moves).value, progress.value, kAgree);
      for (const MoveWorth& move : moves)
        EXPECT_LE(move.value, move.at_most);
      EXPECT_NEAR(FollowedPlan(model, *solution).worth(start_of(model)), progress.value, kAgree);
    }
    if (testing::Test::HasFailure()) return;
  }
}

TEST(GraphSearch, AnswersWithWhatItHasWhenCancelled) {
  const Model model = hard_model();
  for (const int patience : {0, 1, 3, 30}) {
    int asked = 0;
    Progress last;
    const auto solution = search_graph(model,
                                       {.go_on =
                                            [&](const Progress& progress) {
                                              last = progress;
                                              return asked++ < patience;
                                            }},
                                       Root::any);
    ASSERT_NE(solution, nullptr);
    EXPECT_LE(asked, patience + 1);
    EXPECT_GE(solution->progress().value, last.value);
    EXPECT_LE(solution->progress().at_most, last.at_most);
    EXPECT_NEAR(FollowedPlan(model, *solution).worth(start_of(model)), solution->progress().value, kAgree);
  }
}

TEST(GraphSearch, HeedsTheTimeItIsGiven) {
  const Model model = hard_model();
  const auto solution = search_graph(
      model, {.time = std::chrono::seconds{1}, .spent = [] { return std::chrono::seconds{1}; }}, Root::any);
  EXPECT_EQ(solution->progress().states, 1U);
}

TEST(DepthFirst, HasNoAnswerIfItMayNotComeToTheEnd) {
  const Model model = hard_model();
  EXPECT_EQ(search_depth_first(model, {.states = 3000}, Root::any), nullptr);
  EXPECT_EQ(search_depth_first(model, {.bytes = 100'000}, Root::any), nullptr);
  EXPECT_EQ(search_depth_first(model, {.go_on = [](const Progress&) { return false; }}, Root::any), nullptr);
  const auto late = [] { return std::chrono::seconds{2}; };
  EXPECT_EQ(search_depth_first(model, {.time = std::chrono::seconds{1}, .spent = late}, Root::any), nullptr);
}

/// At every position, what is known without a search brackets what is known with one.
TEST(Bounds, HoldAtEveryPosition) {
  for (std::uint64_t seed = 7000; seed < 7000 + case_count(100); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Model model = model_of(random_case(seed, kSmall));
    const auto exact = sweep(model, {}, Root::any);
    const StateSpace space(model);
    PairBound pairs(space);
    pairs.optimise_root(space.start(), 5, {});
    std::map<Position, bool> seen;
    std::function<void(const Position&)> visit = [&](const Position& at) {
      if (!seen.emplace(at, true).second) return;
      const State state = space.at(at);
      if (state.mass <= 0) return;
      const double worth = best_of(exact->moves(at)).value * state.mass;
      const double perfect = space.perfect_worth(state);
      PairBound::Parts parts;
      EXPECT_LE(worth, perfect + kAgree);
      EXPECT_GE(worth, simple_plan(space, state).worth - kAgree);
      pairs.bound(state, PairBound::root_set, parts);
      EXPECT_LE(worth, perfect - parts.total + kAgree);
      for (const MoveWorth& move : exact->moves(at)) {
        if (move.move.kind == Move::Kind::stop) continue;
        const std::size_t step = step_of(space.layout(), move.move);
        const double charge = space.charge(state, step);
        const double rest = pairs.after_step(state, PairBound::root_set, parts, step, charge,
                                             std::numeric_limits<double>::max());
        EXPECT_LE(move.value * state.mass, perfect - charge - rest + kAgree);
        EXPECT_GE(move.value * state.mass, simple_worth_after(space, state, step) - kAgree);
        const std::size_t outcomes =
            move.move.kind == Move::Kind::repair ? 1 : model.tests[move.move.place].likelihood.size();
        for (std::size_t outcome = 0; outcome < outcomes; ++outcome)
          visit(after(model, at, move.move, outcome));
      }
      // Shares made for another belief bound just as well.
      if (seen.size() == 7) {
        const auto better = pairs.improved(state, PairBound::root_set, 3);
        if (better) {
          pairs.bound(state, *better, parts);
          EXPECT_LE(worth, perfect - parts.total + kAgree);
        }
      }
    };
    visit(start_of(model));
    if (testing::Test::HasFailure()) return;
  }
}

}  // namespace
}  // namespace secondpull::test
