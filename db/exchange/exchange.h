#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/result.h"
#include "core/shop/change.h"
#include "core/shop/shop.h"

namespace secondpull::db {

/// An error in an exchange folder. Lines count from 1, the header being line 1; 0 where the whole file is
/// meant (or, for a record of the shop that the folder is added to, no line of it).
struct ImportError {
  std::string file;
  std::size_t line = 0;
  std::string column;
  std::string value;  ///< as it stands in the file
  std::string sentence;
};

/// One line for a person: `machines.csv:14: kind: "pusher" is not one of: push, self-propelled, ...`.
std::string shown(const ImportError& error);

/// The shop a folder describes, or everything that is wrong with it.
struct ImportResult {
  Shop shop;
  std::vector<ImportError> errors;  ///< `shop` counts only if this is empty; by file, then by line
};

/// Reads an exchange folder (RFC 4180 CSV files, one a table) on top of `existing`: pass an empty Shop for a
/// new one; with records in it the folder's rows are added to them and may refer to them, and its settings
/// stay (the folder's currency must be the same). `existing` is not changed. Ids are handed out from
/// existing.next_id in the order of files and lines, so the same folder gives the same shop. What is wrong
/// with single lines is told all together; the rules between lines are looked at once every line is right.
ImportResult read_folder(const std::filesystem::path& folder, const Shop& existing);

/// The action that turns `existing` into what read_folder made of it: the records added, with the same ids.
Change import_change(const Shop& existing, const Shop& read);

/// Writes the whole shop as an exchange folder. A table without rows writes no file. A folder that is there
/// already may hold an earlier export, which is replaced, and files of other kinds, which are left alone; one
/// with a .csv of another name is refused. Nothing changes unless all of it could be written. Pictures stay
/// in the shop's own folder.
Result<void> write_folder(const Shop& shop, const std::filesystem::path& folder);

}  // namespace secondpull::db
