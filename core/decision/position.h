#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "core/decision/model.h"

namespace secondpull::decision {

/// What was done and seen since the model was made: the state of the decision model. The order in which it
/// was done does not matter, so it is not kept.
struct Position {
  /// By slot: 0 while none of its tests was made, else 1 + the running number of (test, outcome) within the
  /// slot.
  std::vector<std::uint16_t> answers;
  std::vector<std::uint8_t> tried;  ///< by repair: failed tries
  friend auto operator<=>(const Position&, const Position&) = default;
};

/// Nothing done yet.
Position start_of(const Model& model);
Position after_answer(const Model& model, Position at, std::size_t test, std::size_t outcome);
Position after_failure(Position at, std::size_t repair);
inline bool is_open(const Model& model, const Position& at, std::size_t test) {
  return at.answers[model.tests[test].slot] == 0;
}

/// P(cause and everything seen) by cause, not normalised: the belief times the chance of getting here.
std::vector<double> weights_at(const Model& model, const Position& at);

}  // namespace secondpull::decision
