#include <fmt/format.h>

#include "core/books/bookkeeper.h"

namespace secondpull::bookkeeping {

void Bookkeeper::receive_gift(const Acquisition& acquisition, Position place) {
  const auto members = lots_.machines(place);
  const std::vector<Money> shares = lots_.shares(place, *acquisition.giver_basis);
  for (std::size_t i = 0; i < members.size(); ++i) {
    MachineAccount& machine = machines_[members[i]];
    const std::optional<Money>& value = record(members[i]).value_then;
    machine.gift = given(shares[i], value ? &*value : nullptr);
    add_cost(ledger_, machine, LineKind::gift, machine.gift->carried, AccountKind::owner);
  }
}

std::optional<Problem> Bookkeeper::keep(Turn turn, const Acquisition& acquisition) {
  const Position place = lots_.acquisitions().of(acquisition.id);
  const auto members = lots_.machines(place);
  if (members.empty())
    return Problem{
        fmt::format("The acquisition {} of {} has no machines.", acquisition.code, iso(acquisition.date)),
        "acquisition", acquisition.code};
  ledger_.open(acquisition.date, turn, acquisition.id);
  if (acquisition.giver_basis) receive_gift(acquisition, place);

  // Price and pickup are one sum, split once.
  const std::vector<Money> shares = lots_.shares(place, acquisition.price + acquisition.pickup_cost);
  const LineKind line = acquisition.price.is_zero() ? LineKind::pickup : LineKind::acquisition;
  const AccountKind from = acquisition.opening ? AccountKind::owner : AccountKind::cash;
  for (std::size_t i = 0; i < members.size(); ++i)
    add_cost(ledger_, machines_[members[i]], line, shares[i], from);
  return std::nullopt;
}

}  // namespace secondpull::bookkeeping
