#include "core/learning/whose.h"

#include <algorithm>

namespace secondpull::learning {

Share share_of_cause(const Symptom& symptom, const std::string& cause, const Tallies& tallies) {
  Share share{.known = causes_of(symptom, {}).count(cause)};
  if (const auto own = tallies.causes.find(symptom.id); own != tallies.causes.end())
    if (const auto cases = own->second.find(cause); cases != own->second.end()) share.own = cases->second;
  return share;
}

Share share_of_cure(const Repair& repair, const std::string& cause, const Tallies& tallies) {
  if (!cure(repair, cause, tallies)) return {};
  const Beta known = cure(repair, cause, {}).value_or(kJeffreys);
  return {known.a + known.b, static_cast<double>(tallies.tries(repair.id, cause).tried)};
}

Share share_of_minutes(const std::string& step, const Range& known, const Tallies& tallies) {
  const auto own = tallies.minutes.find(step);
  return {weight_of_knowledge(known),
          own == tallies.minutes.end() ? 0.0 : static_cast<double>(own->second.size())};
}

}  // namespace secondpull::learning
