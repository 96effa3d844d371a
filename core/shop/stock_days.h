#pragma once

#include <optional>
#include <vector>

#include "core/shop/shop.h"

namespace secondpull {

/// A part fitted, written off or sold of which there were not so many in stock on that day.
struct Shortage {
  AnyId use;  ///< a Fitted or a PartSale
  PartId part{};
  Date date{};
  std::int64_t wanted = 0;
  std::int64_t in_stock = 0;  ///< of the receipt pointed at, if one was
};

/// The uses that the stock of their day cannot serve, of one part or of all. On a day what comes in is first
/// (order lines on the day their order arrived, harvested ones on their own), then parts fitted, then sold,
/// each in the order entered. Uses without a receipt pointed at take from the oldest one: by day, on one day
/// order lines before harvested ones, each in the order entered. A use that cannot be served takes nothing.
std::vector<Shortage> shortages(const Shop& shop, std::optional<PartId> only = std::nullopt);

/// Pieces in stock at the end of a day, all receipts together.
std::int64_t in_stock_on(const Shop& shop, PartId part, Date day);

}  // namespace secondpull
