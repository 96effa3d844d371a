#pragma once

#include <memory>

#include "core/decision/search.h"

namespace secondpull::decision {

/// Solves the case by depth-first branch and bound: states merged in a table, perfect information as the
/// bound. The best method where tests are few or noisy; memory and time grow fast with tests that tell much.
/// Null if it did not come to the end: the state or byte budget was used up, the time was, or the caller
/// stopped it. How many states it may hold is the only thing that decides between it and another method when
/// there is no limit on time, so the same case takes the same way every time.
std::unique_ptr<Solution> search_depth_first(const Model& model, const Budget& budget, Root root);

}  // namespace secondpull::decision
