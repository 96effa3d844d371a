#include "core/shop/recall.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "core/shop/describe.h"
#include "core/shop/selling.h"
#include "core/shop/steps.h"
#include "core/shop/together.h"
#include "core/typed_words.h"

namespace secondpull {
namespace {

bool is_recall_lookup(const Finding& finding) {
  static constexpr std::array<std::string_view, 3> kWords{"recall", "recalls", "recalled"};
  return is_about_care(finding.step) && std::any_of(kWords.begin(), kWords.end(), [&](std::string_view word) {
           return holds_words(finding.step, word);
         });
}

std::optional<RecallLookup> last_lookup(const ByMachine::Lines& lines, Date since) {
  const auto last = std::find_if(lines.findings.rbegin(), lines.findings.rend(), [&](const Finding* finding) {
    return finding->date >= since && is_recall_lookup(*finding);
  });
  if (last == lines.findings.rend()) return std::nullopt;
  const std::string_view outcome = trimmed((*last)->outcome);
  return RecallLookup{.date = (*last)->date,
                      .recalled = begins_alike(outcome, kFailed) || begins_alike(outcome, "recalled"),
                      .words = std::string{outcome}};
}

}  // namespace

std::optional<RecallLookup> recall_lookup(const ByMachine::Lines& lines) {
  return last_lookup(lines, here_since(lines));
}

bool recall_lookup_due(const std::optional<RecallLookup>& last, Date today) {
  return !last || days_between(last->date, today) > kRecallHoldsDays;
}

Result<Change> record_recall_lookup(const Shop& shop, MachineId machine, Date date, const std::string& step,
                                    bool recalled) {
  Together together{shop};
  together.add([&](const Shop& now) {
    return record_check(now, machine, date, step, std::string{recalled ? kFailed : kPassed},
                        recalled ? "recalled" : "no recall found");
  });
  if (recalled)
    for (const Listing& listing : shop.all<Listing>())
      if (listing.machine == machine && !listing.ended)
        together.add([&](const Shop& now) { return end_listing(now, listing.id, date); });
  return std::move(together).result(shop.find(machine) == nullptr
                                        ? std::string{}
                                        : fmt::format("{}: recalls looked up, {}", called(shop, machine),
                                                      recalled ? "recalled" : "none found"));
}

std::optional<Problem> against_recalled(const ByMachine::Lines& lines) {
  // A recall stands until its remedy is done, whoever had the machine meanwhile.
  const auto last = last_lookup(lines, Date{});
  if (!last || !last->recalled || lines.machine == nullptr) return std::nullopt;
  return Problem{fmt::format("#{} is recalled (looked up on {}). A recalled machine may not be offered or "
                             "sold, as is no more than as running (15 USC 2068). Once its remedy is done, "
                             "look it up again.",
                             lines.machine->tag, shown(last->date)),
                 "recall", last->words};
}

}  // namespace secondpull
