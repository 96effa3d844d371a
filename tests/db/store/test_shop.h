#pragma once

#include <filesystem>
#include <map>
#include <ostream>
#include <string>

#include "core/shop/change.h"
#include "db/store.h"

namespace secondpull {

inline void PrintTo(const Problem& problem, std::ostream* out) {
  *out << problem.sentence << " [" << problem.field << ": " << problem.value << "]";
}

}  // namespace secondpull

namespace secondpull::db::testing {

/// A folder of its own for a test, gone with it. The shop's folder is one in it that is still to be made.
class TempFolder {
 public:
  TempFolder();
  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;
  ~TempFolder();
  const std::filesystem::path& path() const { return path_; }
  std::filesystem::path shop() const { return path_ / "shop"; }

 private:
  std::filesystem::path path_;
};

/// Noon (UTC) of a day in 2026.
Instant noon(unsigned month, unsigned day);
Date day(unsigned month, unsigned day);
inline Money dollars(std::int64_t amount) {
  return Money::from_minor(amount * 100);
}

Settings test_settings();
/// A new shop, open for writing; a failure ends the test program's test by exception.
Store new_store(const TempFolder& folder);
Store reopened(const TempFolder& folder, Access access = Access::write);

/// Takes in one machine by itself for that price.
Change take_in(const Shop& shop, const std::string& tag, Money price = dollars(40));
/// Performs it and returns what was done; a problem is thrown with its sentence.
Done done(Store& store, const Result<Change>& change, Instant at = noon(3, 5));

/// Everything in a folder: relative path -> its mode and the SHA-256 of its content.
std::map<std::string, std::string> everything_in(const std::filesystem::path& folder);

}  // namespace secondpull::db::testing
