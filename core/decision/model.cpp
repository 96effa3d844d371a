#include "core/decision/model.h"

#include <map>
#include <string>
#include <variant>

#include "core/diagnosis/belief.h"

namespace secondpull::decision {
namespace {

using diagnosis::Case;

constexpr double minutes_an_hour = 60;

StepCost cost_of(const Case& of, double cash, double hours, double days) {
  return {cash, hours, days, cash + of.hour_value * hours + of.day_cost * days};
}

/// The numbers of `all_causes` at the causes that are left.
std::vector<double> at_causes(const std::vector<double>& all_causes,
                              const std::vector<Model::Cause>& causes) {
  std::vector<double> out;
  out.reserve(causes.size());
  for (const Model::Cause& cause : causes)
    out.push_back(all_causes[cause.in_case]);
  return out;
}

/// What the evidence has used up.
struct UsedUp {
  std::map<std::string, int> tries;      ///< by repair
  std::map<std::string, bool> tests;     ///< made
  std::map<std::string, bool> of_group;  ///< groups of which a test was made
};

UsedUp used_up(const Case& of) {
  UsedUp used;
  for (const diagnosis::Evidence& seen : of.evidence) {
    if (const auto* failed = std::get_if<diagnosis::RepairFailed>(&seen)) {
      ++used.tries[failed->repair];
      continue;
    }
    const std::string& made = std::get<diagnosis::TestShowed>(seen).test;
    used.tests[made] = true;
    for (const diagnosis::Test& test : of.tests)
      if (test.id == made && !test.group.empty()) used.of_group[test.group] = true;
  }
  return used;
}

void add_tests(Model& model, const Case& of, const UsedUp& used) {
  std::map<std::string, std::size_t> slot_of_group;
  for (std::size_t i = 0; i < of.tests.size(); ++i) {
    const diagnosis::Test& test = of.tests[i];
    if (used.tests.contains(test.id) || used.of_group.contains(test.group)) continue;
    Model::Test& made = model.tests.emplace_back();
    made.in_case = i;
    made.cost = cost_of(of, test.cost, test.minutes / minutes_an_hour, test.days);
    for (const std::vector<double>& outcome : diagnosis::likelihood_table(test, of.causes))
      made.likelihood.push_back(at_causes(outcome, model.causes));
    made.slot = model.slot_tests.size();
    if (!test.group.empty()) made.slot = slot_of_group.try_emplace(test.group, made.slot).first->second;
    if (made.slot == model.slot_tests.size()) model.slot_tests.emplace_back();
    model.slot_tests[made.slot].push_back(model.tests.size() - 1);
  }
}

void add_repairs(Model& model, const Case& of, const UsedUp& used) {
  for (std::size_t i = 0; i < of.repairs.size(); ++i) {
    const diagnosis::Repair& repair = of.repairs[i];
    const auto tried = used.tries.find(repair.id);
    const int left = repair.tries - (tried == used.tries.end() ? 0 : tried->second);
    if (left <= 0) continue;
    model.repairs.push_back({.in_case = i,
                             .cost = cost_of(of, repair.cost, repair.minutes / minutes_an_hour, repair.days),
                             .tries = left,
                             .cures = at_causes(diagnosis::cure_row(repair, of.causes), model.causes)});
  }
}

void add_stops(Model& model, const Case& of) {
  for (std::size_t i = 0; i < of.stops.size(); ++i) {
    const diagnosis::Stop& stop = of.stops[i];
    Model::Stop& made = model.stops.emplace_back();
    made.in_case = i;
    made.cost = cost_of(of, 0, stop.hours, stop.days);
    for (const Model::Cause& cause : model.causes) {
      double cash = stop.value;
      for (const auto& [id, value] : stop.value_by_cause)
        if (id == of.causes[cause.in_case].id) cash = value;
      made.cash.push_back(cash);
      made.worth.push_back(cash - made.cost.full);
      if (made.worth.back() != made.worth.front()) made.by_cause = true;
    }
  }
}

void add_running(Model& model, const Case& of) {
  const diagnosis::Revived& revived = of.revived;
  double cash = revived.fee_fixed + revived.comeback_chance * revived.comeback_cost;
  double hours = revived.hours;
  for (const diagnosis::KnownWork& work : revived.known_work) {
    cash += work.cost;
    hours += work.minutes / minutes_an_hour;
  }
  model.running = cost_of(of, cash, hours, revived.days);
  model.running_worth = revived.price * (1 - revived.fee_rate) - model.running.full;
}

}  // namespace

Model model_of(const Case& of) {
  Model model;
  const std::vector<double> belief = diagnosis::posterior(of);
  for (std::size_t i = 0; i < belief.size(); ++i)
    if (belief[i] > negligible) model.causes.push_back({.in_case = i, .weight = belief[i]});
  const UsedUp used = used_up(of);
  add_tests(model, of, used);
  add_repairs(model, of, used);
  add_stops(model, of);
  add_running(model, of);
  return model;
}

}  // namespace secondpull::decision
