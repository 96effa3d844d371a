#include "db/failure.h"

#include <fmt/format.h>
#include <sqlite3.h>

namespace secondpull::db {

namespace fs = std::filesystem;

Problem problem_of(const SQLite::Exception& error, const fs::path& file) {
  const std::string name = file.string();
  constexpr int primary_code = 0xff;  // of an extended result code
  switch (error.getErrorCode() & primary_code) {
    case SQLITE_FULL:
      return {fmt::format("The disk is full, so nothing was changed in {}. Make room and try again.", name),
              "", name};
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return {fmt::format("The file {} is damaged. Restore the newest copy from the folder's backups.", name),
              "", name};
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {fmt::format("Another program is writing to {}. Close it and try again.", name), "", name};
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_CANTOPEN:
      return {
          fmt::format("The file {} cannot be opened as needed. Look at who owns it and its folder.", name),
          "", name};
    case SQLITE_IOERR:
      return {
          fmt::format("The disk did not do what was asked for {}, so nothing was changed. See whether it is "
                      "full or failing, then try again.",
                      name),
          "", name};
    default:
      return {fmt::format("The shop file {} refused this, so nothing was changed: {}.", name, error.what()),
              "", name};
  }
}

Problem problem_of(const fs::filesystem_error& error) {
  const std::string name = error.path1().string();
  return {fmt::format("{}: {}.", name, error.code().message()), "", name};
}

}  // namespace secondpull::db
