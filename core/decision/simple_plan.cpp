#include "core/decision/simple_plan.h"

#include <numeric>

namespace secondpull::decision {
namespace {

/// The first of two repairs with the same chance per cost is taken. Rounding must not turn that round: the
/// plan has to go on the same way from every position on it, whatever way the weights there were come by.
constexpr double clearly = 1 + 1e-9;

}  // namespace

SimplePlan simple_plan(const StateSpace& space, const State& at) {
  const Layout& layout = space.layout();
  State now{{}, at.mass, at.weight, {}, {}, at.left};
  std::optional<std::size_t> first;
  double earned = 0;
  SimplePlan plan{space.best_stop_worth(now), std::nullopt};
  while (true) {
    std::optional<std::size_t> best;
    double best_mended = 0;
    for (std::size_t a = 0; a < layout.repairs.size(); ++a) {
      if (now.left[a] == 0) continue;
      double mended = 0;
      for (const Layout::Cure& cure : layout.repairs[a].cures)
        mended += now.weight[cure.cause] * cure.chance;
      if (mended <= 0) continue;
      if (!best || mended * layout.repairs[*best].cost > clearly * best_mended * layout.repairs[a].cost) {
        best = a;
        best_mended = mended;
      }
    }
    if (!best) return plan;
    if (!first) first = best;
    const Layout::Repair& tried = layout.repairs[*best];
    earned += best_mended * layout.running - tried.cost * now.mass;
    for (const Layout::Cure& cure : tried.cures)
      now.weight[cure.cause] *= 1 - cure.chance;
    now.mass = std::accumulate(now.weight.begin(), now.weight.end(), 0.0);
    --now.left[*best];
    const double worth = earned + space.best_stop_worth(now);
    if (worth > plan.worth) plan = {worth, first};
  }
}

double simple_worth_after(const StateSpace& space, const State& at, std::size_t step) {
  const Layout& layout = space.layout();
  State child;
  if (layout.is_repair(step)) {
    space.failure(at, step, child);
    return (at.mass - child.mass) * layout.running - layout.repairs[step].cost * at.mass +
           simple_plan(space, child).worth;
  }
  const std::size_t test = step - layout.repairs.size();
  double worth = -layout.tests[test].cost * at.mass;
  for (std::size_t outcome = 0; outcome < layout.tests[test].outcomes.size(); ++outcome) {
    space.answer(at, test, outcome, child);
    worth += simple_plan(space, child).worth;
  }
  return worth;
}

std::vector<MoveWorth> stops_at(const StateSpace& space, const State& at) {
  std::vector<MoveWorth> all;
  for (std::size_t stop = 0; stop < space.layout().stops.size(); ++stop) {
    const double worth = at.mass > 0 ? space.stop_worth(at, stop) / at.mass : 0;
    all.push_back({{Move::Kind::stop, stop}, worth, worth});
  }
  return all;
}

Move move_of(const Layout& layout, std::size_t step) {
  if (layout.is_repair(step)) return {Move::Kind::repair, step};
  return {Move::Kind::test, step - layout.repairs.size()};
}

std::size_t step_of(const Layout& layout, const Move& move) {
  return move.kind == Move::Kind::repair ? move.place : layout.repairs.size() + move.place;
}

}  // namespace secondpull::decision
