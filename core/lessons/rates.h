#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/learning/tallies.h"
#include "core/lessons/mean.h"

namespace secondpull::lessons {

/// How often a repair mends here, beside how often it usually does.
struct CureRate {
  std::string cause;     ///< id; empty: all that it was tried on
  learning::Tries own;   ///< on faults that ended with a named cause; at least one try
  learning::Beta known;  ///< what is believed without the own tries
  /// How often it usually mends; absent where the knowledge base does not know that it can.
  std::optional<double> usually;
  learning::Beta now;  ///< what is believed with them
  Differs differs = Differs::no;

  /// How often it worked here, [0, 1].
  double share() const { return static_cast<double>(own.cured) / static_cast<double>(own.tried); }
  /// Between which bounds the chance lies with kShownLevel, own tries and knowledge base together.
  Interval range() const { return now.central(kShownLevel); }
};

/// A repair that has been tried.
struct RepairRate {
  std::string repair;  ///< id
  /// Over all causes. Its belief has the counts of each cause, weighted by how often it was tried on that:
  /// for one cause alone this is that cause's; for several it speaks of the mix that this shop meets.
  CureRate all;
  std::vector<CureRate> by_cause;  ///< most tried first
};

/// Every repair that the record tells of, most tried first, then in order of id.
std::vector<RepairRate> repair_rates(const learning::Knowledge& knowledge, const learning::Tallies& tallies);

/// Does the own record of tries differ from a chance? From kLeastCases tries on, if the Jeffreys interval of
/// the tries alone, at kSayingLevel, does not hold it. The interval's source is beta.h; that it is what
/// decides is common practice, no source.
Differs differs(learning::Tries own, double usually);

}  // namespace secondpull::lessons
