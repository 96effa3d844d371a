#include "core/books/bookkeeper.h"

namespace secondpull::bookkeeping {

void Bookkeeper::move(MachineAccount& machine, Turn turn, const Disposal& disposal) {
  machine.disposed = true;
  if (disposal.how == DisposalKind::parted_out)
    return;  // its parting is an event of its own, and so is its hulk
  ledger_.open(disposal.date, turn, disposal.id);
  if (machine.gift) carry_gift_at(ledger_, machine, machine.gift->lower);
  machine.left = disposal.date;
  if (disposal.how == DisposalKind::kept) {
    move_basis(ledger_, machine, AccountKind::owner);
    return;
  }
  ledger_.post({.account = AccountKind::cash, .amount = disposal.proceeds});
  ledger_.post({.account = AccountKind::scrap,
                .amount = -disposal.proceeds,
                .machine = machine.place,
                .line = LineKind::scrap});
  move_basis(ledger_, machine, AccountKind::cost_of_goods);
}

void Bookkeeper::move(MachineAccount& machine, Turn turn, HulkGone hulk) {
  const Disposal& disposal = *hulk.disposal;
  const Date gone = disposal.hulk_gone.value_or(disposal.date);
  ledger_.open(gone, turn, disposal.id);
  ledger_.post({.account = AccountKind::cash, .amount = disposal.proceeds});
  ledger_.post({.account = AccountKind::scrap,
                .amount = -disposal.proceeds,
                .machine = machine.place,
                .line = LineKind::scrap});
  move_basis(ledger_, machine, AccountKind::cost_of_goods);
  machine.left = gone;
}

}  // namespace secondpull::bookkeeping
