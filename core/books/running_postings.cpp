#include "core/books/bookkeeper.h"

namespace secondpull::bookkeeping {

bool trips_cost(const Shop& shop) {
  return shop.settings.currency.code == "USD";
}

std::optional<Problem> Bookkeeper::keep(Turn turn, const Trip& trip) {
  if (!trips_cost(*shop_)) return std::nullopt;
  const auto cost = rates_->cost(trip);
  if (!cost) {
    unrated_.push_back({trip.date, cost.error()});
    return std::nullopt;
  }
  ledger_.open(trip.date, turn, trip.id);
  const auto drive = [&](Position machine, Money amount) {
    ledger_.post({.account = AccountKind::expense,
                  .amount = amount,
                  .machine = machine,
                  .line = machine == nowhere ? std::nullopt : std::optional{LineKind::trip},
                  .name = ledger_.name(kCarAndTruck)});
  };
  if (trip.machine) {
    const auto machine = account(*trip.machine);
    if (!machine) return machine.error();
    drive((*machine)->place, *cost);
  } else if (trip.acquisition) {
    const Position place = lots_.acquisitions().of(*trip.acquisition);
    if (place == nowhere)
      return Problem{"A trip names an acquisition that is not there.", "acquisition",
                     std::to_string(number(*trip.acquisition))};
    const std::vector<Money> shares = lots_.shares(place, *cost);
    for (std::size_t i = 0; i < shares.size(); ++i)
      drive(lots_.machines(place)[i], shares[i]);
  } else {
    drive(nowhere, *cost);
  }
  ledger_.post({.account = AccountKind::owner, .amount = -*cost});
  return std::nullopt;
}

std::optional<Problem> Bookkeeper::keep(Turn turn, const Expense& expense) {
  ledger_.open(expense.date, turn, expense.id);
  ledger_.post(
      {.account = AccountKind::expense, .amount = expense.amount, .name = ledger_.name(expense.category)});
  ledger_.post({.account = AccountKind::cash, .amount = -expense.amount});
  return std::nullopt;
}

std::optional<Problem> Bookkeeper::keep(Turn turn, const TaxPaid& paid) {
  ledger_.open(paid.date, turn, paid.id);
  ledger_.post({.account = AccountKind::sales_tax, .amount = paid.amount, .name = ledger_.name(paid.place)});
  ledger_.post({.account = AccountKind::cash, .amount = -paid.amount});
  return std::nullopt;
}

}  // namespace secondpull::bookkeeping
