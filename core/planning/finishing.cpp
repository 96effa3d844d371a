#include "core/planning/finishing.h"

#include <algorithm>

#include "core/learning/known_work.h"
#include "core/shop/steps.h"

namespace secondpull::planning {
namespace {

/// Was it made before a fault ended? On the day itself, if work on the fault was written down after it.
bool is_before_end(const Finding& finding, const Fault& fault, const ByMachine::Lines& lines) {
  if (!fault.ended || finding.date > *fault.ended) return false;
  if (finding.date < *fault.ended) return true;
  return std::any_of(lines.findings.begin(), lines.findings.end(), [&](const Finding* other) {
    return other->fault == fault.id && other->date == finding.date && other->entered > finding.entered;
  });
}

bool is_before_last_end(const Finding& finding, const ByMachine::Lines& lines) {
  return std::any_of(lines.faults.begin(), lines.faults.end(),
                     [&](const Fault* fault) { return is_before_end(finding, *fault, lines); });
}

std::string outcome_of(const ByMachine::Lines& lines, std::string_view step) {
  const Finding* const finding = latest_of(lines, step);
  return finding == nullptr ? std::string{} : finding->outcome;
}

}  // namespace

std::vector<FinishItem> finishing(const ByMachine::Lines& lines, const learning::KnowledgeBase& base) {
  std::vector<FinishItem> items;
  if (lines.machine == nullptr) return items;
  for (const learning::TickedWork& ticked : learning::known_work_of(lines, base.knowledge)) {
    const std::string& name = base.knowledge.piece_of_work(ticked.work)->name;
    items.push_back({.what = FinishItem::What::work,
                     .step = name,
                     .name = name,
                     .outcome = ticked.done ? std::string{learning::kSaysDone} : outcome_of(lines, name)});
  }
  const Finding* const run = latest_of(lines, kTestRun);
  const bool counts = run != nullptr && !is_before_last_end(*run, lines);
  items.push_back({.what = FinishItem::What::test_run,
                   .step = std::string{kTestRun},
                   .name = "Test run",
                   .must = true,
                   .outcome = counts ? run->outcome : std::string{}});
  for (const learning::SaleCheck& check : base.checks) {
    if (!learning::fits(check.kinds, lines.machine->kind)) continue;
    std::string step = check_step(check.name, check.must);
    std::string outcome = outcome_of(lines, step);
    items.push_back(
        {.step = std::move(step), .name = check.name, .must = check.must, .outcome = std::move(outcome)});
  }
  return items;
}

}  // namespace secondpull::planning
