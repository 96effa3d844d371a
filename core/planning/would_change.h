#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/decision/planner.h"
#include "core/planning/situation.h"

namespace secondpull::planning {

// What another knowledge base, or any other change of what is known, would do to the machines that wait.

/// What a plan comes to, in short.
struct PlanSays {
  std::optional<Problem> problem;  ///< there is no plan; the rest is empty then
  decision::NamedMove next;
  std::string verdict;  ///< as in decision::Answer
  double value = 0;     ///< in whole units of the currency
};

/// A machine whose plan is made from another case.
struct PlanChange {
  MachineId machine{};
  PlanSays before;
  PlanSays after;
  /// Whether a person would see it: another next step, verdict, problem, or a value that differs by half a
  /// unit of the currency or more.
  bool tells() const;
};

/// The machines that wait in both and whose case differs, or the problem that keeps it from being one; in the
/// order entered. What a machine has cost so far is no difference.
std::vector<MachineId> machines_touched(const Situation& before, const Situation& after, double hour_value);

/// Plans one machine both ways, at the same hour value, with that budget each.
PlanChange plan_change(const Situation& before, const Situation& after, MachineId machine, double hour_value,
                       const decision::Budget& each);

}  // namespace secondpull::planning
