#include "db/backups.h"

#include <algorithm>
#include <limits>
#include <map>
#include <optional>
#include <string_view>

#include <SQLiteCpp/Backup.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include "db/connection.h"
#include "db/failure.h"
#include "db/files.h"
#include "db/history.h"

namespace secondpull::db {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view prefix = "shop-";
constexpr std::string_view suffix = ".sqlite";
constexpr std::size_t iso_length = 10;

std::string name_of(Instant at) {
  return fmt::format("{}{}{}", prefix, file_stamp(at), suffix);
}

/// The day in a copy's name, or nothing for a file of another kind.
std::optional<Date> day_of(std::string_view name) {
  if (!name.starts_with(prefix) || !name.ends_with(suffix)) return std::nullopt;
  const auto date = parse_date(name.substr(prefix.size(), iso_length), "");
  return date ? std::optional{*date} : std::nullopt;
}

/// Counts groups from the newest on; says of each member whether it is the newest of a group that stays.
class NewestOf {
 public:
  explicit NewestOf(std::size_t groups) : left_{groups} {}
  bool keeps(std::int64_t group) {
    if (last_ == group || left_ == 0) return false;
    last_ = group;
    --left_;
    return true;
  }

 private:
  std::size_t left_;
  std::int64_t last_ = std::numeric_limits<std::int64_t>::min();  // the number of no group
};

}  // namespace

void copy_database(SQLite::Database& from, const fs::path& to) {
  const fs::path part = to.string() + ".part";
  fs::remove(part);
  make_private_file(part);
  try {
    {
      SQLite::Database copy = open_file(part, OpenAs::writer);
      SQLite::Backup backup{copy, from};
      if (const int code = backup.executeStep(); code != SQLITE_DONE)
        throw SQLite::Exception("another program kept the shop busy", code);
    }
    {
      SQLite::Database copy = open_file(part, OpenAs::writer);
      copy.exec("PRAGMA journal_mode = DELETE");
      const std::string found = copy.execAndGet("PRAGMA integrity_check(1)").getString();
      if (found != "ok")
        throw Failure{{fmt::format("The copy {} is not sound ({}), so it was not kept.", to.string(), found),
                       "", to.string()}};
    }
    sync_to_disk(part);
    put_in_place(part, to);
  } catch (...) {
    std::error_code ignored;  // the first error is the one to tell
    for (const char* companion : {"", "-wal", "-shm", "-journal"})
      fs::remove(part.string() + companion, ignored);
    throw;
  }
}

fs::path Backups::make(SQLite::Database& shop, Instant now) const {
  make_private_folder(folder_);
  while (fs::exists(folder_ / name_of(now)))
    now += std::chrono::seconds{1};  // two in one second: the names stay in order
  const fs::path file = folder_ / name_of(now);
  copy_database(shop, file);
  return file;
}

bool Backups::has_one_of(Date day) const {
  return std::ranges::any_of(names(), [&](const std::string& name) { return day_of(name) == day; });
}

std::vector<std::string> Backups::names() const {
  std::vector<std::string> found;
  if (!fs::exists(folder_)) return found;
  for (const auto& entry : fs::directory_iterator{folder_}) {
    std::string name = entry.path().filename().string();
    if (day_of(name)) found.push_back(std::move(name));
  }
  std::ranges::sort(found);
  return found;
}

std::vector<std::string> to_thin(const std::vector<std::string>& names, Date today) {
  constexpr std::size_t days = 10, weeks = 8, months = 12;
  NewestOf by_day{days}, by_week{weeks}, by_month{months};
  std::vector<std::string> gone;
  for (auto name = names.rbegin(); name != names.rend(); ++name) {
    const Date day = day_of(*name).value();
    const std::chrono::sys_days since_epoch{day};
    constexpr int days_a_week = 7, months_a_year = 12;
    const std::chrono::weekday weekday{since_epoch};
    const auto monday = since_epoch - (weekday - std::chrono::Monday);
    const bool of_day = by_day.keeps(since_epoch.time_since_epoch().count());
    const bool of_week = by_week.keeps(monday.time_since_epoch().count() / days_a_week);
    const bool of_month = by_month.keeps(static_cast<int>(day.year()) * months_a_year +
                                         static_cast<int>(static_cast<unsigned>(day.month())));
    if (!of_day && !of_week && !of_month && day != today) gone.push_back(*name);
  }
  return gone;
}

void Backups::thin(Instant now, const std::set<std::string>& keep) const {
  for (const std::string& name : to_thin(names(), utc_day(now)))
    if (!keep.contains(name)) fs::remove(folder_ / name);
}

std::vector<std::string> Backups::photos() const {
  std::vector<std::string> found;
  for (const std::string& name : names()) {
    SQLite::Database copy = open_file(folder_ / name, OpenAs::reader);
    SQLite::Statement rows{copy, "SELECT sha256 FROM photos"};
    while (rows.executeStep())
      found.push_back(rows.getColumn(0).getString());
    const auto of_history = History{copy}.photos();
    found.insert(found.end(), of_history.begin(), of_history.end());
  }
  return found;
}

}  // namespace secondpull::db
