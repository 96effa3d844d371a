#pragma once

#include <algorithm>
#include <cstdint>
#include <limits>
#include <vector>

#include "core/shop/table.h"

namespace secondpull {

/// Finds the place of an id. Ids handed out in one go are consecutive and found at once, others by halving.
template <class Record>
class Positions {
 public:
  using Id = typename Table<Record>::Id;
  static constexpr auto nowhere = std::numeric_limits<std::uint32_t>::max();

  explicit Positions(const Table<Record>& table) {
    ids_.reserve(table.size());
    for (const Record& record : table)
      ids_.push_back(number(record.id));
  }
  std::size_t size() const { return ids_.size(); }
  /// `nowhere` for an id that the table does not hold.
  std::uint32_t of(Id id) const {
    if (ids_.empty() || number(id) < ids_.front() || number(id) > ids_.back()) return nowhere;
    const auto guess = static_cast<std::uint64_t>(number(id)) - static_cast<std::uint64_t>(ids_.front());
    if (guess < ids_.size() && ids_[guess] == number(id)) return static_cast<std::uint32_t>(guess);
    const auto at = std::lower_bound(ids_.begin(), ids_.end(), number(id));
    return *at == number(id) ? static_cast<std::uint32_t>(at - ids_.begin()) : nowhere;
  }

 private:
  std::vector<std::int64_t> ids_;
};

}  // namespace secondpull
