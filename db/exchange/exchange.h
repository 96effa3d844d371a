#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/result.h"
#include "core/shop/shop.h"

namespace secondpull::db {

/// An error in an exchange folder. Lines count from 1, the header being line 1; 0 where the whole file is
/// meant.
struct ImportError {
  std::string file;
  std::size_t line = 0;
  std::string column;
  std::string value;
  std::string sentence;
};

/// The shop a folder describes, or everything that is wrong with it.
struct ImportResult {
  Shop shop;
  std::vector<ImportError> errors;  ///< `shop` counts only if this is empty
};

/// Reads an exchange folder (RFC 4180 CSV files, one a table) on top of `existing`: pass an empty Shop for a
/// new one; with records in it the folder's rows are added to them and may refer to them. `existing` is not
/// changed. Ids are handed out from existing.next_id in the order of files and lines, so the same folder
/// gives the same shop.
ImportResult read_folder(const std::filesystem::path& folder, const Shop& existing);

/// Writes the whole shop as an exchange folder (made if need be; a folder that holds other .csv files is
/// refused). A table without rows writes no file.
Result<void> write_folder(const Shop& shop, const std::filesystem::path& folder);

}  // namespace secondpull::db
