#include "db/exchange/demo_folder.h"

#include <system_error>

#include <fmt/format.h>

namespace secondpull::db {

namespace fs = std::filesystem;

Result<fs::path> demo_folder() {
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  const fs::path installed = program.parent_path().parent_path() / "share/secondpull/demo-data/shop";
  if (!error && fs::is_directory(installed, error)) return installed;
  const fs::path in_sources = SECONDPULL_DEMO_FOLDER;
  if (fs::is_directory(in_sources, error)) return in_sources;
  return problem(fmt::format("The demo shop's files are not here: {} is missing. Install the program again.",
                             installed.string()),
                 "", installed.string());
}

}  // namespace secondpull::db
