#pragma once

#include <memory>

#include "core/decision/search.h"

namespace secondpull::decision {

/// Solves the case by best-first search on merged states, bounded from above by the pairs of causes
/// (PairBound) and from below by the best stop or the simple plan. It has a plan and a proved gap from the
/// start, and betters both until it is exact or its budget is used up; a cancelled search answers with what
/// it has. Never null. Without a limit on time the same case gives the same plan.
std::unique_ptr<Solution> search_graph(const Model& model, const Budget& budget, Root root);

}  // namespace secondpull::decision
