#pragma once

#include <optional>

#include "core/shop/shop.h"

namespace secondpull::learning {

/// What the parts of a repair cost, in whole units of the currency, and how many days until they are there.
struct Supply {
  double cost = 0;
  double days = 0;
  friend bool operator==(const Supply&, const Supply&) = default;
};

/// What the record says that a piece of a part is worth.
struct PartPrices {
  std::optional<double>
      replaced;  ///< as the last order that had it: its price and its share of freight and tax
  std::optional<double> fetched;  ///< the mean of what was paid for a piece, less fees
};
PartPrices own_prices(const Shop& shop, PartId part);

/// Parts on hand: pieces of a part that the shop keeps in stock (it has a reorder level) cost what replacing
/// them will cost, those of any other what they would fetch, since that is what using them up gives away; the
/// other of the two where the record does not say. No days. Nothing if it says neither, or there is no such
/// part.
std::optional<Supply> from_shelf(const Shop& shop, PartId part, std::int64_t quantity);

/// Days from order to arrival, the mean over that supplier's orders (over all orders if it has none that
/// arrived). Nothing if none arrived. Parts bought over the counter count with their 0 days.
std::optional<double> days_to_arrive(const Shop& shop, std::optional<PersonId> supplier);

}  // namespace secondpull::learning
