#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/result.h"
#include "core/shop/bench.h"
#include "core/shop/change.h"

namespace secondpull {

struct NewOrderLine {
  PartChoice part;
  std::int64_t quantity = 1;
  Money price;  ///< each
  std::optional<MachineId> for_machine;
};
struct NewOrder {
  Date date{};
  PersonChoice supplier;
  std::optional<Date> arrived;  ///< bought over the counter: the same day
  Money freight;
  Money tax;
  bool opening = false;
  std::vector<NewOrderLine> lines;
};
Result<Change> place_order(const Shop& shop, const NewOrder& order);
/// The order arrived on that day: its parts are in stock. Freight and tax as on the bill, if they were not
/// known before.
Result<Change> receive_order(const Shop& shop, OrderId order, Date arrived, std::optional<Money> freight,
                             std::optional<Money> tax);
Result<Change> edit_part(const Shop& shop, const Part& part);

struct HarvestLine {
  PartChoice part;
  std::int64_t quantity = 1;
  Money value;  ///< of the line
};
/// Parts out a donor: a disposal of the kind `parted out` and its harvested lines, one action.
Result<Change> part_out(const Shop& shop, MachineId donor, Date date, const std::vector<HarvestLine>& lines,
                        std::optional<Money> hulk_value, Money scrap_money, std::optional<Date> hulk_gone,
                        bool hulk_here);

/// Money spent that is a cost of the shop.
Result<Change> add_expense(const Shop& shop, Date date, const std::string& category, Money amount,
                           const std::string& note);
Result<Change> add_trip(const Shop& shop, const Trip& trip);

}  // namespace secondpull
