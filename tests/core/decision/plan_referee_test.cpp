#include <map>
#include <vector>

#include <gtest/gtest.h>

#include "core/decision/search.h"
#include "tests/core/decision/case_count.h"
#include "tests/core/decision/linear_program.h"
#include "tests/core/decision/plain_solver.h"
#include "tests/core/decision/random_case.h"

namespace secondpull::test {
namespace {

constexpr double kAgree = 1e-7;

// The referee itself: max 3x + 5y with x <= 4, 2y <= 12, 3x + 2y <= 18 is 36 at (2, 6), its shadow prices 0,
// 1.5, 1. F. Hillier and G. Lieberman, Introduction to Operations Research, the example of the glass doors
// and windows (second hand).
TEST(LinearProgram, ReadsSolutionAndPricesRightly) {
  LinearProgram program{LinearProgram::Aim::largest};
  const std::size_t x = program.add_variable(3);
  const std::size_t y = program.add_variable(5);
  program.add_at_most({{x, 1}}, 4);
  program.add_at_most({{y, 2}}, 12);
  program.add_at_most({{x, 3}, {y, 2}}, 18);
  const auto solved = program.solve();
  ASSERT_TRUE(solved);
  EXPECT_NEAR(solved->objective, 36, kAgree);
  EXPECT_NEAR(solved->values[x], 2, kAgree);
  EXPECT_NEAR(solved->values[y], 6, kAgree);
  EXPECT_NEAR(solved->prices[0], 0, kAgree);
  EXPECT_NEAR(solved->prices[1], 1.5, kAgree);
  EXPECT_NEAR(solved->prices[2], 1, kAgree);
}

TEST(LinearProgram, SaysWhenThereIsNoSolution) {
  LinearProgram program{LinearProgram::Aim::largest};
  const std::size_t x = program.add_variable(1);
  program.add_at_most({{x, 1}}, 1);
  program.add_at_least({{x, 1}}, 2);
  EXPECT_FALSE(program.solve());
}

/// The worth of the best plan as the smallest V over the states of the evidence that no move beats:
/// V(s) >= worth now + sum of chance x V(next). M. Puterman, Markov Decision Processes (from memory).
class PlanProgram {
 public:
  explicit PlanProgram(const diagnosis::Case& of) : plain_{of} { add(plain_.start()); }

  double value() const {
    const auto solved = program_.solve();
    EXPECT_TRUE(solved);
    return solved ? solved->values[0] : 0;
  }

 private:
  PlainSolver plain_;
  LinearProgram program_{LinearProgram::Aim::smallest};
  std::map<PlainState, std::size_t> variables_;

  std::size_t add(const PlainState& state) {
    if (const auto known = variables_.find(state); known != variables_.end()) return known->second;
    const std::size_t v = program_.add_variable(1, true);
    variables_.emplace(state, v);
    for (const PlainMove& move : plain_.moves(state)) {
      LinearProgram::Terms terms{{v, 1}};
      for (const PlainMove::Branch& branch : move.branches)
        terms.emplace_back(add(branch.next), -branch.chance);
      program_.add_at_least(terms, plain_.worth(move.now));
    }
    return v;
  }
};

TEST(PlanReferee, FindsTheWorthOfThePlannersPlan) {
  constexpr CaseSizes kSmall{.causes = 4, .tests = 3, .outcomes = 2, .repairs = 3, .tries = 2};
  for (std::uint64_t seed = 0; seed < case_count(400); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const diagnosis::Case of = random_case(seed, kSmall);
    const decision::Model model = decision::model_of(of);
    const auto solution = decision::solve(model, {});
    EXPECT_NEAR(solution->progress().value, PlanProgram{of}.value(), kAgree);
    if (testing::Test::HasFailure()) return;
  }
}

}  // namespace
}  // namespace secondpull::test
