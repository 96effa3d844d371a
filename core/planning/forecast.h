#pragma once

#include "core/decision/planner.h"
#include "core/diagnosis/case.h"
#include "core/shop/steps.h"

namespace secondpull::planning {

/// What a plan promises of the case that it answers, to be held against what came: money to come and its
/// tenth and ninetieth percent without what the machine has cost so far, which stands apart.
Promise promise_of(const diagnosis::Case& of, const decision::Answer& answer);

}  // namespace secondpull::planning
