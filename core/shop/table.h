#pragma once

#include <algorithm>
#include <cstddef>
#include <memory>
#include <utility>
#include <vector>

#include "core/shop/ids.h"

namespace secondpull {

/// The records of one kind in order of id. Copies share their rows until one of them is changed, so that
/// keeping the shop as it was before an action costs a pointer a table; a table that nobody changes any more
/// may be read from any thread.
template <class Record>
class Table {
 public:
  using Id = decltype(Record::id);
  using const_iterator = typename std::vector<Record>::const_iterator;

  const_iterator begin() const { return rows_->begin(); }
  const_iterator end() const { return rows_->end(); }
  std::size_t size() const { return rows_->size(); }
  bool empty() const { return rows_->empty(); }

  /// The record of that id, or nullptr. Valid until this table is changed.
  const Record* find(Id id) const {
    const auto at = position(*rows_, id);
    return at != rows_->end() && at->id == id ? &*at : nullptr;
  }
  /// Adds a record; false (and nothing changed) if its id is taken.
  bool insert(Record record) {
    std::vector<Record>& rows = own();
    const auto at = position(rows, record.id);
    if (at != rows.end() && at->id == record.id) return false;
    rows.insert(at, std::move(record));
    return true;
  }
  /// Puts a record in the place of the one with its id; false if there is none.
  bool replace(Record record) {
    if (find(record.id) == nullptr) return false;
    std::vector<Record>& rows = own();
    *position(rows, record.id) = std::move(record);
    return true;
  }
  bool erase(Id id) {
    if (find(id) == nullptr) return false;
    std::vector<Record>& rows = own();
    rows.erase(position(rows, id));
    return true;
  }
  void assign(std::vector<Record> rows) {
    const auto before = [](const Record& a, const Record& b) { return a.id < b.id; };
    // Rows out of a file come in order, and sorting them again would move every one about.
    if (!std::is_sorted(rows.begin(), rows.end(), before)) std::sort(rows.begin(), rows.end(), before);
    rows_ = std::make_shared<std::vector<Record>>(std::move(rows));
  }
  friend bool operator==(const Table& a, const Table& b) {
    return a.rows_ == b.rows_ || *a.rows_ == *b.rows_;
  }

 private:
  template <class Rows>
  static auto position(Rows& rows, Id id) {
    return std::lower_bound(rows.begin(), rows.end(), id,
                            [](const Record& row, Id key) { return row.id < key; });
  }
  std::vector<Record>& own() {
    if (rows_.use_count() != 1) rows_ = std::make_shared<std::vector<Record>>(*rows_);
    return *rows_;
  }
  std::shared_ptr<std::vector<Record>> rows_ = std::make_shared<std::vector<Record>>();
};

}  // namespace secondpull
