#pragma once

#include <string>
#include <vector>

#include "core/learning/tallies.h"
#include "core/lessons/mean.h"

namespace secondpull::lessons {

/// How long a step takes here, in minutes, beside how long it usually does.
struct StepTime {
  enum class Sort { test, repair, work };
  std::string step;  ///< id
  Sort sort = Sort::test;
  Mean own;                       ///< of the times it was timed, at least one
  learning::Range known;          ///< what the knowledge base says
  double expected = 0;            ///< own times drawn towards that: what plans count with
  Differs differs = Differs::no;  ///< own mean against known.typical
};

/// Every step that was timed, most often timed first, then in order of id.
std::vector<StepTime> step_times(const learning::Knowledge& knowledge, const learning::Tallies& tallies);

}  // namespace secondpull::lessons
