#include "core/planning/bench_moment.h"

#include <algorithm>

#include "core/learning/tries.h"

namespace secondpull::planning {
namespace {

const Fault* latest_open(const ByMachine::Lines& lines) {
  const auto open = std::find_if(lines.faults.rbegin(), lines.faults.rend(),
                                 [](const Fault* fault) { return !fault->ended; });
  return open == lines.faults.rend() ? nullptr : *open;
}

/// The finding that says that a repair mended it, if it is the last one tried.
const Finding* mended_by(const ByMachine::Lines& lines, const Fault& fault, const learning::Symptom& symptom,
                         const learning::Knowledge& knowledge) {
  std::vector<std::string> causes;
  for (const auto& [cause, weight] : symptom.causes)
    causes.push_back(cause);
  const auto tries = learning::tries_of(lines, fault, knowledge, causes);
  return tries.empty() || tries.back().came == learning::Came::failed ? nullptr : tries.back().finding;
}

}  // namespace

BenchMoment bench_moment(const ByMachine::Lines& lines, const learning::Knowledge& knowledge) {
  using What = BenchMoment::What;
  if (lines.machine == nullptr || !is_here(stage_of(lines))) return {.what = What::gone};
  if (const Fault* const fault = latest_open(lines)) {
    const learning::Symptom* const symptom = knowledge.symptom(fault->symptom);
    if (symptom == nullptr) return {.what = What::symptom, .fault = fault->id, .symptom = fault->symptom};
    if (const Finding* const mended = mended_by(lines, *fault, *symptom, knowledge))
      return {.what = What::cause, .fault = fault->id, .symptom = fault->symptom, .mended = mended->id};
    return {.what = What::step, .fault = fault->id, .symptom = fault->symptom};
  }
  if (lines.faults.empty()) {
    const bool known = knowledge.symptom(lines.machine->symptom) != nullptr;
    return {.what = known ? What::step : What::symptom, .symptom = lines.machine->symptom};
  }
  const auto last = std::max_element(lines.faults.begin(), lines.faults.end(),
                                     [](const Fault* a, const Fault* b) { return *a->ended < *b->ended; });
  return {.what = (*last)->how == FaultEnd::given_up ? What::given_up : What::finish};
}

std::vector<std::pair<std::string, double>> causes_of_cure(const learning::Repair& repair,
                                                           const learning::ByCause<double>& posterior) {
  std::vector<std::pair<std::string, double>> causes;
  double sum = 0;
  for (const auto& [cause, chance] : posterior)
    for (const auto& [cured, beta] : repair.cures)
      if (cured == cause && chance > 0) {
        causes.emplace_back(cause, chance * beta.mean());
        sum += causes.back().second;
      }
  for (auto& [cause, chance] : causes)
    chance /= sum;
  std::stable_sort(causes.begin(), causes.end(),
                   [](const auto& a, const auto& b) { return a.second > b.second; });
  return causes;
}

}  // namespace secondpull::planning
