#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/learning/knowledge.h"
#include "core/shop/stage.h"

namespace secondpull::planning {

/// What a machine on the bench waits for.
struct BenchMoment {
  enum class What {
    symptom,   ///< nobody said what it does wrong, or not in words that the knowledge base has
    step,      ///< a test, a repair or a stop: the planner says which
    cause,     ///< a repair mended it: what was it?
    finish,    ///< no fault is open: known work, the test run, the looks before the sale
    given_up,  ///< the last fault was given up
    gone       ///< it is not here any more
  };
  What what = What::symptom;
  std::optional<FaultId> fault;  ///< the latest open one; absent: none is, or none was opened yet
  /// symptom: as it was written, perhaps empty; step: in the words of the record.
  std::string symptom;
  std::optional<FindingId> mended;  ///< cause: the finding that says so
};
BenchMoment bench_moment(const ByMachine::Lines& lines, const learning::Knowledge& knowledge);

/// Causes that a repair may have cured, likeliest first, for "what was it?": those of the symptom by how
/// often they are behind it given what was seen (`posterior` by the cause's id; empty: as the knowledge base
/// has them) times the chance that this repair cures them. Chances add up to 1.
std::vector<std::pair<std::string, double>> causes_of_cure(const learning::Repair& repair,
                                                           const learning::ByCause<double>& posterior);

}  // namespace secondpull::planning
