#pragma once

#include <string>
#include <vector>

#include "core/decision/planner.h"

namespace secondpull::planning {

/// Where a plan that goes on gives up after all.
struct GivingUp {
  decision::NamedMove after;  ///< the last step before
  std::string outcome;        ///< what it showed, if it is a test; empty: the repair did not help
  decision::NamedMove stop;   ///< how the plan ends there
  double chance = 0;          ///< of coming there
};
/// The points at which the plan stops, likeliest first; the same last step with the same outcome once, its
/// chances together. Empty for a plan that stops at once.
std::vector<GivingUp> stop_if(const decision::Answer& answer, const diagnosis::Case& of);

}  // namespace secondpull::planning
