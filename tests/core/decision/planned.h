#pragma once

#include "core/decision/plan.h"
#include "core/decision/search.h"
#include "core/diagnosis/case.h"

namespace secondpull::test {

/// The worth of a case's best plan.
inline double planned_value(const diagnosis::Case& of) {
  const decision::Model model = decision::model_of(of);
  return decision::solve(model, {})->progress().value;
}

/// The best plan itself; its places are those of the case's model.
inline decision::Plan planned(const diagnosis::Case& of) {
  const decision::Model model = decision::model_of(of);
  const auto solution = decision::solve(model, {});
  return decision::read_plan(model, *solution, of.revived.price * (1 - of.revived.fee_rate));
}

/// What each first move is worth.
inline std::vector<decision::MoveWorth> first_moves(const diagnosis::Case& of) {
  const decision::Model model = decision::model_of(of);
  return decision::solve(model, {})->moves(decision::start_of(model));
}

}  // namespace secondpull::test
