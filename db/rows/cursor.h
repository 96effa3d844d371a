#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

namespace secondpull::db {

/// Goes over the rows of a query that takes no parameters. A shop of a million lines has ten million values,
/// and SQLiteCpp's columns each take part in owning their statement; this reads them in place.
class Cursor {
 public:
  Cursor(SQLite::Database& database, const std::string& query) : database_{database} {
    sqlite3_stmt* made = nullptr;
    check(sqlite3_prepare_v2(database.getHandle(), query.c_str(), -1, &made, nullptr), SQLITE_OK);
    statement_.reset(made);
  }
  /// Goes to the next row; false after the last. @throws SQLite::Exception
  bool next() {
    const int code = sqlite3_step(statement_.get());
    if (code != SQLITE_DONE) check(code, SQLITE_ROW);
    return code == SQLITE_ROW;
  }

  friend bool is_null_in(const Cursor& row, int column) {
    return sqlite3_column_type(row.statement_.get(), column) == SQLITE_NULL;
  }
  friend std::int64_t number_in(const Cursor& row, int column) {
    return sqlite3_column_int64(row.statement_.get(), column);
  }
  friend double real_in(const Cursor& row, int column) {
    return sqlite3_column_double(row.statement_.get(), column);
  }
  /// Good until the next row.
  friend std::string_view text_in(const Cursor& row, int column) {
    const void* const bytes = sqlite3_column_blob(row.statement_.get(), column);
    const auto size = static_cast<std::size_t>(sqlite3_column_bytes(row.statement_.get(), column));
    return bytes == nullptr ? std::string_view{} : std::string_view{static_cast<const char*>(bytes), size};
  }

 private:
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
  };
  void check(int code, int wanted) const {
    if (code != wanted) throw SQLite::Exception{database_.getHandle(), code};
  }

  SQLite::Database& database_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

}  // namespace secondpull::db
