#include "core/learning/tries.h"

#include <algorithm>

#include "core/typed_words.h"

namespace secondpull::learning {
namespace {

bool open_on(const Fault& fault, Date day) {
  return fault.date <= day && (!fault.ended || day <= *fault.ended);
}

bool says(const Finding& finding, std::string_view what) {
  return same_word(trimmed(finding.outcome), what);
}

bool cures_one_of(const Repair& repair, const std::vector<std::string>& causes) {
  return std::any_of(repair.cures.begin(), repair.cures.end(), [&](const auto& row) {
    return std::find(causes.begin(), causes.end(), row.first) != causes.end();
  });
}

Came what_came_of_the_last(const Fault& fault, const Try& last) {
  if (fault.how == FaultEnd::given_up || says(*last.finding, kSaysFailed)) return Came::failed;
  if (says(*last.finding, kSaysMended)) return Came::mended;
  return fault.ended ? Came::untold : Came::failed;
}

}  // namespace

bool only_open(const ByMachine::Lines& lines, const Fault& fault, Date day) {
  return open_on(fault, day) &&
         std::none_of(lines.faults.begin(), lines.faults.end(),
                      [&](const Fault* other) { return other->id != fault.id && open_on(*other, day); });
}

std::vector<const Finding*> findings_of(const ByMachine::Lines& lines, const Fault& fault) {
  std::vector<const Finding*> findings;
  for (const Finding* finding : lines.findings)
    if (finding->fault ? *finding->fault == fault.id : only_open(lines, fault, finding->date))
      findings.push_back(finding);
  return findings;
}

std::vector<Try> tries_of(const ByMachine::Lines& lines, const Fault& fault, const Knowledge& knowledge,
                          const std::vector<std::string>& causes) {
  std::vector<Try> tries;
  if (fault.how == FaultEnd::mistaken) return tries;
  for (const Finding* finding : findings_of(lines, fault)) {
    const Repair* const repair = knowledge.repair(finding->step);
    if (repair != nullptr && (cures_one_of(*repair, causes) || says(*finding, kSaysMended)))
      tries.push_back({finding, repair, Came::failed});
  }
  if (tries.empty()) return tries;
  Try& last = tries.back();
  last.came = what_came_of_the_last(fault, last);
  if (last.came != Came::mended) return tries;
  for (auto other = tries.begin(); other != std::prev(tries.end()); ++other)
    if (says(*other->finding, kSaysMended) && other->finding->date == last.finding->date)
      other->came = last.came = Came::untold;
  return tries;
}

}  // namespace secondpull::learning
