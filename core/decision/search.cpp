#include "core/decision/search.h"

#include <algorithm>
#include <cmath>

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

std::unique_ptr<Solution> solve(const Model& model, const Budget& budget, Root root) {
  return sweep(model, budget, root);
}

}  // namespace secondpull::decision
