#pragma once

#include <span>
#include <string_view>

#include <SQLiteCpp/SQLiteCpp.h>

namespace secondpull::db {

/// One file of db/schema: takes a shop file from the version before to `version`.
struct Migration {
  int version;
  std::string_view sql;
  /// True where it only adds tables, or adds or renames columns: changesets recorded before still apply.
  /// Otherwise nothing done before it can be undone after it.
  bool keeps_history;
};

/// The files of db/schema in order, versions 1, 2, 3...
std::span<const Migration> schema_migrations();

/// The version that the last of them leads to.
int newest_version(std::span<const Migration> migrations);

int version_of(SQLite::Database& database);

/// Runs each migration above the file's version in a transaction of its own: with it comes the new
/// user_version or nothing. The connection is the only writer. @throws Failure  a migration left a reference
/// to nothing; SQLite::Exception
void migrate(SQLite::Database& database, std::span<const Migration> migrations);

}  // namespace secondpull::db
