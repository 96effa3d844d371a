#include "core/decision/state_space.h"

#include <algorithm>
#include <numeric>

namespace secondpull::decision {
StateSpace::StateSpace(const Model& model) : layout_(model), perfect_(layout_) {}

State StateSpace::start() const {
  State state;
  state.weight = layout_.prior;
  state.mass = std::accumulate(state.weight.begin(), state.weight.end(), 0.0);
  state.run.assign(layout_.causes(), 0);
  state.open.assign(layout_.slots, 1);
  for (const Layout::Repair& repair : layout_.repairs)
    state.left.push_back(static_cast<std::uint8_t>(repair.tries));
  return state;
}

State StateSpace::at(const Position& position) const {
  State state = start();
  State next;
  std::vector<std::size_t> seen(layout_.slots, 0);
  for (std::size_t test = 0; test < layout_.tests.size(); ++test) {
    const std::size_t slot = layout_.tests[test].slot;
    for (std::size_t outcome = 0; outcome < layout_.tests[test].outcomes.size(); ++outcome)
      if (++seen[slot] == position.answers[slot]) {
        answer(state, test, outcome, next);
        std::swap(state, next);
      }
  }
  for (std::size_t repair = 0; repair < layout_.repairs.size(); ++repair)
    for (int failed = 0; failed < position.tried[repair]; ++failed) {
      failure(state, repair, next);
      std::swap(state, next);
    }
  return state;
}

void StateSpace::answer(const State& from, std::size_t test, std::size_t outcome, State& to) const {
  const Layout::Test& made = layout_.tests[test];
  const Layout::Outcome& seen = made.outcomes[outcome];
  to.key = from.key + seen.token;
  to.weight.resize(from.weight.size());
  to.mass = 0;
  for (std::size_t cause = 0; cause < from.weight.size(); ++cause) {
    to.weight[cause] = from.weight[cause] * seen.row[cause];
    to.mass += to.weight[cause];
  }
  to.run = from.run;
  to.open = from.open;
  to.open[made.slot] = 0;
  to.left = from.left;
}

void StateSpace::failure(const State& from, std::size_t repair, State& to) const {
  const Layout::Repair& tried = layout_.repairs[repair];
  to.key = from.key + tried.token;
  to.weight = from.weight;
  to.run = from.run;
  for (const Layout::Cure& cure : tried.cures) {
    to.weight[cure.cause] *= 1 - cure.chance;
    to.run[cure.cause] += perfect_.stride(repair, cure.cause);
  }
  to.mass = std::accumulate(to.weight.begin(), to.weight.end(), 0.0);
  to.open = from.open;
  to.left = from.left;
  --to.left[repair];
}

double StateSpace::perfect_worth(const State& at) const {
  double worth = 0;
  for (std::size_t cause = 0; cause < at.weight.size(); ++cause)
    worth += at.weight[cause] * perfect_.worth(cause, at.run[cause], at.left);
  return worth;
}

double StateSpace::stop_worth(const State& at, std::size_t stop) const {
  const Layout::Stop& ending = layout_.stops[stop];
  if (!ending.by_cause) return ending.worth.front() * at.mass;
  return std::inner_product(at.weight.begin(), at.weight.end(), ending.worth.begin(), 0.0);
}

double StateSpace::best_stop_worth(const State& at) const {
  double best = stop_worth(at, 0);
  for (std::size_t stop = 1; stop < layout_.stops.size(); ++stop)
    best = std::max(best, stop_worth(at, stop));
  return best;
}

double StateSpace::repair_charge(const State& at, std::size_t repair, std::size_t cause) const {
  const Layout::Repair& tried = layout_.repairs[repair];
  const auto cure = std::ranges::find(tried.cures, cause, &Layout::Cure::cause);
  if (cure == tried.cures.end()) return tried.cost;
  const PerfectInformation::Run run = at.run[cause];
  return std::max(0.0, perfect_.worth(cause, run, at.left) + tried.cost - cure->chance * layout_.running -
                           (1 - cure->chance) * perfect_.worth_after(cause, repair, run, at.left));
}

double StateSpace::charge(const State& at, std::size_t step) const {
  if (!layout_.is_repair(step)) return layout_.test_of(step).cost * at.mass;
  const Layout::Repair& tried = layout_.repairs[step];
  double total = tried.cost * at.mass;
  for (const Layout::Cure& cure : tried.cures) {
    const PerfectInformation::Run run = at.run[cure.cause];
    total +=
        at.weight[cure.cause] * (perfect_.worth(cure.cause, run, at.left) - cure.chance * layout_.running -
                                 (1 - cure.chance) * perfect_.worth_after(cure.cause, step, run, at.left));
  }
  return std::max(0.0, total);
}

}  // namespace secondpull::decision
