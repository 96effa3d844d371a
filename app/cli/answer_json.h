#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "core/decision/hours.h"
#include "core/decision/planner.h"

namespace secondpull::cli {

/// The result of the decision model with its fields' names, and what a reader of the plan wants besides: the
/// ranking of first moves, beliefs and a sentence at each node.
nlohmann::ordered_json json_of(const decision::Answer& answer, const diagnosis::Case& of);
nlohmann::ordered_json json_of(const decision::HoursAnswer& answer);
nlohmann::ordered_json json_of(const std::vector<decision::Demand>& demand);

/// The same for a person at a terminal: the verdict, the figures, the ranking, the plan as an indented tree.
std::string words_of(const decision::Answer& answer, const diagnosis::Case& of);

}  // namespace secondpull::cli
