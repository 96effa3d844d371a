#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "db/files.h"
#include "db/instant.h"

namespace secondpull::db {

/// The right to write to a shop, held through an open-file-description lock on shop.lock: the kernel frees
/// it when the holder ends, however it ends.
class ShopLock {
 public:
  /// @throws Failure  another holds it, saying who
  static ShopLock take(const std::filesystem::path& folder, Instant now);
  /// Who holds it ("process 4711, since 2026-03-05 14:02:07 UTC"), or nothing if nobody does. Changes
  /// nothing, makes no file.
  static std::optional<std::string> holder(const std::filesystem::path& folder);
  /// The refusal to give when somebody holds it.
  static std::string refusal(const std::filesystem::path& folder, const std::string& holder);

  ShopLock(ShopLock&&) noexcept = default;
  ShopLock& operator=(ShopLock&&) noexcept = default;
  ~ShopLock();

 private:
  explicit ShopLock(FileHandle file) : file_{std::move(file)} {}
  FileHandle file_;
};

}  // namespace secondpull::db
