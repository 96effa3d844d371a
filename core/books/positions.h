#pragma once

#include <algorithm>
#include <cstdint>
#include <limits>
#include <vector>

#include "core/shop/table.h"

namespace secondpull::bookkeeping {

/// The place of a record in its table. The books count in places, so that what they keep for each machine is
/// a plain array.
using Position = std::uint32_t;
inline constexpr Position nowhere = std::numeric_limits<Position>::max();

/// Finds the place of an id. Ids handed out in one go are consecutive and found at once, others by halving.
template <class Record>
class Positions {
 public:
  using Id = typename Table<Record>::Id;

  explicit Positions(const Table<Record>& table) {
    ids_.reserve(table.size());
    for (const Record& record : table)
      ids_.push_back(number(record.id));
  }
  std::size_t size() const { return ids_.size(); }
  /// `nowhere` for an id that the table does not hold.
  Position of(Id id) const {
    if (ids_.empty() || number(id) < ids_.front() || number(id) > ids_.back()) return nowhere;
    const auto guess = static_cast<std::uint64_t>(number(id)) - static_cast<std::uint64_t>(ids_.front());
    if (guess < ids_.size() && ids_[guess] == number(id)) return static_cast<Position>(guess);
    const auto at = std::lower_bound(ids_.begin(), ids_.end(), number(id));
    return *at == number(id) ? static_cast<Position>(at - ids_.begin()) : nowhere;
  }

 private:
  std::vector<std::int64_t> ids_;
};

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
