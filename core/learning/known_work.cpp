#include "core/learning/known_work.h"

#include <algorithm>

#include "core/learning/tries.h"
#include "core/learning/units.h"
#include "core/typed_words.h"

namespace secondpull::learning {
namespace {

bool is_named_in(std::string_view condition, const PieceOfWork& work) {
  return holds_words(condition, work.name) ||
         std::any_of(work.also.begin(), work.also.end(),
                     [&](const std::string& phrase) { return holds_words(condition, phrase); });
}

bool says_finished(const Finding& finding) {
  const std::string_view outcome = trimmed(finding.outcome);
  return same_word(outcome, kSaysDone) || same_word(outcome, kSaysMended);
}

std::optional<FindingId> done_by(const PieceOfWork& work, const ByMachine::Lines& lines,
                                 const Knowledge& knowledge) {
  const Date since = here_since(lines);
  for (const Finding* finding : lines.findings)
    if (finding->date >= since && says_finished(*finding) && knowledge.piece_of_work(finding->step) == &work)
      return finding->id;
  return std::nullopt;
}

}  // namespace

bool says_done(const Finding& finding, const Knowledge& knowledge) {
  return says_finished(finding) && knowledge.piece_of_work(finding.step) != nullptr;
}

std::vector<TickedWork> known_work_of(const ByMachine::Lines& lines, const Knowledge& knowledge) {
  std::vector<TickedWork> ticked;
  if (lines.machine == nullptr) return ticked;
  for (const PieceOfWork& work : knowledge.known_work)
    if (fits(work.kinds, lines.machine->kind) && is_named_in(lines.machine->condition, work))
      ticked.push_back({work.id, done_by(work, lines, knowledge)});
  return ticked;
}

std::vector<diagnosis::KnownWork> work_to_do(const std::vector<TickedWork>& ticked,
                                             const Knowledge& knowledge, const Tallies& tallies,
                                             const Currency& currency) {
  std::vector<diagnosis::KnownWork> rows;
  for (const TickedWork& each : ticked) {
    const PieceOfWork* const work = knowledge.piece_of_work(each.work);
    if (each.done || work == nullptr) continue;
    rows.push_back({.cost = in_units(work->cost.typical, currency),
                    .minutes = minutes_of(work->id, work->minutes, tallies)});
  }
  return rows;
}

}  // namespace secondpull::learning
