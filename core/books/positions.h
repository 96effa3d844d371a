#pragma once

#include <algorithm>
#include <cstdint>
#include <limits>
#include <vector>

#include "core/shop/positions.h"
#include "core/shop/table.h"

namespace secondpull::bookkeeping {

/// The place of a record in its table. The books count in places, so that what they keep for each machine is
/// a plain array.
using Position = std::uint32_t;
inline constexpr Position nowhere = std::numeric_limits<Position>::max();
using secondpull::Positions;

/// The rows of a table in the order in which they were entered.
template <class Record>
std::vector<const Record*> in_order_of_entry(const Table<Record>& table) {
  std::vector<const Record*> rows;
  rows.reserve(table.size());
  for (const Record& record : table)
    rows.push_back(&record);
  const auto earlier = [](const Record* a, const Record* b) { return a->entered < b->entered; };
  if (!std::is_sorted(rows.begin(), rows.end(), earlier)) std::stable_sort(rows.begin(), rows.end(), earlier);
  return rows;
}

}  // namespace secondpull::bookkeeping
