#pragma once

#include <cstddef>

#include "core/decision/model.h"

namespace secondpull::bench {

/// What the planner is measured against: the value function solved at every state in the plainest way, one
/// after the other, with no thought spent on speed beyond a flat table.
struct PlainSweep {
  double value = 0;
  std::size_t states = 0;
  std::size_t bytes = 0;
};
PlainSweep plain_sweep(const decision::Model& model);

}  // namespace secondpull::bench
