#include <algorithm>

#include <fmt/format.h>

#include "core/books/bookkeeper.h"

namespace secondpull::bookkeeping {

namespace {

/// The sales tax that goes back with a refund: in proportion to the price, at most what allowances left.
Money tax_back(const Sale& sale, Money refunded, Money given_back) {
  if (sale.price.is_zero()) return {};
  const Money left = std::max(sale.sales_tax - given_back, Money{});
  if (refunded >= sale.price) return left;  // all of it, whatever the quotient would be
  return std::min(scale(sale.sales_tax, refunded.minor(), sale.price.minor()), left);
}

}  // namespace

std::optional<Problem> Bookkeeper::keep(Turn turn, const Move& what) {
  MachineAccount& machine = machines_[what.machine];
  std::visit(
      [&](const auto& record) {
        if constexpr (std::is_pointer_v<std::decay_t<decltype(record)>>)
          move(machine, turn, *record);
        else
          move(machine, turn, record);
      },
      what.what);
  return std::nullopt;
}

void Bookkeeper::move(MachineAccount& machine, Turn turn, const Sale& sale) {
  ledger_.open(sale.date, turn, sale.id);
  const auto line = [&](AccountKind account, Money amount, LineKind kind, std::string_view name) {
    ledger_.post({.account = account,
                  .amount = amount,
                  .machine = machine.place,
                  .line = kind,
                  .name = ledger_.name(name)});
  };
  ledger_.post(
      {.account = AccountKind::cash, .amount = sale.price + sale.sales_tax - sale.fee - sale.delivery});
  line(AccountKind::sales, -sale.price, LineKind::price, {});
  line(AccountKind::expense, sale.fee, LineKind::fee, kFees);
  line(AccountKind::expense, sale.delivery, LineKind::delivery, kDelivery);
  ledger_.post(
      {.account = AccountKind::sales_tax, .amount = -sale.sales_tax, .name = ledger_.name(sale.place)});
  if (machine.gift)
    carry_gift_at(ledger_, machine,
                  settled_basis(*machine.gift, machine.basis - machine.gift->carried,
                                sale.price - sale.fee - sale.delivery));
  move_basis(ledger_, machine, AccountKind::cost_of_goods);

  machine.sold = &sale;
  machine.tax_given_back = Money{};
  machine.left = sale.date;
  machine.listed_for_days = days_listed(*(*lines_)[machine.place], machine.came_in, sale.date);
}

void Bookkeeper::move(MachineAccount& machine, Turn turn, const Return& back) {
  const Sale& sale = *machine.sold;
  const Money tax = tax_back(sale, back.refunded, machine.tax_given_back);
  ledger_.open(back.date, turn, back.id);
  ledger_.post({.account = AccountKind::sales,
                .amount = back.refunded,
                .machine = machine.place,
                .line = LineKind::refund});
  ledger_.post({.account = AccountKind::sales_tax, .amount = tax, .name = ledger_.name(sale.place)});
  ledger_.post({.account = AccountKind::cash, .amount = -(back.refunded + tax)});
  move_basis(ledger_, machine, AccountKind::machines);

  machine.sold = nullptr;
  machine.came_in = back.date;
  machine.left.reset();
  machine.listed_for_days.reset();
}

std::optional<Problem> Bookkeeper::keep(Turn turn, const Allowance& allowance) {
  const auto machine = account(allowance.machine);
  if (!machine) return machine.error();
  if ((*machine)->sold == nullptr)
    return Problem{fmt::format("#{} was not sold on {}, the day of an allowance.",
                               record((*machine)->place).tag, iso(allowance.date)),
                   "date", iso(allowance.date)};
  ledger_.open(allowance.date, turn, allowance.id);
  ledger_.post({.account = AccountKind::sales,
                .amount = allowance.amount,
                .machine = (*machine)->place,
                .line = LineKind::allowance});
  ledger_.post({.account = AccountKind::sales_tax,
                .amount = allowance.sales_tax,
                .name = ledger_.name((*machine)->sold->place)});
  ledger_.post({.account = AccountKind::cash, .amount = -(allowance.amount + allowance.sales_tax)});
  (*machine)->tax_given_back += allowance.sales_tax;
  return std::nullopt;
}

}  // namespace secondpull::bookkeeping
