#pragma once

#include <filesystem>

#include <SQLiteCpp/SQLiteCpp.h>

namespace secondpull::db {

/// First four bytes of what `file(1)` would know a shop by; SQLite keeps it in the file's header.
inline constexpr std::int32_t application_id = 0x32506c6c;  // "2Pll"

enum class OpenAs { writer, reader };

/// Opens an existing SQLite file of ours the way every connection to one is: foreign keys held, the schema
/// trusted with nothing, a commit on the disk before it returns. @throws SQLite::Exception
SQLite::Database open_file(const std::filesystem::path& file, OpenAs as);

/// A write in progress. It rolls back when it leaves scope unless commit() succeeded. Foreign keys are
/// checked at the commit, so that rows may be written in any order.
class WriteScope {
 public:
  explicit WriteScope(SQLite::Database& database);  ///< BEGIN IMMEDIATE
  void commit() { transaction_.commit(); }          ///< on failure everything is rolled back

 private:
  SQLite::Transaction transaction_;
};

}  // namespace secondpull::db
