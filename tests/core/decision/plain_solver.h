#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "core/diagnosis/case.h"

/// The decision model written down once more, to be obviously right and not to be fast: the planner is held
/// against it. It shares no code with what it checks, reads the case itself, and works the belief out anew
/// from the whole history at every state.
namespace secondpull::test {

/// What was done and seen: for each test of the case its outcome, or `not_made`; for each repair how often it
/// failed. The belief depends on nothing else.
struct PlainState {
  std::vector<int> shown;
  std::vector<int> failed;
  friend auto operator<=>(const PlainState&, const PlainState&) = default;
};
inline constexpr int not_made = -1;

struct PlainFigures {
  double cash = 0;
  double hours = 0;
  double days = 0;
};

/// A move at a state, and what comes of it.
struct PlainMove {
  struct Branch {
    double chance;
    PlainState next;
  };
  std::string kind;  ///< "stop", "repair" or "test"
  std::string id;
  PlainFigures now;                       ///< expected at once, the sale included where the machine runs
  std::map<std::string, double> endings;  ///< chance of ending here: a stop's id, or "revived"
  std::vector<Branch> branches;           ///< where it goes on; with `endings` the chances add up to 1
};

/// The best course from a state on.
struct PlainCourse {
  double value = 0;
  std::string kind;
  std::string id;
  PlainFigures expected;
  std::map<std::string, double> chances;  ///< of every ending that the case knows
};

class PlainSolver {
 public:
  /// @param of  has no problems (diagnosis::problems_of)
  explicit PlainSolver(diagnosis::Case of) : case_{std::move(of)} {}

  PlainState start() const;                                     ///< with the evidence in it
  std::vector<double> belief(const PlainState& state) const;    ///< p(cause | history), by cause
  std::vector<PlainMove> moves(const PlainState& state) const;  ///< stops, repairs, tests, as in the case
  double worth(const PlainFigures& figures) const;

  /// The worth of a move if the best course follows.
  double value(const PlainMove& move);
  const PlainCourse& best(const PlainState& state);
  PlainCourse solve() { return best(start()); }

 private:
  diagnosis::Case case_;
  std::map<PlainState, PlainCourse> solved_;

  double likelihood(std::size_t test, std::size_t outcome, std::size_t cause) const;
  double cure(std::size_t repair, std::size_t cause) const;
  bool may_test(const PlainState& state, std::size_t test) const;
  PlainMove stop(std::size_t place, const std::vector<double>& belief) const;
  PlainMove repair(std::size_t place, const PlainState& state, const std::vector<double>& belief) const;
  PlainMove test(std::size_t place, const PlainState& state, const std::vector<double>& belief) const;
  PlainFigures sale() const;
};

/// The worth of following the myopic plan: at every state the move that is best if stopping comes next.
double myopic_value(const diagnosis::Case& of);

}  // namespace secondpull::test
