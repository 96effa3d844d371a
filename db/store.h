#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/result.h"
#include "core/shop/change.h"
#include "core/shop/shop.h"
#include "db/instant.h"

namespace secondpull::db {

struct Migration;

enum class Access { read, write };

/// One action in the history, newest first where they are listed.
struct HistoryEntry {
  std::int64_t id = 0;
  Instant at{};
  std::string title;
  bool undone = false;  ///< can be redone
  bool undoable =
      true;  ///< false where a migration or a limit ended what can be undone, and for all before it
  bool this_sitting = true;  ///< made since this store was opened
};

/// What an action, an undo or a redo did.
struct Done {
  std::string title;
  std::vector<AnyId> changed;  ///< records added, replaced or removed
};

/// The running bench clock.
struct Clock {
  MachineId machine{};
  Instant started{};
};

/// A form that was being filled in, kept so that nothing typed is lost.
struct Draft {
  std::string form;  ///< the form's own name, one draft each: "yard.log-machine"
  std::string text;  ///< what the form wrote, in its own format
  Instant saved{};
};

struct Hit {
  AnyId record;
  std::optional<MachineId> machine;  ///< the machine it belongs to
  std::string text;                  ///< the line of its text that matched
};

/// The folder of a shop, open. One writer at a time (shop.lock); any number of readers beside it. Not for use
/// by two threads at once. Every failure comes back as a Problem whose sentence names the file and what to
/// do; a store opened for reading refuses what would write.
class Store {
 public:
  /// Makes the folder (mode 0700; it must not exist or be empty) with an empty shop in it, open for writing.
  static Result<Store> create(const std::filesystem::path& folder, const Settings& settings, Instant now);
  /// Opens a shop. A newer, foreign, damaged or (for writing) locked one is refused and left untouched. For
  /// writing, pending migrations run, after a backup; one that needs them is not opened for reading.
  /// A reader sees the records as they were when it was opened.
  static Result<Store> open(const std::filesystem::path& folder, Access access, Instant now);
  /// The same with another list of migrations than the program's own: for testing them.
  static Result<Store> open(const std::filesystem::path& folder, Access access, Instant now,
                            std::span<const Migration> migrations);
  Store(Store&&) noexcept;
  Store& operator=(Store&&) noexcept;
  ~Store();

  const std::filesystem::path& folder() const;

  /// The records as they are now. Immutable: later actions make a new one.
  std::shared_ptr<const Shop> shop() const;
  /// Raised by every action, undo, redo and change of settings: what is computed from a shop may be kept
  /// under it. It is kept in the file and never goes back.
  std::uint64_t generation() const;

  /// Applies the change: checks it against every rule (core/shop/rules.h), then writes rows and one history
  /// entry in one transaction. On a problem nothing is changed. A new action drops what could be redone. A
  /// change without edits does nothing and leaves no entry. The first action of a day (UTC) is preceded by a
  /// backup. One of more than 200,000 edits cannot be undone; a backup made before it stays as long as the
  /// history names it.
  /// A rule that was broken before (by an older program) does not stand in the way of other work.
  Result<Done> perform(const Change& change, Instant now);
  /// Takes back the last action that is not undone; nothing to undo is a problem.
  /// The records that undo() would change; none if there is nothing that it could take back.
  std::vector<AnyId> undo_would_change() const;
  Result<Done> undo();
  /// Does the last action undone again; nothing to redo is a problem.
  Result<Done> redo();
  std::vector<HistoryEntry> history(std::size_t limit = 200) const;

  // Not entries of the history:
  Result<void> set_settings(const Settings& settings);  ///< refused: another currency while there are records
  Result<void> set_clock(const std::optional<Clock>& clock);
  std::optional<Clock> clock() const;
  Result<void> save_draft(const std::string& form, const std::string& text, Instant now);
  Result<void> drop_draft(const std::string& form);
  std::vector<Draft> drafts() const;  ///< in order of form
  Result<void> set_preference(const std::string& key, const std::string& value);
  std::optional<std::string> preference(const std::string& key) const;

  /// Records with every word of `text` in their fields (a word may be part of a longer one; capitals do not
  /// matter), machines first, then by kind, the newest first; the machine with exactly that tag ("14", "#14")
  /// before all.
  std::vector<Hit> search(std::string_view text, std::size_t limit = 50) const;

  /// Puts a picture's bytes into photos/ and returns the SHA-256 that a Photo record names it by. One that no
  /// record, history entry, draft or backup names goes at a later day's first action.
  Result<std::string> keep_photo(const std::vector<std::byte>& content);
  Result<std::vector<std::byte>> photo(const std::string& sha256) const;

  /// Integrity of the file, the schema, the rules of the records, photos, and whether the records in memory
  /// are those of the file. Empty: all in order.
  std::vector<Problem> check() const;
  /// The recorded tables in key order as text, without history: two equal dumps are the same shop.
  std::string dump() const;

  /// A verified copy in backups/ now; thinning to 10 days, 8 weeks and 12 months.
  Result<std::filesystem::path> backup_now(Instant now);
  /// One archive (tar.gz) with the shop and its photos. A photo whose file is missing is missing in it too;
  /// check() names it.
  Result<void> backup_to(const std::filesystem::path& file) const;
  /// Unpacks such an archive into a new folder, verified. An archive that holds anything else is refused, and
  /// then there is no folder.
  static Result<void> restore(const std::filesystem::path& file, const std::filesystem::path& folder);

 private:
  struct Impl;
  explicit Store(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
};

}  // namespace secondpull::db
