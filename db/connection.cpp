#include "db/connection.h"

#include <sqlite3.h>

namespace secondpull::db {

namespace {
constexpr int busy_wait_ms = 5000;
}

SQLite::Database open_file(const std::filesystem::path& file, OpenAs as) {
  // A reader is in the hands of one thread, so SQLite need not take a lock for every value it reads out.
  const int flags =
      as == OpenAs::writer ? SQLite::OPEN_READWRITE : SQLite::OPEN_READONLY | SQLite::OPEN_NOMUTEX;
  SQLite::Database database{file, flags, busy_wait_ms};
  sqlite3_extended_result_codes(database.getHandle(), 1);
  database.exec("PRAGMA trusted_schema = OFF; PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL;");
  return database;
}

WriteScope::WriteScope(SQLite::Database& database)
    : transaction_{database, SQLite::TransactionBehavior::IMMEDIATE} {
  database.exec("PRAGMA defer_foreign_keys = ON");
}

}  // namespace secondpull::db
