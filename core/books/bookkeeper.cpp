#include "core/books/bookkeeper.h"

namespace secondpull::bookkeeping {

Bookkeeper::Bookkeeper(const Shop& shop, const MileageRates& rates, Lots lots, Stock stock,
                       const LinesByPlace& lines)
    : shop_{&shop},
      rates_{&rates},
      lines_{&lines},
      lots_{std::move(lots)},
      stock_{std::move(stock)},
      places_{shop.all<Machine>()},
      machines_(shop.all<Machine>().size()) {
  for (std::size_t i = 0; i < machines_.size(); ++i) {
    machines_[i].place = static_cast<Position>(i);
    machines_[i].came_in = lines[i]->acquisition->date;
  }
}

Result<MachineAccount*> Bookkeeper::account(MachineId id) {
  const Position place = places_.of(id);
  if (place == nowhere)
    return problem("A line names a machine that is not there.", "machine", std::to_string(number(id)));
  return &machines_[place];
}

}  // namespace secondpull::bookkeeping
