#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "core/decision/chunks.h"
#include "core/decision/layout.h"

namespace secondpull::decision {

/// The states that a search has met, merged by key, and the moves between them. Regrets are unnormalised.
class PlanGraph {
 public:
  using Id = std::uint32_t;
  static constexpr Id none = std::numeric_limits<Id>::max();
  static constexpr std::uint32_t no_set = std::numeric_limits<std::uint32_t>::max();

  struct Node {
    Key key;
    double low = 0;   ///< regret at least
    double high = 0;  ///< regret of the plan known from here
    Id first_move = none;
    std::uint32_t passed = 0;    ///< times that the search came by
    std::uint32_t set = no_set;  ///< of shares made for this state
    std::uint16_t moves = 0;
    std::uint16_t depth = 0;  ///< steps made
    bool expanded = false;
    bool closed = false;  ///< low and high meet
  };
  struct Move {
    double low = 0;
    double charge = 0;
    Id first_child = none;  ///< place in the row of children; none: not opened yet
    std::uint16_t step = 0;
    std::uint16_t children = 0;
  };

  PlanGraph() : index_(first_room, none) {}

  Id find(const Key& key) const { return index_[place_of(key)]; }
  Id add(const Node& node);
  Node& node(Id id) { return nodes_[id]; }
  const Node& node(Id id) const { return nodes_[id]; }
  std::size_t size() const { return nodes_.size(); }
  std::size_t bytes() const {
    return nodes_.bytes() + moves_.bytes() + children_.bytes() + index_.capacity() * sizeof(Id);
  }

  std::span<Move> moves(const Node& node) {
    return node.moves == 0 ? std::span<Move>{} : std::span{&moves_[node.first_move], node.moves};
  }
  void set_moves(Node& node, std::span<const Move> moves);
  std::span<const Id> children(const Move& move) const {
    return move.children == 0 ? std::span<const Id>{}
                              : std::span{&children_[move.first_child], move.children};
  }
  void set_children(Move& move, std::span<const Id> children);

  /// What the move costs at least, and with the plans known, as its children stand now.
  double low_of(const Move& move) const;
  double high_of(const Move& move) const;

  /// Carries what was found out about states to all that lead to them, so that every node's `high` is what
  /// the best of its opened moves comes to.
  void settle();

 private:
  static constexpr std::size_t first_room = std::size_t{1} << 12U;
  std::size_t place_of(const Key& key) const;
  void grow();

  Chunks<Node> nodes_;
  Chunks<Move> moves_;
  Chunks<Id> children_;
  std::vector<Id> index_;
};

}  // namespace secondpull::decision
