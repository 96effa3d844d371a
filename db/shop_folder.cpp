#include "db/shop_folder.h"

#include <algorithm>
#include <cerrno>
#include <cstddef>
#include <fcntl.h>
#include <memory>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <sqlite3.h>

#include "db/connection.h"
#include "db/desk.h"
#include "db/failure.h"
#include "db/files.h"
#include "db/instant.h"

namespace secondpull::db {

namespace fs = std::filesystem;

namespace {

constexpr const char* unfinished = "shop.sqlite.making";

fs::path wal_of(const fs::path& file) {
  return file.string() + "-wal";
}

/// Copies a database file through SQLite's own file layer: closing a descriptor of another's making would
/// drop the locks that this process holds on the same file.
void copy_through_sqlite(const fs::path& from, const fs::path& to) {
  sqlite3_vfs* vfs = sqlite3_vfs_find(nullptr);
  const std::string text = from.string();
  const auto free_name = [](const char* name) { sqlite3_free_filename(name); };
  const std::unique_ptr<const char, decltype(free_name)> name{
      sqlite3_create_filename(text.c_str(), "", "", 0, nullptr), free_name};
  std::vector<std::max_align_t> memory(static_cast<std::size_t>(vfs->szOsFile) / sizeof(std::max_align_t) +
                                       1);
  auto* file = reinterpret_cast<sqlite3_file*>(memory.data());
  int opened_as = 0;
  if (vfs->xOpen(vfs, name.get(), file, SQLITE_OPEN_READONLY | SQLITE_OPEN_MAIN_DB, &opened_as) != SQLITE_OK)
    throw fs::filesystem_error("open", from, std::error_code(errno, std::generic_category()));
  sqlite3_int64 size = 0;
  int code = file->pMethods->xFileSize(file, &size);
  std::vector<std::byte> content(static_cast<std::size_t>(size));
  constexpr sqlite3_int64 piece = 1 << 24;
  for (sqlite3_int64 at = 0; code == SQLITE_OK && at < size; at += piece)
    code = file->pMethods->xRead(file, content.data() + at, static_cast<int>(std::min(piece, size - at)), at);
  file->pMethods->xClose(file);
  if (code != SQLITE_OK) throw fs::filesystem_error("read", from, std::make_error_code(std::errc::io_error));
  write_whole(to, content);
}

/// A path as an SQLite URI for a file that is not to be written to, locked, or given companions.
std::string untouchable(const fs::path& file) {
  std::string uri = "file:";
  for (const char c : fs::absolute(file).string())
    uri += c == '?' || c == '#' || c == '%' ? fmt::format("%{:02X}", static_cast<unsigned char>(c))
                                            : std::string{c};
  return uri + "?immutable=1";
}

void judge_open_file(SQLite::Database& database, const fs::path& file,
                     std::span<const Migration> migrations) {
  const std::string name = file.string();
  if (database.execAndGet("PRAGMA application_id").getInt() != application_id)
    throw Failure{{fmt::format("{} is not a Second Pull shop. It was left as it is.", name), "", name}};
  if (const int version = version_of(database); version > newest_version(migrations))
    throw Failure{
        {fmt::format("The shop {} was written by a newer Second Pull (version {} of the file; this program "
                     "knows up to {}). Open it with that one. It was left as it is.",
                     name, version, newest_version(migrations)),
         "", name}};
  if (const std::string found = database.execAndGet("PRAGMA quick_check(1)").getString(); found != "ok")
    throw Failure{{fmt::format("The shop {} is damaged ({}). It was left as it is: restore the newest copy "
                               "from the folder's backups.",
                               name, found),
                   "", name}};
}

}  // namespace

void judge_shop_file(const fs::path& file, std::span<const Migration> migrations) {
  if (!fs::is_regular_file(file))
    throw Failure{{fmt::format("There is no shop in {}.", file.parent_path().string()), "", file.string()}};
  try {
    const bool has_log = fs::exists(wal_of(file)) && fs::file_size(wal_of(file)) > 0;
    if (!has_log) {
      SQLite::Database database{untouchable(file), SQLite::OPEN_READONLY | SQLite::OPEN_URI};
      judge_open_file(database, file, migrations);
    } else {
      const ScratchFolder scratch;
      const fs::path copy = scratch.path() / "copy.sqlite";
      copy_through_sqlite(file, copy);
      write_whole(wal_of(copy), read_whole(wal_of(file)));
      SQLite::Database database{copy, SQLite::OPEN_READWRITE};
      judge_open_file(database, file, migrations);
    }
  } catch (const SQLite::Exception& error) {
    constexpr int primary_code = 0xff;
    const int code = error.getErrorCode() & primary_code;
    if (code == SQLITE_NOTADB)
      throw Failure{{fmt::format("{} is not a Second Pull shop. It was left as it is.", file.string()), "",
                     file.string()}};
    if (code == SQLITE_CORRUPT)
      throw Failure{
          {fmt::format("The shop {} is damaged. It was left as it is: restore the newest copy from the "
                       "folder's backups.",
                       file.string()),
           "", file.string()}};
    throw;
  }
}

bool can_hold_new_shop(const fs::path& folder) {
  if (!fs::exists(folder)) return true;
  if (!fs::is_directory(folder)) return false;
  for (const auto& entry : fs::directory_iterator{folder}) {
    const std::string name = entry.path().filename().string();
    if (name != "shop.lock" && !name.starts_with(unfinished)) return false;
  }
  return true;
}

void make_shop_file(const fs::path& folder, const Settings& settings, std::span<const Migration> migrations) {
  const fs::path making = folder / unfinished;
  fs::remove(making);
  fs::remove(making.string() + "-journal");
  make_private_file(making);
  {
    // In a rollback journal first, so that the file says what it is from its first byte; the log comes when
    // the shop is opened.
    SQLite::Database database = open_file(making, OpenAs::writer);
    database.exec(fmt::format("PRAGMA application_id = {}", application_id));
    migrate(database, migrations);
    WriteScope write{database};
    Desk desk{database};
    desk.set_settings(settings);
    desk.set_state({});
    write.commit();
  }
  put_in_place(making, shop_file(folder));
}

}  // namespace secondpull::db
