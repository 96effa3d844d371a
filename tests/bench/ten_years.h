#pragma once

#include <cstddef>

#include "core/shop/shop.h"

namespace secondpull::bench {

/// A shop in US dollars that traded from 2016 to 2025, with ten lines to a machine: acquisition, labour, a
/// part from an order, materials, findings, trips, listing, sale, some returned, some scrapped, a tenth still
/// here; and expenses in every year. The same every time.
///
/// It is made so that a plain SQL statement comes to the same figures: each machine came by itself, each part
/// in one order whose cost divides by its pieces, and the overheads of a year by its minutes.
Shop ten_years(std::size_t machines);

}  // namespace secondpull::bench
