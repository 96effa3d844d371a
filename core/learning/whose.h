#pragma once

#include <string>

#include "core/learning/own_sales.h"
#include "core/learning/tallies.h"

namespace secondpull::learning {

// Whose number is it? A number of a case is drawn from the knowledge base and from this shop's own record,
// each with a weight; these say the weights.

/// The two weights, >= 0, in the unit of what is counted: cases, tries, times, sales.
struct Share {
  double known = 0;  ///< the knowledge base
  double own = 0;    ///< this shop's record
  friend bool operator==(const Share&, const Share&) = default;

  /// How much of the number is own, [0, 1]; 0 where nothing counts.
  double own_part() const { return known + own > 0 ? own / (known + own) : 0; }
};

/// Of a cause's weight (causes_of): cases believed and cases confirmed here. For kUnlisted too.
Share share_of_cause(const Symptom& symptom, const std::string& cause, const Tallies& tallies);

/// Of a chance to cure (cure): what the knowledge base's Beta counts and own tries. Where the base does not
/// list the cause and the record has seen it cured, Jeffreys' prior counts as known: 1 try. Nothing where
/// neither knows of it.
Share share_of_cure(const Repair& repair, const std::string& cause, const Tallies& tallies);

/// Of the minutes of a step (minutes_of): own times that the knowledge base weighs as, and own times.
Share share_of_minutes(const std::string& step, const Range& known, const Tallies& tallies);

}  // namespace secondpull::learning
