#pragma once

#include <span>
#include <utility>
#include <vector>

#include "core/books/machine_account.h"
#include "core/books/stock.h"

namespace secondpull::bookkeeping {

/// What was in stock when a year ended, valued piece by piece: what each machine and hulk that was here had
/// cost, and every receipt of parts with what was left of it.
struct Inventory {
  int year = 0;
  std::vector<std::pair<Position, Money>> machines;
  std::vector<StockReceipt> parts;
  Money in_machines;
  Money in_parts;
  Money total() const { return in_machines + in_parts; }
};

/// The stock as the accounts have it once the last event of the year is booked.
Inventory take_inventory(int year, std::span<const MachineAccount> machines, const Stock& stock);

/// The inventory at the end of a year, which is that of the last year before it in which anything was booked;
/// nullptr before the first.
const Inventory* inventory_at_end(std::span<const Inventory> inventories, int year);

}  // namespace secondpull::bookkeeping
