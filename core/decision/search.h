#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <limits>
#include <memory>
#include <vector>

#include "core/decision/model.h"
#include "core/decision/position.h"

namespace secondpull::decision {

/// A first move. The order of the kinds, then of the places, is the order in which equal moves are preferred.
struct Move {
  enum class Kind { stop, repair, test };
  Kind kind = Kind::stop;
  std::size_t place = 0;  ///< in the model's list of that kind
  friend auto operator<=>(const Move&, const Move&) = default;
};

/// Moves whose worth differs by no more than this are worth the same.
inline constexpr double tie = 1e-9;

/// What a move is worth when it is made now and the best plan follows: at least `value` (the plan found so
/// far), at most `at_most` (proved). Equal where the answer is exact.
struct MoveWorth {
  Move move;
  double value = 0;
  double at_most = 0;
};

/// How far a search is.
struct Progress {
  double value = 0;    ///< worth of the best plan found so far
  double at_most = 0;  ///< proved: no plan is worth more
  std::size_t states = 0;
  std::size_t bytes = 0;  ///< of the search's own tables
};

/// Whether value and bound have met, but for rounding: the answer is exact.
bool has_met(const Progress& progress);

/// What a search may use. Core has no clock of its own: without `spent` the time does not count.
struct Budget {
  std::size_t states = std::numeric_limits<std::size_t>::max();
  std::size_t bytes = 500'000'000;  ///< about; the search keeps below it
  std::chrono::nanoseconds time = std::chrono::nanoseconds::max();
  std::function<std::chrono::nanoseconds()> spent;  ///< time used since the search was asked for
  std::function<bool(const Progress&)>
      go_on;  ///< asked now and then; false cancels: the plan so far is the answer
};

/// Whether stopping is allowed as the very first move. Without it the search finds the best plan that goes
/// on, even where stopping would be better: what break-even figures are about.
enum class Root { any, going_on };

/// A case solved, exactly or as far as the budget went.
class Solution {
 public:
  virtual ~Solution() = default;

  /// The worth of what can be done at a position, in units of money given that one is there; in the order of
  /// Move. At the root of a Root::going_on search the stops are listed too. Where the search did not look,
  /// `value` is that of a simple plan (repairs by chance per cost, then the best stop) and `at_most` a valid
  /// bound. Not const: a search may look further here to answer exactly, as far as its budget allows.
  virtual std::vector<MoveWorth> moves(const Position& at) = 0;
  virtual Progress progress() const = 0;
};

/// The move to make among `moves`: the highest value; of those worth the same (within `tie`) the first.
const MoveWorth& best_of(const std::vector<MoveWorth>& moves);

/// Solves the case by the method that fits its size: every state where they are few, else a search with
/// bounds. `model` must outlive the solution. Same model, same state budget: same answer.
std::unique_ptr<Solution> solve(const Model& model, const Budget& budget, Root root = Root::any);

}  // namespace secondpull::decision
