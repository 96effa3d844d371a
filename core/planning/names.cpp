#include "core/planning/names.h"

#include "core/learning/stops.h"

namespace secondpull::planning {

std::string called(const decision::NamedMove& move, const learning::Knowledge& knowledge) {
  if (const auto* test = knowledge.test(move.id)) return test->name;
  if (const auto* repair = knowledge.repair(move.id)) return repair->name;
  if (move.id == learning::kSellAsIs) return "sell as is";
  return move.id == learning::kPartOut ? "part out" : move.id;
}

std::string called_outcome(std::string_view test, std::string_view outcome,
                           const learning::Knowledge& knowledge) {
  const learning::Test* const known = knowledge.test(test);
  const learning::Outcome* const shown = known != nullptr ? learning::outcome(*known, outcome) : nullptr;
  return shown != nullptr ? shown->name : std::string{outcome};
}

std::string called_cause(std::string_view cause, const learning::Knowledge& knowledge) {
  if (cause == learning::kUnlisted) return "something not listed";
  const learning::Cause* const known = knowledge.cause(cause);
  return known != nullptr ? known->name : std::string{cause};
}

decision::Names names_in(const learning::Knowledge& knowledge) {
  return {
      .move = [&knowledge](const decision::NamedMove& move) { return called(move, knowledge); },
      .outcome = [&knowledge](std::string_view test,
                              std::string_view outcome) { return called_outcome(test, outcome, knowledge); }};
}

}  // namespace secondpull::planning
