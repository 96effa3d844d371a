#include "db/migrations.h"

#include <array>
#include <string>

#include <fmt/format.h>

#include "db/connection.h"
#include "db/failure.h"
#include "db/schema/schema_text.h"

namespace secondpull::db {

namespace {

/// Rebuilding a table needs foreign keys out of the way, and that can only be said outside a transaction.
class ForeignKeysOff {
 public:
  explicit ForeignKeysOff(SQLite::Database& database) : database_{database} {
    database_.exec("PRAGMA foreign_keys = OFF");
  }
  ForeignKeysOff(const ForeignKeysOff&) = delete;
  ForeignKeysOff& operator=(const ForeignKeysOff&) = delete;
  ~ForeignKeysOff() { database_.tryExec("PRAGMA foreign_keys = ON"); }

 private:
  SQLite::Database& database_;
};

void run(SQLite::Database& database, const Migration& migration) {
  WriteScope write{database};
  database.exec(std::string{migration.sql});
  if (!migration.keeps_history) database.exec("UPDATE history SET changeset = NULL, changes = 0");
  SQLite::Statement broken{database, "PRAGMA foreign_key_check"};
  if (broken.executeStep())
    throw Failure{
        {fmt::format("Bringing the shop file to version {} would leave a record of {} that points at "
                     "nothing. Nothing was changed.",
                     migration.version, broken.getColumn(0).getString()),
         "", ""}};
  broken.reset();
  database.exec(fmt::format("PRAGMA user_version = {}", migration.version));
  write.commit();
}

}  // namespace

std::span<const Migration> schema_migrations() {
  static constexpr std::array all{Migration{.version = 1, .sql = schema::first, .keeps_history = true},
                                  Migration{.version = 2, .sql = schema::closed_years, .keeps_history = true},
                                  Migration{.version = 3, .sql = schema::bench, .keeps_history = true},
                                  Migration{.version = 4, .sql = schema::sale, .keeps_history = true}};
  return all;
}

int newest_version(std::span<const Migration> migrations) {
  return migrations.empty() ? 0 : migrations.back().version;
}

int version_of(SQLite::Database& database) {
  return database.execAndGet("PRAGMA user_version").getInt();
}

void migrate(SQLite::Database& database, std::span<const Migration> migrations) {
  const ForeignKeysOff off{database};
  for (const Migration& migration : migrations)
    if (migration.version > version_of(database)) run(database, migration);
}

}  // namespace secondpull::db
