#include "core/decision/depth_first.h"

#include <algorithm>
#include <limits>
#include <optional>

#include "core/decision/simple_plan.h"
#include "core/decision/state_space.h"

namespace secondpull::decision {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr std::uint16_t no_step = std::numeric_limits<std::uint16_t>::max();

/// What is known of a state's regret: exact, or at least so much.
struct Known {
  double regret = 0;
  bool exact = false;
};

/// What is known of the states looked at, by key. Open addressing; what is in stays in.
class Memory {
 public:
  struct Entry {
    Key key;
    double regret = 0;
    std::uint16_t step = no_step;  ///< the best step found, to be looked at first next time
    bool exact = false;            ///< beside the others, not in a Known: an entry is 32 bytes, not 40
    bool used = false;
    Known known() const { return {regret, exact}; }
  };

  explicit Memory(std::size_t most_bytes) : most_bytes_(most_bytes), entries_(first_room) {}

  const Entry* find(const Key& key) const {
    const Entry& entry = entries_[place_of(key)];
    return entry.used ? &entry : nullptr;
  }
  /// False if there is no room for another state.
  bool put(const Key& key, const Known& known, std::uint16_t step) {
    if (2 * (used_ + 1) > entries_.size() && !grow()) return false;
    Entry& entry = entries_[place_of(key)];
    if (!entry.used) ++used_;
    entry = {key, known.regret, step, known.exact, true};
    return true;
  }
  std::size_t size() const { return used_; }
  std::size_t bytes() const { return entries_.size() * sizeof(Entry); }

 private:
  static constexpr std::size_t first_room = std::size_t{1} << 12U;

  std::size_t place_of(const Key& key) const {
    const std::size_t mask = entries_.size() - 1;
    std::size_t place = key.hash() & mask;
    while (entries_[place].used && entries_[place].key != key)
      place = (place + 1) & mask;
    return place;
  }
  bool grow() {
    if (3 * bytes() > most_bytes_) return false;  // the old and the doubled table are held at once
    std::vector<Entry> old(entries_.size() * 2);
    old.swap(entries_);
    for (const Entry& entry : old)
      if (entry.used) entries_[place_of(entry.key)] = entry;
    return true;
  }

  std::size_t most_bytes_;
  std::vector<Entry> entries_;
  std::size_t used_ = 0;
};

class DepthFirst final : public Solution {
 public:
  DepthFirst(const Model& model, const Budget& budget, Root root)
      : space_(model),
        budget_(budget),
        root_(root),
        memory_(budget.bytes),
        levels_(space_.layout().depth + 2) {}

  /// Whether the case was solved.
  bool solve() {
    levels_.front().state = space_.start();
    allowed_ = budget_.states;
    const Known known = visit(0, infinity);
    if (given_up_) return false;
    const double perfect = space_.perfect_worth(levels_.front().state);
    worth_ = perfect - known.regret;
    solved_states_ = memory_.size();
    return true;
  }

  std::vector<MoveWorth> moves(const Position& at) override;

  Progress progress() const override {
    return {worth_, worth_, memory_.size(), memory_.bytes() + space_.perfect().bytes()};
  }

 private:
  struct Candidate {
    double bound = 0;  ///< regret at least
    std::uint16_t step = 0;
  };
  struct Level {
    State state;
    std::vector<Candidate> candidates;
    std::vector<Known> outcomes;
  };
  static constexpr std::size_t check_every = 1024;  // visits

  Known visit(std::size_t depth, double limit);
  double step_regret(std::size_t depth, std::size_t step, double bar);
  double stop_regret(const State& at) const {
    return std::max(0.0, space_.perfect_worth(at) - space_.best_stop_worth(at));
  }
  double slack(const State& at) const { return rounding * space_.layout().scale * at.mass; }
  bool is_over();
  MoveWorth worth_of_step(std::size_t step, double limit);

  StateSpace space_;
  Budget budget_;
  Root root_;
  Memory memory_;
  std::vector<Level> levels_;
  double worth_ = 0;
  std::size_t allowed_ = 0;  ///< states
  std::size_t solved_states_ = 0;
  std::size_t visits_ = 0;
  bool given_up_ = false;
};

bool DepthFirst::is_over() {
  if (given_up_) return true;
  if (memory_.size() >= allowed_) given_up_ = true;
  if (++visits_ % check_every != 0) return given_up_;
  if (budget_.spent && budget_.spent() >= budget_.time) given_up_ = true;
  if (budget_.go_on) {
    const State start = space_.start();
    const Progress so_far{simple_plan(space_, start).worth, space_.perfect_worth(start), memory_.size(),
                          memory_.bytes()};
    if (!budget_.go_on(so_far)) given_up_ = true;
  }
  return given_up_;
}

/// The regret of the state at `depth` if it is below `limit`; else that it is at least as large.
Known DepthFirst::visit(std::size_t depth, double limit) {
  Level& level = levels_[depth];
  const State& at = level.state;
  if (at.mass <= 0) return {0, true};
  std::uint16_t best_step = no_step;
  if (const Memory::Entry* const entry = memory_.find(at.key)) {
    if (entry->exact || entry->regret >= limit) return entry->known();
    best_step = entry->step;
  }
  if (is_over()) return {};

  const bool may_stop = depth > 0 || root_ == Root::any || at.key != Key{};
  double best = may_stop ? stop_regret(at) : infinity;
  double pruned = infinity;
  const double spare = slack(at);
  level.candidates.clear();
  for (std::size_t step = 0; step < space_.layout().steps(); ++step) {
    if (!space_.is_possible(at, step)) continue;
    const double charge = space_.charge(at, step);
    if (charge >= std::min(best, limit) - spare)
      pruned = std::min(pruned, charge);
    else
      level.candidates.push_back({charge, static_cast<std::uint16_t>(step)});
  }
  std::ranges::sort(level.candidates, [best_step](const Candidate& x, const Candidate& y) {
    if ((x.step == best_step) != (y.step == best_step)) return x.step == best_step;
    return x.bound != y.bound ? x.bound < y.bound : x.step < y.step;
  });
  best_step = no_step;
  for (const auto& [bound, step] : level.candidates) {
    const double bar = std::min(best, limit) - spare;
    const double regret = bound >= bar ? bound : step_regret(depth, step, bar);
    if (given_up_) return {};
    if (regret >= bar) {
      pruned = std::min(pruned, regret);
    } else {
      best = regret;
      best_step = step;
    }
  }
  const Known known = best <= pruned + spare ? Known{best, true} : Known{pruned, false};
  if (!memory_.put(at.key, known, best_step)) given_up_ = true;
  return known;
}

/// The regret of making the step at the state at `depth` if it is below `bar`; else that it is at least as
/// large.
double DepthFirst::step_regret(std::size_t depth, std::size_t step, double bar) {
  const State& at = levels_[depth].state;
  State& child = levels_[depth + 1].state;
  double total = space_.charge(at, step);
  if (space_.layout().is_repair(step)) {
    space_.failure(at, step, child);
    return total + visit(depth + 1, bar - total).regret;
  }
  const std::size_t test = step - space_.layout().repairs.size();
  const auto& outcomes = space_.layout().tests[test].outcomes;
  std::vector<Known>& known = levels_[depth].outcomes;
  known.assign(outcomes.size(), {});
  for (std::size_t o = 0; o < outcomes.size(); ++o)
    if (const Memory::Entry* const entry = memory_.find(at.key + outcomes[o].token)) {
      known[o] = entry->known();
      total += known[o].regret;
    }
  for (std::size_t o = 0; o < outcomes.size() && total < bar; ++o) {
    if (known[o].exact) continue;
    space_.answer(at, test, o, child);
    const double others = total - known[o].regret;
    total = others + visit(depth + 1, bar - others).regret;
    if (given_up_) return total;
  }
  return total;
}

/// The worth of a step given that one is at the state of the first level: exact if the regret is below
/// `limit` and can be found within the budget, else between bounds.
MoveWorth DepthFirst::worth_of_step(std::size_t step, double limit) {
  const State& at = levels_.front().state;
  given_up_ = false;
  const double regret = step_regret(0, step, limit);
  const double at_most = (space_.perfect_worth(at) - regret) / at.mass;
  const Move move = move_of(space_.layout(), step);
  if (!given_up_ && regret < limit) return {move, at_most, at_most};
  const double value = simple_worth_after(space_, at, step) / at.mass;
  return {move, value, std::max(value, at_most)};
}

std::vector<MoveWorth> DepthFirst::moves(const Position& position) {
  const State at = space_.at(position);
  std::vector<MoveWorth> all = stops_at(space_, at);
  if (at.mass <= 0) return all;
  // What was not looked at so far is looked at now, for no more states than the search itself took.
  allowed_ = std::min(budget_.states, 2 * solved_states_);
  levels_.front().state = at;
  given_up_ = false;
  const Known best = visit(0, infinity);
  const double limit = best.exact ? best.regret + 2 * tie * at.mass : infinity;
  const std::size_t first_step = all.size();
  for (std::size_t step = 0; step < space_.layout().steps(); ++step)
    if (space_.is_possible(at, step)) all.push_back(worth_of_step(step, limit));
  if (at.key != Key{}) return all;
  for (std::size_t i = first_step; i < all.size(); ++i)  // people compare the first moves with each other
    if (all[i].value < all[i].at_most)
      all[i] = worth_of_step(step_of(space_.layout(), all[i].move), infinity);
  return all;
}

}  // namespace

std::unique_ptr<Solution> search_depth_first(const Model& model, const Budget& budget, Root root) {
  auto search = std::make_unique<DepthFirst>(model, budget, root);
  if (!search->solve()) return nullptr;
  return search;
}

}  // namespace secondpull::decision
