#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "core/decision/planner.h"

namespace secondpull::decision {

/// How a step, a stop or an outcome of a test is called. Without one, by its id.
struct Names {
  std::function<std::string(const NamedMove&)> move;
  std::function<std::string(std::string_view test, std::string_view outcome)> outcome;
};

/// One or two plain sentences: why this is the step to take here, by how much it wins, and, for a test, what
/// each outcome leads to. Empty for a machine that runs. `of` is the case that `answer` answers.
std::string why(const PlanNode& here, const Answer& answer, const diagnosis::Case& of,
                const Names& names = {});

/// By how much the step wins over the next best, in one sentence: the end of what why() says of a test or
/// repair. Empty for a machine that runs and for a stop.
std::string why_this(const PlanNode& here, const Answer& answer, const diagnosis::Case& of,
                     const Names& names = {});

}  // namespace secondpull::decision
