#include "core/shop/steps.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/shop/describe.h"
#include "core/shop/off_sale.h"
#include "core/shop/together.h"
#include "core/typed_words.h"

namespace secondpull {
namespace {

FaultId newest_fault(const Shop& shop) {
  return std::prev(shop.all<Fault>().end())->id;
}

Result<Change> fit(const Shop& shop, const NewFinding& finding, const PartUsed& used) {
  if (used.found_at)
    return fit_found_part(shop, finding.machine, finding.date, used.part, used.quantity, *used.found_at);
  if (!used.part.known)
    return problem("The shelf has no such part: say what it cost, or choose another one.", "part",
                   used.part.new_name);
  return fit_part(shop, finding.machine, finding.date, *used.part.known, used.quantity, std::nullopt,
                  std::nullopt);
}

bool is_foretold(const Shop& shop, FaultId fault) {
  const auto& all = shop.all<Forecast>();
  return std::any_of(all.begin(), all.end(), [&](const Forecast& one) { return one.fault == fault; });
}

Result<Change> keep_forecast(const Shop& shop, const NewFinding& finding, const Promise& promise) {
  Change change{shop, "Forecast for " + called(shop, finding.machine)};
  Forecast forecast = promise.figures;
  forecast.machine = finding.machine;
  forecast.fault = *finding.fault;
  forecast.date = finding.date;
  const ForecastId id = change.add(forecast);
  for (const auto& [cause, chance] : promise.causes)
    change.add(ForecastCause{.forecast = id, .cause = cause, .chance = chance});
  return change;
}

/// The finding that says of a repair that it mended the fault.
const Finding* said_to_mend(const ByMachine::Lines& lines, const Fault& fault) {
  const auto found =
      std::find_if(lines.findings.rbegin(), lines.findings.rend(), [&](const Finding* finding) {
        return (!finding->fault || finding->fault == fault.id) &&
               same_word(trimmed(finding->outcome), "mended");
      });
  return found == lines.findings.rend() ? nullptr : *found;
}

}  // namespace

Result<Change> record_step(const Shop& shop, const StepMade& step) {
  Together together{shop};
  NewFinding finding = step.finding;
  if (!finding.fault && !step.opens.empty()) {
    together.add(
        [&](const Shop& now) { return open_fault(now, finding.machine, finding.date, step.opens, {}, {}); });
    together.add([&](const Shop& now) {
      finding.fault = newest_fault(now);
      return record_finding(now, finding);
    });
  } else {
    together.add([&](const Shop& now) { return record_finding(now, finding); });
  }
  if (step.part) together.add([&](const Shop& now) { return fit(now, finding, *step.part); });
  if (step.promise && finding.fault && !is_foretold(shop, *finding.fault))
    together.add([&](const Shop& now) { return keep_forecast(now, finding, *step.promise); });
  const Machine* const machine = shop.find(finding.machine);
  return std::move(together).result(
      machine == nullptr
          ? std::string{}
          : fmt::format("{}: {}, {}", called(*machine), trimmed(finding.step), trimmed(finding.outcome)));
}

const Fault* last_mended(const ByMachine::Lines& lines) {
  const Date since = here_since(lines);
  const Fault* last = nullptr;
  for (const Fault* fault : lines.faults) {
    if (!fault->ended) return nullptr;
    if (fault->how == FaultEnd::mended && *fault->ended >= since &&
        (last == nullptr || *fault->ended >= *last->ended))
      last = fault;
  }
  return last;
}

Result<Change> same_trouble(const Shop& shop, NewFinding run) {
  const ByMachine::Lines lines = lines_of(shop, run.machine);
  const Fault* const fault = last_mended(lines);
  if (fault == nullptr)
    return problem("No fault of it was called mended since it came in: say what it does wrong instead.",
                   "fault");
  Together together{shop};
  together.add([&](const Shop& now) -> Result<Change> {
    Change again{now, fmt::format("{}: same trouble again, {}", called(now, run.machine), fault->symptom)};
    Fault open = *fault;
    open.ended.reset();
    open.how.reset();
    open.cause.clear();
    again.replace(open);
    if (const Finding* mended = said_to_mend(lines, *fault)) {
      Finding failed = *mended;
      failed.outcome = kFailed;
      again.replace(failed);
    }
    return again;
  });
  run.fault = fault->id;
  together.add([&](const Shop& now) { return record_finding(now, run); });
  return std::move(together).result();
}

Result<Change> new_trouble(const Shop& shop, NewFinding run, const std::string& symptom) {
  Together together{shop};
  together.add([&](const Shop& now) { return open_fault(now, run.machine, run.date, symptom, {}, {}); });
  together.add([&](const Shop& now) {
    run.fault = newest_fault(now);
    return record_finding(now, run);
  });
  return std::move(together).result();
}

bool is_about_care(std::string_view step) {
  step = trimmed(step);
  return same_word(step, kTestRun) || same_word(step, kTakenOffSale) || begins_alike(step, kSafetyCheck) ||
         begins_alike(step, kLook) || begins_alike(step, kCautionRead);
}

const Finding* latest_of(const ByMachine::Lines& lines, std::string_view step) {
  const Date since = here_since(lines);
  const auto found =
      std::find_if(lines.findings.rbegin(), lines.findings.rend(), [&](const Finding* finding) {
        return finding->date >= since && same_word(trimmed(finding->step), trimmed(step));
      });
  return found == lines.findings.rend() ? nullptr : *found;
}

Result<Change> acknowledge_caution(const Shop& shop, MachineId machine, Date date, const std::string& name) {
  if (const Machine* const known = shop.find(machine); known != nullptr) {
    auto noted = record_finding(
        shop,
        {.machine = machine, .date = date, .step = std::string{kCautionRead} + name, .outcome = "read"});
    if (noted) noted->set_title(fmt::format("{}: caution read, {}", called(*known), name));
    return noted;
  }
  return problem("That machine is not in the shop's records any more: choose another one.", "machine");
}

bool is_acknowledged(const ByMachine::Lines& lines, const std::string& name) {
  return latest_of(lines, std::string{kCautionRead} + name) != nullptr;
}

std::string check_step(const std::string& name, bool must) {
  return std::string{must ? kSafetyCheck : kLook} + name;
}

Result<Change> record_check(const Shop& shop, MachineId machine, Date date, const std::string& step,
                            const std::string& outcome, const std::string& note) {
  return record_finding(shop,
                        {.machine = machine, .date = date, .step = step, .outcome = outcome, .note = note});
}

}  // namespace secondpull
