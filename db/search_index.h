#pragma once

#include <filesystem>
#include <optional>
#include <string_view>
#include <vector>

#include <SQLiteCpp/SQLiteCpp.h>

#include "core/shop/shop.h"
#include "db/search_text.h"
#include "db/store.h"

namespace secondpull::db {

/// Records whose text holds all of the words, in the order that Store::search promises, found without an
/// index.
std::vector<Hit> search_records(const Shop& shop, const Query& query, std::size_t limit);

/// The full-text index beside a shop. It is derived: a stamp says which state of the shop it was made from,
/// and where that is not the present one, or the file is missing or damaged, it is made anew at the next
/// search. Nothing here keeps an action from being done: what fails shows in the stamp.
class SearchIndex {
 public:
  explicit SearchIndex(std::filesystem::path file) : file_{std::move(file)} {}

  /// Takes in the changed records, if the index is that of `stamp_before` and they are not too many.
  void update(const Shop& shop, const std::vector<AnyId>& changed, std::int64_t stamp_before,
              std::int64_t stamp);

  /// What search_records() finds, in a time that hardly grows with the shop where a word has three letters.
  std::vector<Hit> find(const Shop& shop, std::int64_t stamp, const Query& query, std::size_t limit);

 private:
  SQLite::Database& opened();
  std::optional<std::int64_t> stamp();
  void set_stamp(std::int64_t stamp);
  void rebuild(const Shop& shop, std::int64_t stamp);
  std::vector<Hit> look_up(const Shop& shop, const Query& query, std::size_t limit);

  std::filesystem::path file_;
  std::optional<SQLite::Database> database_;
};

}  // namespace secondpull::db
