#pragma once

#include <memory>

#include "core/decision/search.h"

namespace secondpull::decision {

/// How many states a sweep would solve: every answer of every slot with every number of failed tries. Stops
/// counting at the largest number.
std::size_t states_of(const Model& model);

/// Solves every state once, without looking for the few that matter: the fastest way while there are not too
/// many (8 bytes each). Exact: `value` equals `at_most` at every position.
/// @return nothing if the budget does not allow so many states, ran out or was cancelled; a sweep has no plan
/// until it ends.
std::unique_ptr<Solution> sweep(const Model& model, const Budget& budget, Root root = Root::any);

}  // namespace secondpull::decision
