#include "db/photo_store.h"

#include <fmt/format.h>

#include "db/failure.h"
#include "db/files.h"

namespace secondpull::db {

namespace fs = std::filesystem;

std::string PhotoStore::keep(std::span<const std::byte> content) const {
  const std::string name = sha256(content);
  make_private_folder(folder_);
  std::error_code absent;
  if (fs::file_size(file(name), absent) != content.size() || absent) write_whole(file(name), content);
  return name;
}

std::vector<std::byte> PhotoStore::read(const std::string& name) const {
  if (!is_sha256(name))
    throw Failure{{fmt::format("\"{}\" is not the name of a photo.", name), "sha256", name}};
  if (!fs::exists(file(name)))
    throw Failure{{fmt::format("The photo {} is missing from {}.", name, folder_.string()), "sha256", name}};
  std::vector<std::byte> content = read_whole(file(name));
  if (sha256(content) != name)
    throw Failure{{fmt::format("The photo {} is damaged: restore it from a backup.", file(name).string()),
                   "sha256", name}};
  return content;
}

void PhotoStore::sweep(const std::set<std::string>& in_use) const {
  if (!fs::exists(folder_)) return;
  std::vector<fs::path> unused;
  for (const auto& entry : fs::directory_iterator{folder_}) {
    const std::string name = entry.path().filename().string();
    if (is_sha256(name) && !in_use.contains(name)) unused.push_back(entry.path());
  }
  for (const fs::path& one : unused)
    fs::remove(one);
}

}  // namespace secondpull::db
