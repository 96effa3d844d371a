#include <set>
#include <string>

#include <gtest/gtest.h>

#include "core/decision/search.h"
#include "tests/core/decision/case_count.h"
#include "tests/core/decision/plain_solver.h"
#include "tests/core/decision/random_case.h"

namespace secondpull::test {
namespace {

using namespace decision;
using diagnosis::Case;

constexpr double kAgree = 1e-9;

std::string kind_of(const Move& move) {
  switch (move.kind) {
    case Move::Kind::stop:
      return "stop";
    case Move::Kind::repair:
      return "repair";
    case Move::Kind::test:
      return "test";
  }
  return {};
}

/// Walks every state that can come about, in the planner's words and in the plain solver's, and compares what
/// each move is worth there.
class Walk {
 public:
  Walk(const Case& of, const Model& model, Solution& solution)
      : case_{of}, model_{model}, solution_{solution}, plain_{of} {}

  void run() { visit(start_of(model_), plain_.start()); }

 private:
  const Case& case_;
  const Model& model_;
  Solution& solution_;
  PlainSolver plain_;
  std::set<PlainState> visited_;

  std::string id_of(const Move& move) const {
    switch (move.kind) {
      case Move::Kind::stop:
        return case_.stops[model_.stops[move.place].in_case].id;
      case Move::Kind::repair:
        return case_.repairs[model_.repairs[move.place].in_case].id;
      case Move::Kind::test:
        return case_.tests[model_.tests[move.place].in_case].id;
    }
    return {};
  }

  Position after(const Position& at, const PlainState& from, const Move& move, const PlainState& to) const {
    if (move.kind == Move::Kind::repair) return after_failure(at, move.place);
    const std::size_t test = model_.tests[move.place].in_case;
    EXPECT_EQ(from.shown[test], not_made);
    return after_answer(model_, at, move.place, static_cast<std::size_t>(to.shown[test]));
  }

  void visit(const Position& at, const PlainState& state) {
    if (!visited_.insert(state).second) return;
    const std::vector<MoveWorth> given = solution_.moves(at);
    const std::vector<PlainMove> expected = plain_.moves(state);
    ASSERT_EQ(given.size(), expected.size());
    for (std::size_t m = 0; m < given.size(); ++m) {
      ASSERT_EQ(kind_of(given[m].move), expected[m].kind);
      ASSERT_EQ(id_of(given[m].move), expected[m].id);
      EXPECT_NEAR(given[m].value, plain_.value(expected[m]), kAgree) << expected[m].id;
      EXPECT_NEAR(given[m].at_most, given[m].value, kAgree) << expected[m].id;
    }
    const PlainCourse& best = plain_.best(state);
    EXPECT_EQ(kind_of(best_of(given).move), best.kind);
    EXPECT_EQ(id_of(best_of(given).move), best.id);
    for (std::size_t m = 0; m < given.size(); ++m)
      for (const PlainMove::Branch& branch : expected[m].branches)
        visit(after(at, state, given[m].move, branch.next), branch.next);
  }
};

TEST(MovesOfASolution, AreWorthWhatThePlainSolverSaysAtEveryState) {
  for (std::uint64_t seed = 0; seed < case_count(600); ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Case of = random_case(seed);
    const Model model = model_of(of);
    const auto solution = solve(model, Budget{});
    Walk{of, model, *solution}.run();
    if (testing::Test::HasFailure()) return;
  }
}

}  // namespace
}  // namespace secondpull::test
