#pragma once

#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "db/backups.h"
#include "db/connection.h"
#include "db/desk.h"
#include "db/history.h"
#include "db/photo_store.h"
#include "db/records.h"
#include "db/search_index.h"
#include "db/shop_folder.h"
#include "db/shop_lock.h"
#include "db/store.h"

namespace secondpull::db {

/// What an open store is made of. Members are in the order in which they need each other: statements close
/// before their connection, the connection before the lock is given up.
struct Store::Impl {
  Impl(std::filesystem::path shop_folder, Access as, std::optional<ShopLock> held, SQLite::Database opened,
       Instant now);

  std::filesystem::path folder;
  Access access;
  std::optional<ShopLock> lock;
  SQLite::Database database;
  Records records;
  History history;
  Desk desk;
  PhotoStore photos;
  Backups backups;
  SearchIndex index;

  std::shared_ptr<const Shop> shop;
  Desk::State state;                      ///< as in the file; `sitting` is that of this store
  Instant now;                            ///< the latest that a caller named
  std::set<std::string> kept_photos;      ///< in this sitting, perhaps for a form that is still open
  std::optional<Problem> backup_trouble;  ///< of the last try to make the day's backup

  std::filesystem::path file() const { return shop_file(folder); }
  /// @throws Failure  opened for reading
  void expect_writer() const;
  /// Reads records, settings and counters in one snapshot.
  void load();
  /// Runs `work` in a write scope and commits; what it throws comes back as the problem.
  template <class Work>
  Result<void> write(Work&& work);
  /// Takes the last action back or does it again.
  Done travel(Direction direction);
  /// The backup before the first write of a day. That it cannot be made does not stop the work: check()
  /// tells.
  void back_up_the_day();
  std::filesystem::path make_backup();
  /// Removes the photos that nothing names any more.
  void sweep_photos();
  /// Whatever in a draft looks like a photo's name.
  std::set<std::string> photos_of_drafts() const;
};

}  // namespace secondpull::db
