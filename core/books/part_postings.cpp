#include "core/books/bookkeeper.h"

namespace secondpull::bookkeeping {

std::optional<Problem> Bookkeeper::keep(Turn turn, const Arrival& arrival) {
  const Order& order = *arrival.order;
  ledger_.open(*order.arrived, turn, order.id);
  ledger_.post({.account = AccountKind::parts, .amount = arrival.landed});
  ledger_.post(
      {.account = order.opening ? AccountKind::owner : AccountKind::cash, .amount = -arrival.landed});
  return std::nullopt;
}

std::optional<Problem> Bookkeeper::keep(Turn turn, const Fitted& fitted) {
  const auto cost =
      stock_.issue({fitted.part, fitted.quantity, fitted.date, fitted.from_order, fitted.from_donor});
  if (!cost) return cost.error();
  ledger_.open(fitted.date, turn, fitted.id);
  if (fitted.machine) {
    const auto machine = account(*fitted.machine);
    if (!machine) return machine.error();
    add_cost(ledger_, **machine, LineKind::part, *cost, AccountKind::parts);
  } else {
    ledger_.post({.account = AccountKind::cost_of_goods, .amount = *cost});
    ledger_.post({.account = AccountKind::parts, .amount = -*cost});
  }
  return std::nullopt;
}

std::optional<Problem> Bookkeeper::keep(Turn turn, const PartSale& sale) {
  const auto cost = stock_.issue({sale.part, sale.quantity, sale.date, sale.from_order, sale.from_donor});
  if (!cost) return cost.error();
  ledger_.open(sale.date, turn, sale.id);
  ledger_.post({.account = AccountKind::cash, .amount = sale.price + sale.sales_tax - sale.fee});
  ledger_.post({.account = AccountKind::expense, .amount = sale.fee, .name = ledger_.name(kFees)});
  ledger_.post({.account = AccountKind::sales, .amount = -sale.price});
  ledger_.post(
      {.account = AccountKind::sales_tax, .amount = -sale.sales_tax, .name = ledger_.name(sale.place)});
  ledger_.post({.account = AccountKind::cost_of_goods, .amount = *cost});
  ledger_.post({.account = AccountKind::parts, .amount = -*cost});
  return std::nullopt;
}

}  // namespace secondpull::bookkeeping
