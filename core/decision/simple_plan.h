#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/decision/search.h"
#include "core/decision/state_space.h"

namespace secondpull::decision {

/// The plan that makes no tests: repairs by chance of mending per cost, then the best stop, cut off where
/// going on no longer pays. A lower bound. Worth is unnormalised.
struct SimplePlan {
  double worth = 0;
  std::optional<std::size_t> repair;  ///< its first step; none: the best stop
};
SimplePlan simple_plan(const StateSpace& space, const State& at);

/// The unnormalised worth of making the step and following the simple plan afterwards.
double simple_worth_after(const StateSpace& space, const State& at, std::size_t step);

/// The stops in the model's order with their worth, given that one is there; 0 where nobody can be.
std::vector<MoveWorth> stops_at(const StateSpace& space, const State& at);

/// The step as a move, and the move (no stop) as a step.
Move move_of(const Layout& layout, std::size_t step);
std::size_t step_of(const Layout& layout, const Move& move);

}  // namespace secondpull::decision
