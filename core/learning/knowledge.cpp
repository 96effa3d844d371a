#include "core/learning/knowledge.h"

#include <algorithm>

#include "core/typed_words.h"

namespace secondpull::learning {
namespace {

template <class Entry>
const Entry* named(const std::vector<Entry>& entries, std::string_view text) {
  const std::string_view word = trimmed(text);
  if (word.empty()) return nullptr;
  // An id is meant before a name, and a name before a phrase that two entries may share.
  for (const Entry& entry : entries)
    if (same_word(entry.id, word)) return &entry;
  for (const Entry& entry : entries)
    if (same_word(entry.name, word)) return &entry;
  for (const Entry& entry : entries)
    if (std::any_of(entry.also.begin(), entry.also.end(),
                    [&](const std::string& other) { return same_word(other, word); }))
      return &entry;
  return nullptr;
}

}  // namespace

bool can_be_made(Needs needs, Engine engine) {
  if (engine == Engine::unknown) return true;
  switch (needs) {
    case Needs::nothing:
      break;
    case Needs::turning:
      return engine != Engine::none;
    case Needs::turning_but_not_starting:
      return engine == Engine::turns;
    case Needs::running:
      return engine == Engine::runs;
  }
  return true;
}

const Symptom* Knowledge::symptom(std::string_view text) const {
  return named(symptoms, text);
}
const Cause* Knowledge::cause(std::string_view text) const {
  return named(causes, text);
}
const Test* Knowledge::test(std::string_view text) const {
  return named(tests, text);
}
const Repair* Knowledge::repair(std::string_view text) const {
  return named(repairs, text);
}
const PieceOfWork* Knowledge::piece_of_work(std::string_view text) const {
  return named(known_work, text);
}
const KindFigures* Knowledge::figures(MachineKind kind) const {
  const auto at =
      std::find_if(kinds.begin(), kinds.end(), [&](const KindFigures& row) { return row.kind == kind; });
  return at == kinds.end() ? nullptr : &*at;
}

const Outcome* outcome(const Test& test, std::string_view text) {
  return named(test.outcomes, text);
}

bool fits(const std::vector<MachineKind>& kinds, MachineKind kind) {
  return kinds.empty() || kind == MachineKind::other ||
         std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

}  // namespace secondpull::learning
