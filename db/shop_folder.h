#pragma once

#include <filesystem>
#include <span>

#include "core/shop/records.h"
#include "db/migrations.h"

namespace secondpull::db {

// What a shop's folder holds, by name.
inline std::filesystem::path shop_file(const std::filesystem::path& folder) {
  return folder / "shop.sqlite";
}
inline std::filesystem::path search_file(const std::filesystem::path& folder) {
  return folder / "search.sqlite";
}
inline std::filesystem::path photo_folder(const std::filesystem::path& folder) {
  return folder / "photos";
}
inline std::filesystem::path backup_folder(const std::filesystem::path& folder) {
  return folder / "backups";
}

/// Looks at a file that may not be a shop of ours, every page of it, without touching it or making any other
/// beside it. @throws Failure  not there, foreign, newer, or damaged, in words
void judge_shop_file(const std::filesystem::path& file, std::span<const Migration> migrations);

/// Is the folder absent, empty, or left behind by a create that was interrupted?
bool can_hold_new_shop(const std::filesystem::path& folder);

/// A new shop file with the newest schema, these settings and no records, in place entirely or not at all.
void make_shop_file(const std::filesystem::path& folder, const Settings& settings,
                    std::span<const Migration> migrations);

}  // namespace secondpull::db
