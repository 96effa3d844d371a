#include "core/books/bookkeeper.h"

namespace secondpull::bookkeeping {

std::optional<Problem> Bookkeeper::keep(Turn turn, const Material& material) {
  const auto machine = account(material.machine);
  if (!machine) return machine.error();
  ledger_.open(material.date, turn, material.id);
  add_cost(ledger_, **machine, LineKind::material, material.cost, AccountKind::cash);
  return std::nullopt;
}

std::optional<Problem> Bookkeeper::keep(Turn turn, const Finding& outside_work) {
  const auto machine = account(outside_work.machine);
  if (!machine) return machine.error();
  ledger_.open(outside_work.date, turn, outside_work.id);
  add_cost(ledger_, **machine, LineKind::outside_work, outside_work.cost, AccountKind::cash);
  return std::nullopt;
}

}  // namespace secondpull::bookkeeping
