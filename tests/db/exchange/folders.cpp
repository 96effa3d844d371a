#include "tests/db/exchange/folders.h"

#include <algorithm>

#include <gtest/gtest.h>

namespace secondpull::db {

void fill_folder(const TempFolder& folder, const Files& files) {
  const bool has_shop =
      std::any_of(files.begin(), files.end(), [](const auto& file) { return file.first == "shop.csv"; });
  if (!has_shop) write_text(folder.path() / "shop.csv", kShopCsv);
  for (const auto& [name, text] : files)
    write_text(folder.path() / name, text);
}

ImportResult read_files(const Files& files, const Shop& existing) {
  const TempFolder folder;
  fill_folder(folder, files);
  return read_folder(folder.path(), existing);
}

Shop shop_of(const Files& files, const Shop& existing) {
  ImportResult result = read_files(files, existing);
  for (const ImportError& error : result.errors)
    ADD_FAILURE() << shown(error);
  return std::move(result.shop);
}

std::string place(const ImportError& error) {
  return error.file + ":" + std::to_string(error.line) + ":" + error.column + ":" + error.value;
}

std::vector<std::string> places(const Files& files, const Shop& existing) {
  std::vector<std::string> out;
  for (const ImportError& error : read_files(files, existing).errors)
    out.push_back(place(error));
  return out;
}

}  // namespace secondpull::db
