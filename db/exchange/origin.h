#pragma once

#include <algorithm>
#include <string>
#include <string_view>

#include "db/exchange/cells.h"

namespace secondpull::db {

// Where a part that was used came from is one cell, `from`: an order or else a donor. An order and a donor
// may have the same identifier; then it is the one that has the part.

inline bool has_part(const Shop& shop, OrderId order, PartId part) {
  const auto& lines = shop.all<OrderLine>();
  return std::any_of(lines.begin(), lines.end(),
                     [&](const OrderLine& line) { return line.order == order && line.part == part; });
}
inline bool has_part(const Shop& shop, MachineId donor, PartId part) {
  const auto& lines = shop.all<Harvest>();
  return std::any_of(lines.begin(), lines.end(),
                     [&](const Harvest& line) { return line.donor == donor && line.part == part; });
}

/// For records with `part`, `from_order` and `from_donor`. The part must have been read before.
template <class Use>
Result<void> read_origin(std::string_view cell, std::string_view column, const ReadContext& context,
                         Use& use) {
  const auto name = CellOf<std::string>::read(cell, column, context);
  if (!name) return tl::unexpected{name.error()};
  const auto order = context.names->find<OrderId>(*name);
  const auto donor = context.names->find<MachineId>(*name);
  const bool from_donor =
      donor &&
      (!order || (!has_part(*context.shop, *order, use.part) && has_part(*context.shop, *donor, use.part)));
  if (from_donor)
    use.from_donor = donor;
  else if (order)
    use.from_order = order;
  else if (context.names->complete<OrderId>() && context.names->complete<MachineId>())
    return problem(
        fmt::format("There is no order \"{}\" in orders.csv, nor a machine in machines.csv.", *name),
        std::string{column}, std::string{cell});
  return {};
}

template <class Use>
void write_origin(const Use& use, const Shop& shop, std::string& out) {
  if (use.from_order)
    CellOf<OrderId>::write(*use.from_order, shop, out);
  else if (use.from_donor)
    CellOf<MachineId>::write(*use.from_donor, shop, out);
}

}  // namespace secondpull::db
