#include "core/learning/tallies.h"

#include "core/learning/tries.h"
#include "core/typed_words.h"

namespace secondpull::learning {
namespace {

/// The id of the cause that an ended fault names; empty if it names none that is known.
std::string confirmed_cause(const Fault& fault, const Knowledge& knowledge) {
  if (const Cause* const cause = knowledge.cause(fault.cause)) return cause->id;
  return same_word(trimmed(fault.cause), kUnlisted) ? std::string{kUnlisted} : std::string{};
}

void learn_from(const Fault& fault, const ByMachine::Lines& lines, const Knowledge& knowledge,
                Tallies& tallies) {
  if (!fault.ended || fault.how == FaultEnd::mistaken) return;
  const Symptom* const symptom = knowledge.symptom(fault.symptom);
  if (symptom == nullptr && !trimmed(fault.symptom).empty()) ++tallies.unknown_symptoms[fault.symptom];
  const std::string cause = confirmed_cause(fault, knowledge);
  if (cause.empty()) {
    if (!trimmed(fault.cause).empty()) ++tallies.unknown_causes[fault.cause];
    return;
  }
  if (symptom != nullptr) tallies.causes[symptom->id][cause] += 1;
  for (const Try& each : tries_of(lines, fault, knowledge, {cause})) {
    if (each.came == Came::untold) continue;
    Tries& seen = tallies.cures[{each.repair->id, cause}];
    ++seen.tried;
    if (each.came == Came::mended) ++seen.cured;
  }
}

}  // namespace

Tries Tallies::tries(const std::string& repair, const std::string& cause) const {
  const auto at = cures.find({repair, cause});
  return at == cures.end() ? Tries{} : at->second;
}

Tallies tallies_of(const ByMachine& by_machine, const Shop& shop, const Knowledge& knowledge) {
  Tallies tallies;
  for (const Fault& fault : shop.all<Fault>())
    learn_from(fault, by_machine.of(fault.machine), knowledge, tallies);
  for (const Finding& finding : shop.all<Finding>()) {
    if (!finding.minutes) continue;
    const auto took = static_cast<double>(finding.minutes->count);
    if (const Test* const test = knowledge.test(finding.step))
      tallies.minutes[test->id].push_back(took);
    else if (const Repair* const repair = knowledge.repair(finding.step))
      tallies.minutes[repair->id].push_back(took);
    else if (const PieceOfWork* const work = knowledge.piece_of_work(finding.step))
      tallies.minutes[work->id].push_back(took);
  }
  return tallies;
}

std::optional<Beta> cure(const Repair& repair, const std::string& cause, const Tallies& tallies) {
  const Tries own = tallies.tries(repair.id, cause);
  for (const auto& [listed, chance] : repair.cures)
    if (listed == cause) return chance.updated(own);
  if (own.cured > 0) return kJeffreys.updated(own);
  return std::nullopt;
}

Dirichlet causes_of(const Symptom& symptom, const Tallies& tallies) {
  Dirichlet causes{symptom.causes};
  const double listed = causes.total();
  if (causes.count(kUnlisted) == 0) causes.add(kUnlisted, listed > 0 ? kUnlistedShare * listed : 1);
  if (const auto own = tallies.causes.find(symptom.id); own != tallies.causes.end())
    for (const auto& [cause, cases] : own->second)
      causes.add(cause, cases);
  return causes;
}

double minutes_of(const std::string& step, const Range& known, const Tallies& tallies) {
  const auto own = tallies.minutes.find(step);
  return own == tallies.minutes.end() ? known.typical : shrunk_mean(known, own->second);
}

}  // namespace secondpull::learning
