#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/decision/planner.h"
#include "core/learning/machine_case.h"
#include "core/learning/whose.h"
#include "core/planning/situation.h"

namespace secondpull::planning {

/// A number that a plan is made with, and where it comes from.
struct CaseNumber {
  enum class What {
    price,  ///< of the running machine, money
    days_to_sell,
    hours_to_sell,  ///< its comeback's share included
    comeback,       ///< chance
    step_minutes,
    step_cost,   ///< money
    cure,        ///< chance that the step cures the likeliest of the causes that it can cure
    stop_value,  ///< money
    cause_share  ///< how often that cause is behind the symptom before anything was seen, [0, 1]
  };
  What what = What::price;
  std::string path;  ///< learning/own_numbers.h
  std::string of;    ///< id of the cause (cure, cause_share) or of the stop (stop_value); else empty
  double value = 0;  ///< as the plan has it
  std::optional<double> computed;        ///< what it would be, where the owner said another
  std::optional<learning::Share> share;  ///< knowledge base and own record, where both are counted
  double others = 0;                     ///< cause_share: what the other causes weigh together
};

/// The numbers behind the plan of a machine that a person may want to put right: of its sale, of the step
/// shown (none for a stop), of each other ending, and of the causes, the most frequent first.
std::vector<CaseNumber> case_numbers(const Situation& situation, const learning::MachineCase& asked,
                                     const std::optional<decision::NamedMove>& step);

/// The weight (the number at its path) with which a cause has that share, the other causes as they are.
/// @param share  [0, 1)
double weight_for_share(const CaseNumber& cause, double share);

}  // namespace secondpull::planning
