#pragma once

#include <optional>

#include "core/books/gift.h"
#include "core/books/ledger.h"

namespace secondpull::bookkeeping {

/// What the books know of one machine as they walk through the days.
struct MachineAccount {
  Position place = nowhere;
  Money basis;  ///< all it has cost so far, wherever it stands
  /// Where its basis stands: with the machines while it (or its hulk) is here, in the cost of goods once it
  /// left, with the owner if kept. What is spent on it goes there.
  AccountKind stands = AccountKind::machines;
  bool disposed = false;
  std::optional<GiftBasis> gift;       ///< until it is parted out
  const Sale* sold = nullptr;          ///< the last sale, unless it came back
  Money tax_given_back;                ///< of that sale, by allowances
  Date came_in{};                      ///< acquired, or the last return
  std::optional<Date> left;            ///< sold or disposed of; a donor: its hulk gone
  std::optional<int> listed_for_days;  ///< of the last sale
};

/// Adds to what a machine has cost. `from` is where the money or part came from.
void add_cost(Ledger& ledger, MachineAccount& machine, LineKind line, Money cost, AccountKind from);

/// Moves the whole basis to where the machine goes, or back.
void move_basis(Ledger& ledger, MachineAccount& machine, AccountKind to);

/// Carries a gift at another basis: the owner brings in the difference, or takes it back.
void carry_gift_at(Ledger& ledger, MachineAccount& machine, Money basis);

}  // namespace secondpull::bookkeeping
