#pragma once

#include <string>

#include "core/decision/why.h"
#include "core/learning/knowledge.h"

namespace secondpull::planning {

/// A step or a stop as a person calls it: "Prime test", "sell as is".
std::string called(const decision::NamedMove& move, const learning::Knowledge& knowledge);
/// An outcome of a test likewise; its id where the knowledge base has it not.
std::string called_outcome(std::string_view test, std::string_view outcome,
                           const learning::Knowledge& knowledge);
std::string called_cause(std::string_view cause, const learning::Knowledge& knowledge);
/// Both for decision::why. `knowledge` must outlive them.
decision::Names names_in(const learning::Knowledge& knowledge);

}  // namespace secondpull::planning
