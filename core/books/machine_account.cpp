#include "core/books/machine_account.h"

namespace secondpull::bookkeeping {

void add_cost(Ledger& ledger, MachineAccount& machine, LineKind line, Money cost, AccountKind from) {
  const bool here = machine.stands == AccountKind::machines;
  ledger.post({.account = machine.stands,
               .amount = cost,
               .machine = machine.place,
               .line = here ? line : LineKind::cost_after});
  ledger.post({.account = from, .amount = -cost});
  machine.basis += cost;
}

void move_basis(Ledger& ledger, MachineAccount& machine, AccountKind to) {
  if (machine.stands == to) return;
  ledger.post({.account = to, .amount = machine.basis, .machine = machine.place});
  ledger.post({.account = machine.stands, .amount = -machine.basis, .machine = machine.place});
  machine.stands = to;
}

void carry_gift_at(Ledger& ledger, MachineAccount& machine, Money basis) {
  const Money difference = basis - machine.gift->carried;
  ledger.post(
      {.account = machine.stands, .amount = difference, .machine = machine.place, .line = LineKind::gift});
  ledger.post({.account = AccountKind::owner, .amount = -difference});
  machine.gift->carried = basis;
  machine.basis += difference;
}

}  // namespace secondpull::bookkeeping
