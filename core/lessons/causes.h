#pragma once

#include <string>
#include <vector>

#include "core/learning/tallies.h"
#include "core/lessons/mean.h"

namespace secondpull::lessons {

/// How often a cause is behind a symptom here, beside how often it usually is.
struct CauseShare {
  std::string cause;     ///< id; learning::kUnlisted for one that is not on the list
  std::int64_t own = 0;  ///< confirmed cases
  double usually = 0;    ///< the knowledge base's share, [0, 1]; 0 where it does not list it
  double now = 0;        ///< with the own cases: what plans are made with
  Interval range;        ///< of that, with kShownLevel
  /// The own cases alone against `usually`; see differs(Tries, double).
  Differs differs = Differs::no;
};

struct SymptomCauses {
  std::string symptom;             ///< id
  std::int64_t cases = 0;          ///< confirmed here, at least one
  std::vector<CauseShare> causes;  ///< most confirmed first, then the likelier; those never confirmed too
};

/// Every symptom of which a cause was confirmed, most cases first. Each cause's range is that of its share
/// under the Dirichlet distribution of causes_of: alone it is Beta(count, all counts - count). Source: Gelman
/// et al., Bayesian Data Analysis, appendix A (from memory).
std::vector<SymptomCauses> confirmed_causes(const learning::Knowledge& knowledge,
                                            const learning::Tallies& tallies);

}  // namespace secondpull::lessons
