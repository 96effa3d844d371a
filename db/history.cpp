#include "db/history.h"

namespace secondpull::db {

namespace {

std::optional<StoredEntry> one_entry(SQLite::Statement statement) {
  if (!statement.executeStep()) return std::nullopt;
  StoredEntry entry;
  entry.id = statement.getColumn(0).getInt64();
  entry.title = statement.getColumn(1).getString();
  if (const SQLite::Column blob = statement.getColumn(2); !blob.isNull()) {
    const auto* bytes = static_cast<const std::byte*>(blob.getBlob());
    entry.changeset.emplace(bytes, bytes + blob.getBytes());
  }
  entry.backup = statement.getColumn(3).getString();
  return entry;
}

}  // namespace

void History::add(const NewEntry& entry) {
  database_.exec("DELETE FROM history WHERE undone = 1");
  SQLite::Statement insert{
      database_,
      "INSERT INTO history (at, title, sitting, user_version, undone, changes, changeset, backup)"
      " SELECT ?1, ?2, ?3, user_version, 0, ?4, ?5, ?6 FROM pragma_user_version"};
  insert.bind(1, to_column(entry.at));
  insert.bindNoCopy(2, entry.title);
  insert.bind(3, entry.sitting);
  insert.bind(4, entry.changes);
  if (entry.changeset)
    insert.bindNoCopy(5, entry.changeset->data(), static_cast<int>(entry.changeset->size()));
  insert.bindNoCopy(6, entry.backup);
  insert.exec();

  SQLite::Statement beyond_count{
      database_,
      "DELETE FROM history WHERE id < (SELECT id FROM history ORDER BY id DESC LIMIT 1 OFFSET ?1)"};
  beyond_count.bind(1, most_entries - 1);
  beyond_count.exec();
  // From the oldest on, never one out of the middle: what stays can be undone in turn.
  SQLite::Statement too_old{database_,
                            "DELETE FROM history WHERE id < (SELECT min(id) FROM history WHERE at >= ?1)"};
  too_old.bind(1, to_column(entry.at - longest));
  too_old.exec();
}

std::optional<StoredEntry> History::last_done() const {
  return one_entry(
      {database_,
       "SELECT id, title, changeset, backup FROM history WHERE undone = 0 ORDER BY id DESC LIMIT 1"});
}

std::optional<StoredEntry> History::first_undone() const {
  return one_entry(
      {database_, "SELECT id, title, changeset, backup FROM history WHERE undone = 1 ORDER BY id LIMIT 1"});
}

void History::mark(std::int64_t id, bool undone) {
  SQLite::Statement update{database_, "UPDATE history SET undone = ?2 WHERE id = ?1"};
  update.bind(1, id);
  update.bind(2, undone ? 1 : 0);
  update.exec();
}

std::vector<HistoryEntry> History::list(std::size_t limit, std::int64_t sitting) const {
  SQLite::Statement rows{
      database_,
      "SELECT id, at, title, undone, changeset IS NOT NULL, sitting = ?2 FROM history ORDER BY id DESC"
      " LIMIT ?1"};
  rows.bind(1, static_cast<std::int64_t>(limit));
  rows.bind(2, sitting);
  std::vector<HistoryEntry> entries;
  bool reachable = true;  // an action behind one that cannot be undone cannot be undone either
  while (rows.executeStep()) {
    HistoryEntry entry;
    entry.id = rows.getColumn(0).getInt64();
    entry.at = instant_from_column(rows.getColumn(1).getInt64());
    entry.title = rows.getColumn(2).getString();
    entry.undone = rows.getColumn(3).getInt() != 0;
    reachable = reachable && rows.getColumn(4).getInt() != 0;
    entry.undoable = reachable;
    entry.this_sitting = rows.getColumn(5).getInt() != 0;
    entries.push_back(std::move(entry));
  }
  return entries;
}

std::vector<std::string> History::photos() const {
  std::vector<std::string> names;
  SQLite::Statement rows{database_, "SELECT changeset FROM history WHERE changeset IS NOT NULL"};
  while (rows.executeStep()) {
    const SQLite::Column blob = rows.getColumn(0);
    const auto named =
        photos_in({static_cast<const std::byte*>(blob.getBlob()), static_cast<std::size_t>(blob.getBytes())});
    names.insert(names.end(), named.begin(), named.end());
  }
  return names;
}

std::vector<std::string> History::backups() const {
  std::vector<std::string> names;
  SQLite::Statement rows{database_, "SELECT backup FROM history WHERE backup <> ''"};
  while (rows.executeStep())
    names.push_back(rows.getColumn(0).getString());
  return names;
}

}  // namespace secondpull::db
