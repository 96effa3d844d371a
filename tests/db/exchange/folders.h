#pragma once

#include <string>
#include <utility>
#include <vector>

#include "db/exchange/exchange.h"
#include "tests/db/exchange/outside.h"

namespace secondpull::db {

/// The text of the files of a folder, by name.
using Files = std::vector<std::pair<std::string, std::string>>;

inline const std::string kShopCsv = "name,currency\nTest Yard,USD\n";

/// Writes the files into the folder, with a shop.csv in USD unless one is among them.
void fill_folder(const TempFolder& folder, const Files& files);

/// Reads a folder with these files.
ImportResult read_files(const Files& files, const Shop& existing = {});

/// The shop that these files describe; a failure with every error if there is one.
Shop shop_of(const Files& files, const Shop& existing = {});

/// An error without its sentence: "file:line:column:value".
std::string place(const ImportError& error);
/// The places of all errors of a folder with these files.
std::vector<std::string> places(const Files& files, const Shop& existing = {});

}  // namespace secondpull::db
