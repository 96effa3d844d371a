#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/result.h"

namespace secondpull::db {

/// The files of the tables in their order, shop.csv first.
const std::vector<std::string>& table_files();
/// The place of a file among them; of any other file 0, before them.
std::size_t table_place(std::string_view file);

/// The .csv files in a folder that belong to no table, in order of name.
std::vector<std::string> other_csv_files(const std::filesystem::path& folder);

/// Puts these texts (by file name) into the folder, which is made if need be, and removes the files of tables
/// that are not among them. All are written aside first, and moved into place once they are on
/// the disk. A folder with a .csv of no table is refused.
Result<void> replace_files(const std::filesystem::path& folder,
                           const std::map<std::string, std::string>& texts);

}  // namespace secondpull::db
