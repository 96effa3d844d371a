#include "core/books/bookkeeper.h"

namespace secondpull::bookkeeping {

std::optional<Problem> Bookkeeper::keep(Turn turn, const Parting& parting) {
  MachineAccount& donor = machines_[parting.machine];
  ledger_.open(parting.date, turn, parting.disposal->id);
  if (donor.gift) {
    // Only a sale can settle a gift for more than the lower basis; the parts take their shares of that.
    carry_gift_at(ledger_, donor, donor.gift->lower);
    donor.gift.reset();
  }

  std::vector<Money> values;
  values.reserve(parting.lines.size() + 1);
  for (const Harvest* line : parting.lines)
    values.push_back(line->value);
  values.push_back(parting.disposal->hulk_value.value_or(parting.disposal->proceeds));
  const std::vector<Money> shares = split(donor.basis, values);

  for (std::size_t i = 0; i < parting.lines.size(); ++i)
    stock_.set_cost(*parting.lines[i], shares[i]);
  const Money to_parts = donor.basis - shares.back();
  ledger_.post({.account = AccountKind::parts, .amount = to_parts});
  ledger_.post(
      {.account = donor.stands, .amount = -to_parts, .machine = donor.place, .line = LineKind::donor_share});
  donor.basis = shares.back();
  return std::nullopt;
}

}  // namespace secondpull::bookkeeping
