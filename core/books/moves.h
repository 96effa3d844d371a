#pragma once

#include <variant>
#include <vector>

#include "core/books/ledger.h"
#include "core/shop/stage.h"

namespace secondpull::bookkeeping {

/// The lines of each machine, by its place: looked up once, read often.
using LinesByPlace = std::vector<const ByMachine::Lines*>;

/// The hulk of a donor goes.
struct HulkGone {
  const Disposal* disposal = nullptr;
};

/// A machine goes or comes back.
struct Move {
  Position machine = nowhere;
  Date date{};
  Turn turn = Turn::move;
  std::variant<const Sale*, const Return*, const Disposal*, HulkGone> what;
};

/// Appends the sales, returns and disposal of a machine in the turns in which they happened; several may lie
/// on one day. A problem naming `date` (or `hulk_gone`) if one of them is out of turn.
std::optional<Problem> add_moves(Position machine, const ByMachine::Lines& lines, std::vector<Move>& moves);

/// Days from the first listing since the machine last came in to its sale; nothing if it was not listed.
std::optional<int> days_listed(const ByMachine::Lines& lines, Date since, Date sold);

}  // namespace secondpull::bookkeeping
