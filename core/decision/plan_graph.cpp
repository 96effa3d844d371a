#include "core/decision/plan_graph.h"

#include <algorithm>

namespace secondpull::decision {

std::size_t PlanGraph::place_of(const Key& key) const {
  const std::size_t mask = index_.size() - 1;
  std::size_t place = key.hash() & mask;
  while (index_[place] != none && nodes_[index_[place]].key != key)
    place = (place + 1) & mask;
  return place;
}

void PlanGraph::grow() {
  index_.assign(index_.size() * 2, none);
  for (std::size_t id = 0; id < nodes_.size(); ++id)
    index_[place_of(nodes_[id].key)] = static_cast<Id>(id);
}

PlanGraph::Id PlanGraph::add(const Node& node) {
  if (2 * (nodes_.size() + 1) > index_.size()) grow();
  const auto id = static_cast<Id>(nodes_.add(node));
  index_[place_of(node.key)] = id;
  return id;
}

void PlanGraph::set_moves(Node& node, std::span<const Move> moves) {
  node.moves = static_cast<std::uint16_t>(moves.size());
  if (moves.empty()) return;
  node.first_move = static_cast<Id>(moves_.add_row(moves.size()));
  std::ranges::copy(moves, &moves_[node.first_move]);
}

void PlanGraph::set_children(Move& move, std::span<const Id> children) {
  move.children = static_cast<std::uint16_t>(children.size());
  move.first_child = 0;  // opened, even if nothing can follow
  if (children.empty()) return;
  move.first_child = static_cast<Id>(children_.add_row(children.size()));
  std::ranges::copy(children, &children_[move.first_child]);
}

double PlanGraph::low_of(const Move& move) const {
  double low = move.charge;
  for (const Id child : children(move))
    low += nodes_[child].low;
  return low;
}

double PlanGraph::high_of(const Move& move) const {
  double high = move.charge;
  for (const Id child : children(move))
    high += nodes_[child].high;
  return high;
}

void PlanGraph::settle() {
  std::vector<std::vector<Id>> by_depth;
  for (std::size_t id = 0; id < nodes_.size(); ++id) {
    const Node& node = nodes_[id];
    if (!node.expanded || node.moves == 0) continue;
    if (node.depth >= by_depth.size()) by_depth.resize(node.depth + std::size_t{1});
    by_depth[node.depth].push_back(static_cast<Id>(id));
  }
  for (auto level = by_depth.rbegin(); level != by_depth.rend(); ++level)
    for (const Id id : *level) {
      Node& node = nodes_[id];
      double low = node.high;
      for (Move& move : moves(node)) {
        if (move.first_child != none) {
          node.high = std::min(node.high, high_of(move));
          move.low = std::max(move.low, low_of(move));
        }
        low = std::min(low, move.low);
      }
      node.low = std::max(node.low, std::min(low, node.high));
    }
}

}  // namespace secondpull::decision
