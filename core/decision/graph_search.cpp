#include "core/decision/graph_search.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <optional>

#include "core/decision/pair_bound.h"
#include "core/decision/plan_graph.h"
#include "core/decision/simple_plan.h"

namespace secondpull::decision {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// Rounds in which the root's shares are improved: one for so many states that may be looked at, since making
/// the bound should not take longer than using it.
constexpr std::size_t states_a_round = 200;
constexpr std::size_t least_rounds = 2;
constexpr std::size_t most_rounds = 20;
constexpr std::size_t rounds_below = 6;
/// Shares are thought over again at a state that was passed so often, and twice, four times... as often,
/// if its belief differs from the one they were made for by more than `far_belief` (sum of differences).
constexpr std::uint32_t passes_between_shares = 400;
constexpr double far_belief = 0.4;
/// At most this part of the bytes, and never more than this, is for the pairs' lines.
constexpr std::size_t most_line_bytes = std::size_t{200} << 20U;
constexpr double line_part = 0.4;
constexpr std::size_t check_every = 16;  // walks
/// States that may be added when the case is solved and somebody asks about a move: so many, and a part of
/// those of the search.
constexpr std::size_t extra_states = 2000;
constexpr std::size_t extra_part = 4;

using Id = PlanGraph::Id;
using Node = PlanGraph::Node;

class GraphSearch final : public Solution {
 public:
  GraphSearch(const Model& model, const Budget& budget, Root root)
      : space_(model), budget_(budget), root_(root), levels_(space_.layout().depth + 2) {}

  void solve();
  std::vector<MoveWorth> moves(const Position& position) override;
  Progress progress() const override;

 private:
  struct Visited {
    Id id = 0;
    std::size_t move = 0;  ///< place in the node's moves
    double mass = 0;
  };
  /// What making a step comes to, as the graph stands.
  struct StepRegret {
    double low = 0;
    double high = 0;
    bool exact = false;
  };

  Id add_node(const State& at, std::size_t depth, PairBound::Set set);
  void walk(Id from);
  void expand(Node& node, const State& at, PairBound::Set set);
  std::optional<std::size_t> choose(Node& node, std::size_t level, PairBound::Set set);
  void open(const Node& node, PlanGraph::Move& move, std::size_t level, PairBound::Set set);
  Id widest_child(const PlanGraph::Move& move) const;
  void go_to(const PlanGraph::Move& move, Id child, std::size_t level);
  void think_shares_over(Node& node, const State& at, PairBound::Set& set);
  void tighten(Node& node, double mass);
  StepRegret regret_of(const State& at, std::size_t step);
  StepRegret look_into(const State& at, std::size_t depth, std::size_t step, double enough,
                       std::size_t states);
  double slack(double mass) const { return rounding * space_.layout().scale * mass; }
  bool is_over();
  bool has_room() const {
    return graph_.size() < allowed_ && graph_.bytes() + bound_->bytes() < budget_.bytes;
  }

  StateSpace space_;
  Budget budget_;
  Root root_;
  std::optional<PairBound> bound_;
  PlanGraph graph_;
  std::vector<State> levels_;
  std::vector<Visited> path_;
  PairBound::Parts parts_, child_parts_;
  State child_;
  Id top_ = PlanGraph::none;
  double perfect_ = 0;
  std::size_t allowed_ = 0;  ///< states
  std::size_t walks_ = 0;
  bool cancelled_ = false;
};

Progress GraphSearch::progress() const {
  const Node& top = graph_.node(top_);
  const double value = perfect_ - top.high;
  return {value, top.closed ? value : std::max(value, perfect_ - top.low), graph_.size(),
          graph_.bytes() + (bound_ ? bound_->bytes() : 0)};
}

bool GraphSearch::is_over() {
  if (cancelled_ || !has_room()) return true;
  if (walks_++ % check_every != 0) return false;
  if (budget_.spent && budget_.spent() >= budget_.time) cancelled_ = true;
  if (budget_.go_on && !budget_.go_on(progress())) cancelled_ = true;
  const auto part = static_cast<std::size_t>(line_part * static_cast<double>(budget_.bytes));
  if (bound_->line_bytes() > std::min(most_line_bytes, part)) bound_->drop_lines();
  return cancelled_;
}

void GraphSearch::solve() {
  levels_.front() = space_.start();
  const State& start = levels_.front();
  perfect_ = space_.perfect_worth(start);
  double worth = -infinity;
  if (root_ == Root::any) {
    worth = simple_plan(space_, start).worth;
  } else {
    for (std::size_t step = 0; step < space_.layout().steps(); ++step)
      if (space_.is_possible(start, step)) worth = std::max(worth, simple_worth_after(space_, start, step));
  }
  top_ = graph_.add({start.key, 0, std::max(0.0, perfect_ - worth)});
  allowed_ = budget_.states;
  bound_.emplace(space_);
  const auto go_on = [this] {
    if (budget_.spent && budget_.spent() >= budget_.time) cancelled_ = true;
    if (budget_.go_on && !budget_.go_on(progress())) cancelled_ = true;
    return !cancelled_;
  };
  if (!go_on()) return;
  bound_->optimise_root(start, std::clamp(allowed_ / states_a_round, least_rounds, most_rounds), go_on);
  while (!graph_.node(top_).closed && !is_over()) {
    levels_.front() = space_.start();
    walk(top_);
  }
  graph_.settle();
}

Id GraphSearch::add_node(const State& at, std::size_t depth, PairBound::Set set) {
  Node node{at.key};
  node.depth = static_cast<std::uint16_t>(depth);
  node.high = std::max(0.0, space_.perfect_worth(at) - simple_plan(space_, at).worth);
  bound_->bound(at, set, child_parts_);
  node.low = std::min(node.high, child_parts_.total);
  node.closed = node.high - node.low <= slack(at.mass);
  return graph_.add(node);
}

/// From a node, whose state is at the first level, down the most promising moves to one that was not looked
/// at yet, which is; then back, carrying the bounds up.
void GraphSearch::walk(Id from) {
  path_.clear();
  PairBound::Set set = PairBound::root_set;
  Id id = from;
  for (std::size_t level = 0;; ++level) {
    Node& node = graph_.node(id);
    const State& at = levels_[level];
    if (node.set != PlanGraph::no_set) set = node.set;
    ++node.passed;
    if (!node.expanded) {
      expand(node, at, set);
      break;
    }
    think_shares_over(node, at, set);
    const std::optional<std::size_t> best = choose(node, level, set);
    if (!best) break;
    const PlanGraph::Move& move = graph_.moves(node)[*best];
    const Id child = widest_child(move);
    if (child == PlanGraph::none) {  // all that is left of the gap is rounding
      node.low = node.high;
      node.closed = true;
      break;
    }
    path_.push_back({id, *best, at.mass});
    go_to(move, child, level);
    id = child;
  }
  for (auto back = path_.rbegin(); back != path_.rend(); ++back) {
    Node& node = graph_.node(back->id);
    PlanGraph::Move& move = graph_.moves(node)[back->move];
    move.low = std::max(move.low, graph_.low_of(move));
    node.high = std::min(node.high, graph_.high_of(move));
    tighten(node, back->mass);
  }
}

/// The node's bounds from those of its moves.
void GraphSearch::tighten(Node& node, double mass) {
  double low = node.high;
  for (const PlanGraph::Move& move : graph_.moves(node))
    low = std::min(low, move.low);
  node.low = std::max(node.low, low);
  if (node.high - node.low <= slack(mass)) {
    node.low = std::min(node.low, node.high);
    node.closed = true;
  }
}

void GraphSearch::expand(Node& node, const State& at, PairBound::Set set) {
  bound_->bound(at, set, parts_);
  node.low = std::max(node.low, std::min(node.high, parts_.total));
  const double bar = node.high - slack(at.mass);
  std::vector<PlanGraph::Move> moves;
  for (std::size_t step = 0; step < space_.layout().steps(); ++step) {
    if (!space_.is_possible(at, step)) continue;
    PlanGraph::Move move;
    move.charge = space_.charge(at, step);
    if (move.charge >= bar) continue;
    move.low = move.charge + bound_->after_step(at, set, parts_, step, move.charge, bar);
    if (move.low >= bar) continue;
    move.step = static_cast<std::uint16_t>(step);
    moves.push_back(move);
  }
  graph_.set_moves(node, moves);
  node.expanded = true;
  tighten(node, at.mass);
}

/// The move with the lowest bound, its children made and looked at; none if the node is closed.
std::optional<std::size_t> GraphSearch::choose(Node& node, std::size_t level, PairBound::Set set) {
  const std::span<PlanGraph::Move> moves = graph_.moves(node);
  while (true) {
    tighten(node, levels_[level].mass);
    if (node.closed || moves.empty()) {
      node.closed = true;
      return std::nullopt;
    }
    const auto best = std::ranges::min_element(moves, {}, &PlanGraph::Move::low);
    if (best->first_child == PlanGraph::none) open(node, *best, level, set);
    node.high = std::min(node.high, graph_.high_of(*best));
    const double low = graph_.low_of(*best);
    if (low <= best->low + slack(levels_[level].mass)) return static_cast<std::size_t>(best - moves.begin());
    best->low = low;
  }
}

void GraphSearch::open(const Node& node, PlanGraph::Move& move, std::size_t level, PairBound::Set set) {
  const State& at = levels_[level];
  const Layout& layout = space_.layout();
  std::vector<Id> children;
  const auto add = [&] {
    const Id found = graph_.find(child_.key);
    children.push_back(found != PlanGraph::none ? found : add_node(child_, node.depth + std::size_t{1}, set));
  };
  if (layout.is_repair(move.step)) {
    space_.failure(at, move.step, child_);
    if (child_.mass > 0) add();
  } else {
    const std::size_t test = move.step - layout.repairs.size();
    for (std::size_t outcome = 0; outcome < layout.tests[test].outcomes.size(); ++outcome) {
      space_.answer(at, test, outcome, child_);
      if (child_.mass > 0) add();
    }
  }
  graph_.set_children(move, children);
}

Id GraphSearch::widest_child(const PlanGraph::Move& move) const {
  Id widest = PlanGraph::none;
  double gap = 0;
  for (const Id id : graph_.children(move)) {
    const Node& child = graph_.node(id);
    if (child.closed || child.high - child.low <= gap) continue;
    widest = id;
    gap = child.high - child.low;
  }
  return widest;
}

/// Puts the child's state at the next level.
void GraphSearch::go_to(const PlanGraph::Move& move, Id child, std::size_t level) {
  const State& at = levels_[level];
  const Layout& layout = space_.layout();
  if (layout.is_repair(move.step)) return space_.failure(at, move.step, levels_[level + 1]);
  const std::size_t test = move.step - layout.repairs.size();
  const auto& outcomes = layout.tests[test].outcomes;
  const Key& key = graph_.node(child).key;
  const auto seen = std::ranges::find_if(
      outcomes, [&](const Layout::Outcome& outcome) { return at.key + outcome.token == key; });
  space_.answer(at, test, static_cast<std::size_t>(seen - outcomes.begin()), levels_[level + 1]);
}

void GraphSearch::think_shares_over(Node& node, const State& at, PairBound::Set& set) {
  if (node.passed % passes_between_shares != 0 || !std::has_single_bit(node.passed / passes_between_shares))
    return;
  if (bound_->asked_for_shares() > bound_->asked()) return;  // no more work than the search itself
  double differs = 0;
  for (std::size_t cause = 0; cause < at.weight.size(); ++cause)
    differs += std::abs(at.weight[cause] / at.mass - bound_->made_for(set)[cause]);
  if (differs <= far_belief) return;
  const std::optional<PairBound::Set> better = bound_->improved(at, set, rounds_below);
  if (!better) return;
  set = *better;
  node.set = static_cast<std::uint32_t>(set);
  bound_->bound(at, set, parts_);
  node.low = std::max(node.low, std::min(node.high, parts_.total));
  for (PlanGraph::Move& move : graph_.moves(node))
    if (move.low < node.high)
      move.low = std::max(
          move.low, move.charge + bound_->after_step(at, set, parts_, move.step, move.charge, node.high));
}

GraphSearch::StepRegret GraphSearch::regret_of(const State& at, std::size_t step) {
  const Layout& layout = space_.layout();
  const double charge = space_.charge(at, step);
  StepRegret regret{charge, charge, true};
  const auto add = [&] {
    if (child_.mass <= 0) return;
    if (const Id id = graph_.find(child_.key); id != PlanGraph::none) {
      const Node& child = graph_.node(id);
      regret.low += child.low;
      regret.high += child.high;
      regret.exact = regret.exact && child.closed;
      return;
    }
    const double high = std::max(0.0, space_.perfect_worth(child_) - simple_plan(space_, child_).worth);
    bound_->bound(child_, PairBound::root_set, child_parts_);
    regret.low += std::min(high, child_parts_.total);
    regret.high += high;
    regret.exact = regret.exact && high - child_parts_.total <= slack(child_.mass);
  };
  if (layout.is_repair(step)) {
    space_.failure(at, step, child_);
    add();
  } else {
    const std::size_t test = step - layout.repairs.size();
    for (std::size_t outcome = 0; outcome < layout.tests[test].outcomes.size(); ++outcome) {
      space_.answer(at, test, outcome, child_);
      add();
    }
  }
  return regret;
}

/// Searches on below a step until its regret is exact or above `enough`, adding at most so many states.
GraphSearch::StepRegret GraphSearch::look_into(const State& at, std::size_t depth, std::size_t step,
                                               double enough, std::size_t states) {
  const std::size_t most = graph_.size() + states;
  StepRegret regret = regret_of(at, step);
  PlanGraph::Move move;
  while (!regret.exact && regret.low <= enough && graph_.size() <= most && !is_over()) {
    if (move.first_child == PlanGraph::none) {
      Node node;
      node.depth = static_cast<std::uint16_t>(depth);
      move.step = static_cast<std::uint16_t>(step);
      levels_.front() = at;
      open(node, move, 0, PairBound::root_set);
    }
    const Id child = widest_child(move);
    if (child == PlanGraph::none) break;
    levels_.front() = at;
    go_to(move, child, 0);
    std::swap(levels_[0], levels_[1]);
    walk(child);
    regret = regret_of(at, step);
  }
  return regret;
}

std::vector<MoveWorth> GraphSearch::moves(const Position& position) {
  const State at = space_.at(position);
  std::vector<MoveWorth> all = stops_at(space_, at);
  if (at.mass <= 0) return all;
  std::size_t depth = 0;
  for (const std::uint16_t answer : position.answers)
    if (answer > 0) ++depth;
  for (const std::uint8_t tried : position.tried)
    depth += tried;

  // In a case that is solved the search goes on a little where this makes the answer exact. In one that is
  // not every answer must fit the plan as it stands.
  const bool solved = graph_.node(top_).closed && !cancelled_;
  if (solved && allowed_ == budget_.states && depth == 0)
    allowed_ = std::min(budget_.states, graph_.size() + graph_.size() / extra_part + extra_states);
  Id id = graph_.find(at.key);
  if (solved && (id == PlanGraph::none || !graph_.node(id).closed) && has_room()) {
    if (id == PlanGraph::none) id = add_node(at, depth, PairBound::root_set);
    while (!graph_.node(id).closed && !is_over()) {
      levels_.front() = at;
      walk(id);
    }
  }
  const bool known = id != PlanGraph::none;
  const double perfect = space_.perfect_worth(at);
  const SimplePlan simple = simple_plan(space_, at);
  const double simple_regret = std::max(0.0, perfect - simple.worth);
  const double policy = known ? graph_.node(id).high : simple_regret;
  const bool closed = known && graph_.node(id).closed;
  const double least = known ? graph_.node(id).low : 0;
  const double margin = 2 * tie * at.mass;
  std::vector<char> opened(space_.layout().steps(), 0);
  if (known)
    for (const PlanGraph::Move& move : graph_.moves(graph_.node(id)))
      if (move.first_child != PlanGraph::none) opened[move.step] = 1;

  for (std::size_t step = 0; step < space_.layout().steps(); ++step) {
    if (!space_.is_possible(at, step)) continue;
    StepRegret regret = regret_of(at, step);
    if (solved && !regret.exact && regret.low <= policy + margin)
      regret = look_into(at, depth, step, policy + margin, graph_.size());
    if (solved && !regret.exact && depth == 0)
      regret = look_into(at, depth, step, infinity, extra_states / space_.layout().steps());
    regret.low = std::max(regret.low, least);
    // The simple plan's first step, where that is the plan; other moves that are not part of the plan are
    // not said to be as good as it, for what follows them was not settled.
    const bool simple_step = simple.repair && *simple.repair == step && policy >= simple_regret;
    if (solved && regret.exact)
      regret.low = regret.high;
    else if (simple_step)
      regret.high = std::min(regret.high, simple_regret);
    else if (opened[step] == 0)
      regret.high = std::max(regret.high, policy + margin);
    if (closed && regret.high <= policy + slack(at.mass)) regret.low = regret.high;
    const double value = (perfect - regret.high) / at.mass;
    all.push_back({move_of(space_.layout(), step), value,
                   regret.low == regret.high ? value : std::max(value, (perfect - regret.low) / at.mass)});
  }
  return all;
}

}  // namespace

std::unique_ptr<Solution> search_graph(const Model& model, const Budget& budget, Root root) {
  auto search = std::make_unique<GraphSearch>(model, budget, root);
  search->solve();
  return search;
}

}  // namespace secondpull::decision
