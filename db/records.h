#pragma once

#include <memory>
#include <string>
#include <vector>

#include <SQLiteCpp/SQLiteCpp.h>

#include "core/shop/change.h"
#include "core/shop/shop.h"

namespace secondpull::db {

/// The recorded tables of an open shop file: rows in, records out. Its statements are prepared once. The
/// connection must outlive it.
class Records {
 public:
  explicit Records(SQLite::Database& database);
  Records(Records&&) noexcept;
  Records& operator=(Records&&) noexcept;
  ~Records();

  /// Puts every row into the shop's tables (its settings and counter are left as they are).
  void load(Shop& shop);
  /// Writes one edit. @throws SQLite::Exception; Failure  the row to replace or remove is not there
  void write(const Edit& edit);
  /// Brings the shop's tables up to date with the rows of those ids, in one pass over each table concerned.
  void refresh(Shop& shop, const std::vector<AnyId>& changed);
  /// Every recorded table in key order as text.
  std::string dump();

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

/// Names of the recorded tables, in the order of Shop's.
std::vector<std::string> recorded_tables();

}  // namespace secondpull::db
