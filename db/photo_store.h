#pragma once

#include <cstddef>
#include <filesystem>
#include <set>
#include <span>
#include <string>
#include <vector>

namespace secondpull::db {

/// Pictures by the SHA-256 of their content, so that the same one is kept once and damage shows.
class PhotoStore {
 public:
  explicit PhotoStore(std::filesystem::path folder) : folder_{std::move(folder)} {}

  /// Puts it in and returns its name. @throws std::filesystem::filesystem_error
  std::string keep(std::span<const std::byte> content) const;
  /// @throws Failure  no such picture, or its content is not what its name says
  std::vector<std::byte> read(const std::string& sha256) const;
  std::filesystem::path file(const std::string& sha256) const { return folder_ / sha256; }
  /// Removes every picture that is not in use.
  void sweep(const std::set<std::string>& in_use) const;

 private:
  std::filesystem::path folder_;
};

}  // namespace secondpull::db
