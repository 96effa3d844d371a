#pragma once

#include <string>

#include "core/result.h"
#include "core/shop/bench.h"
#include "core/shop/change.h"

namespace secondpull {

// Money and parts that move beside the buying and selling of machines. Each is one change; the fields that
// problems name are those of the exchange folder.

/// Sales tax handed on to a place. Refused: an amount of 0 or less ("amount").
Result<Change> pay_tax(const Shop& shop, const TaxPaid& paid);

/// Money given back on a machine that stays sold. Refused: nothing given back ("amount"), a machine that is
/// not sold at the end of that day ("date").
Result<Change> give_allowance(const Shop& shop, const Allowance& allowance);

struct NewPartSale {
  Date date{};
  PartId part{};
  std::int64_t quantity = 1;
  Money price;  ///< of all of them
  PersonChoice buyer;
  Money sales_tax, fee;
  std::string place;
};
/// Sells pieces by themselves, first in, first out. Refused as fit_part refuses.
Result<Change> sell_part(const Shop& shop, const NewPartSale& sale);

/// Pieces that turned up: they come in as an order without a supplier that arrived on that day, at no cost
/// or at what they cost each.
Result<Change> take_in_found(const Shop& shop, Date date, const PartChoice& part, std::int64_t quantity,
                             Money cost_each);

}  // namespace secondpull
