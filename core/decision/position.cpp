#include "core/decision/position.h"

namespace secondpull::decision {

Position start_of(const Model& model) {
  return {std::vector<std::uint16_t>(model.slot_tests.size()),
          std::vector<std::uint8_t>(model.repairs.size())};
}

Position after_answer(const Model& model, Position at, std::size_t test, std::size_t outcome) {
  const std::size_t slot = model.tests[test].slot;
  std::size_t number = 1 + outcome;
  for (const std::size_t mate : model.slot_tests[slot]) {
    if (mate == test) break;
    number += model.tests[mate].likelihood.size();
  }
  at.answers[slot] = static_cast<std::uint16_t>(number);
  return at;
}

Position after_failure(Position at, std::size_t repair) {
  ++at.tried[repair];
  return at;
}

std::vector<double> weights_at(const Model& model, const Position& at) {
  std::vector<double> weights;
  weights.reserve(model.causes.size());
  for (const Model::Cause& cause : model.causes)
    weights.push_back(cause.weight);
  for (std::size_t slot = 0; slot < at.answers.size(); ++slot) {
    if (at.answers[slot] == 0) continue;
    std::size_t outcome = at.answers[slot] - std::size_t{1};
    for (const std::size_t test : model.slot_tests[slot]) {
      const auto& likelihood = model.tests[test].likelihood;
      if (outcome < likelihood.size()) {
        for (std::size_t c = 0; c < weights.size(); ++c)
          weights[c] *= likelihood[outcome][c];
        break;
      }
      outcome -= likelihood.size();
    }
  }
  for (std::size_t repair = 0; repair < at.tried.size(); ++repair)
    for (int tried = 0; tried < at.tried[repair]; ++tried)
      for (std::size_t c = 0; c < weights.size(); ++c)
        weights[c] *= 1 - model.repairs[repair].cures[c];
  return weights;
}

}  // namespace secondpull::decision
