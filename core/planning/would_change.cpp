#include "core/planning/would_change.h"

#include <algorithm>
#include <cmath>

namespace secondpull::planning {
namespace {

constexpr double kSeen = 0.5;  // of a whole unit: less is the same amount on the screen

bool same_case(const Result<learning::MachineCase>& a, const Result<learning::MachineCase>& b) {
  if (!a || !b) return !a && !b && a.error() == b.error();
  diagnosis::Case other = b->of;
  other.sunk = a->of.sunk;
  return a->of == other;
}

PlanSays says(const Situation& situation, MachineId machine, double hour_value,
              const decision::Budget& budget) {
  const auto made = situation.case_of(machine, hour_value);
  if (!made) return {.problem = made.error()};
  const auto answer = decision::verdict(made->of, budget, decision::Figures::for_a_queue);
  if (!answer) return {.problem = answer.error()};
  return {.problem = std::nullopt, .next = answer->next, .verdict = answer->verdict, .value = answer->value};
}

}  // namespace

bool PlanChange::tells() const {
  if (before.problem || after.problem) return before.problem != after.problem;
  return before.next != after.next || before.verdict != after.verdict ||
         std::abs(after.value - before.value) >= kSeen;
}

std::vector<MachineId> machines_touched(const Situation& before, const Situation& after, double hour_value) {
  std::vector<MachineId> touched;
  const auto& also = after.waiting();
  for (const MachineId machine : before.waiting())
    if (std::find(also.begin(), also.end(), machine) != also.end() &&
        !same_case(before.case_of(machine, hour_value), after.case_of(machine, hour_value)))
      touched.push_back(machine);
  return touched;
}

PlanChange plan_change(const Situation& before, const Situation& after, MachineId machine, double hour_value,
                       const decision::Budget& each) {
  return {.machine = machine,
          .before = says(before, machine, hour_value, each),
          .after = says(after, machine, hour_value, each)};
}

}  // namespace secondpull::planning
