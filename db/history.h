#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <SQLiteCpp/SQLiteCpp.h>

#include "db/changeset.h"
#include "db/instant.h"
#include "db/store.h"

namespace secondpull::db {

/// What an action leaves in the history.
struct NewEntry {
  Instant at{};
  std::string title;
  std::int64_t sitting = 0;
  std::int64_t changes = 0;
  std::optional<Changeset> changeset;  ///< absent: it cannot be undone
  std::string backup;                  ///< file made before it, where it cannot be undone
};

/// An entry with what is needed to take it back or do it again.
struct StoredEntry {
  std::int64_t id = 0;
  std::string title;
  std::optional<Changeset> changeset;
  std::string backup;
};

/// The history within a shop file. Each function is one statement; the caller holds the transaction.
class History {
 public:
  explicit History(SQLite::Database& database) : database_{database} {}

  static constexpr int most_entries = 2000;
  static constexpr std::chrono::days longest{365};

  /// Adds an action: what was undone can no longer be redone, and what is beyond 2,000 actions or a year old
  /// goes.
  void add(const NewEntry& entry);
  std::optional<StoredEntry> last_done() const;     ///< what undo takes back
  std::optional<StoredEntry> first_undone() const;  ///< what redo does again
  void mark(std::int64_t id, bool undone);
  std::vector<HistoryEntry> list(std::size_t limit, std::int64_t sitting) const;
  /// Every photo that an entry could bring back, and every backup that one names.
  std::vector<std::string> photos() const;
  std::vector<std::string> backups() const;

 private:
  SQLite::Database& database_;
};

}  // namespace secondpull::db
