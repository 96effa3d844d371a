#include "core/books/inventory.h"

#include <algorithm>

namespace secondpull::bookkeeping {

Inventory take_inventory(int year, std::span<const MachineAccount> machines, const Stock& stock) {
  Inventory inventory{.year = year};
  for (const MachineAccount& machine : machines) {
    if (machine.stands != AccountKind::machines || machine.basis.is_zero()) continue;
    inventory.machines.emplace_back(machine.place, machine.basis);
    inventory.in_machines += machine.basis;
  }
  inventory.parts = stock.on_hand(std::chrono::year{year} / std::chrono::December / 31);
  for (const StockReceipt& receipt : inventory.parts)
    inventory.in_parts += receipt.cost;
  return inventory;
}

const Inventory* inventory_at_end(std::span<const Inventory> inventories, int year) {
  const auto later = std::find_if(inventories.begin(), inventories.end(),
                                  [year](const Inventory& one) { return one.year > year; });
  return later == inventories.begin() ? nullptr : &*std::prev(later);
}

}  // namespace secondpull::bookkeeping
