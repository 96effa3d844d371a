#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/decision/search.h"

namespace secondpull::decision {

/// What happens where the plan stops deciding: a stop of the case, or a running machine.
struct Ending {
  std::optional<std::size_t> stop;  ///< place in the model's stops; absent: it runs and is sold
  double chance = 0;                ///< of ending here
  double cash = 0;                  ///< spent on the way (negative) and, for a stop, taken in
};

/// A point of the plan: where one stands, what to do, what may come of it.
struct PlanNode {
  enum class What { decide, revived };
  What what = What::decide;  ///< `revived`: the repair above mended it; no move, no children
  std::optional<std::size_t>
      outcome;                 ///< what the test above showed, as a place in its outcomes; absent else
  double chance = 1;           ///< of coming here when the plan is followed
  double worth = 0;            ///< of what lies ahead from here
  std::vector<double> belief;  ///< by cause of the model, adding up to 1
  Move move;
  std::optional<MoveWorth> runner_up;  ///< the best of the other moves; absent if there is none
  double chance_mended = 0;            ///< of a repair as the move: that it mends it now
  std::vector<PlanNode> children;      ///< by outcome; of a repair: revived, then what follows a failure
};

/// What following the plan from the start brings in the mean, stops and the sale included.
struct Expected {
  double cash = 0;
  double hours = 0;
  double days = 0;
  double revived = 0;  ///< chance that it ends with a running machine
};

/// The plan as a tree, and what it comes to.
struct Plan {
  PlanNode root;
  Expected expected;
  std::vector<Ending> endings;  ///< one for each leaf, in the order of the tree; chances add up to 1
};

/// Reads the plan from a solution, following at each position the best move (search.h: best_of). What cannot
/// happen (chance 0) is left out. `price_after_fee` is the mean money for a running machine less the fee's
/// share of it. With Root::going_on the first move is the best that is no stop; there must be one.
Plan read_plan(const Model& model, Solution& solution, double price_after_fee, Root root = Root::any);

}  // namespace secondpull::decision
