#pragma once

#include <filesystem>
#include <set>
#include <string>
#include <vector>

#include <SQLiteCpp/SQLiteCpp.h>

#include "db/instant.h"

namespace secondpull::db {

/// Copies a database as one transaction sees it and verifies the copy, which is there entirely or not at all
/// and needs no file beside it. @throws Failure  the copy is not sound; SQLite::Exception
void copy_database(SQLite::Database& from, const std::filesystem::path& to);

/// The dated copies in a shop's backups/.
class Backups {
 public:
  explicit Backups(std::filesystem::path folder) : folder_{std::move(folder)} {}

  /// A verified copy named by the moment.
  std::filesystem::path make(SQLite::Database& shop, Instant now) const;
  bool has_one_of(Date day) const;
  /// Names, oldest first.
  std::vector<std::string> names() const;
  /// Removes what to_thin() names.
  void thin(Instant now, const std::set<std::string>& keep) const;
  /// SHA-256 of every photo that a copy's records or its history name.
  std::vector<std::string> photos() const;

 private:
  std::filesystem::path folder_;
};

/// Which of the copies go: those that are neither the newest of one of the last 10 days, 8 weeks or 12 months
/// that have one, nor of today. `names` as Backups gives them.
std::vector<std::string> to_thin(const std::vector<std::string>& names, Date today);

}  // namespace secondpull::db
