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
    step_cost,  ///< money
    cure,       ///< chance that the step cures the likeliest of the causes that it can cure
    stop_value  ///< money
  };
  What what = What::price;
  std::string path;                      ///< learning/own_numbers.h
  std::string of;                        ///< id of the cause (cure) or of the stop (stop_value); else empty
  double value = 0;                      ///< as the plan has it
  std::optional<double> computed;        ///< what it would be, where the owner said another
  std::optional<learning::Share> share;  ///< knowledge base and own record, where both are counted
};

/// The numbers behind the plan of a machine that a person may want to put right: of its sale, of the step
/// shown (none for a stop) and of each other ending.
std::vector<CaseNumber> case_numbers(const Situation& situation, const learning::MachineCase& asked,
                                     const std::optional<decision::NamedMove>& step);

}  // namespace secondpull::planning
