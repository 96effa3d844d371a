#include "core/decision/search.h"

#include <algorithm>
#include <cmath>

#include "core/decision/depth_first.h"
#include "core/decision/graph_search.h"
#include "core/decision/sweep.h"

namespace secondpull::decision {

bool has_met(const Progress& progress) {
  return progress.at_most - progress.value <= tie * std::max(1.0, std::abs(progress.value));
}

const MoveWorth& best_of(const std::vector<MoveWorth>& moves) {
  double best = -std::numeric_limits<double>::infinity();
  for (const MoveWorth& move : moves)
    best = std::max(best, move.value);
  return *std::find_if(moves.begin(), moves.end(),
                       [&](const MoveWorth& move) { return move.value >= best - tie; });
}

namespace {

// Which method is the fastest for a size was measured (tests/bench, planner_bench); the limits are counts, so
// that the same case takes the same way on any machine.

/// Up to so many states nothing is faster than solving them all.
constexpr std::size_t small_sweep = std::size_t{4} << 20;
/// Up to so many a sweep takes about a second.
constexpr std::size_t large_sweep = 62'000'000;
/// With few ways that the tests can come out, perfect information is bound enough.
constexpr std::size_t few_answers = 3000;
/// Depth first is quickest if it is quick: beyond so many states a sweep is, where there is one, and else the
/// better bound.
constexpr std::size_t depth_first_before_sweep = 150'000;
constexpr std::size_t depth_first_alone = 4'000'000;

std::size_t tries_of(const Model& model) {
  std::size_t tries = 1;
  for (const Model::Repair& repair : model.repairs)
    tries = std::min(tries * (static_cast<std::size_t>(repair.tries) + 1),
                     std::numeric_limits<std::size_t>::max() / 256);
  return tries;
}

}  // namespace

std::unique_ptr<Solution> solve(const Model& model, const Budget& budget, Root root) {
  const std::size_t states = states_of(model);
  if (states <= small_sweep)
    if (auto solution = sweep(model, budget, root)) return solution;
  const bool can_sweep = states <= large_sweep;
  if (states / tries_of(model) <= few_answers) {
    Budget first = budget;
    first.states = std::min(first.states, can_sweep ? depth_first_before_sweep : depth_first_alone);
    if (auto solution = search_depth_first(model, first, root)) return solution;
  }
  if (can_sweep && states > small_sweep)
    if (auto solution = sweep(model, budget, root)) return solution;
  return search_graph(model, budget, root);
}

}  // namespace secondpull::decision
