#include "tests/db/store/test_shop.h"

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <span>
#include <stdexcept>

#include "core/shop/intake.h"
#include "db/files.h"

namespace secondpull::db::testing {

namespace fs = std::filesystem;

namespace {

template <class T>
T value_of(Result<T> result) {
  if (!result) throw std::runtime_error(result.error().sentence);
  return std::move(*result);
}

}  // namespace

TempFolder::TempFolder() {
  std::string name = (fs::temp_directory_path() / "secondpull-test-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
  path_ = name;
}
TempFolder::~TempFolder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

Date day(unsigned month, unsigned day_of_month) {
  return Date{std::chrono::year{2026}, std::chrono::month{month}, std::chrono::day{day_of_month}};
}

Instant noon(unsigned month, unsigned day_of_month) {
  return Instant{std::chrono::sys_days{day(month, day_of_month)}} + std::chrono::hours{12};
}

Settings test_settings() {
  Settings settings;
  settings.name = "The shed behind the willow";
  settings.hour_value = dollars(25);
  return settings;
}

Store new_store(const TempFolder& folder) {
  return value_of(Store::create(folder.shop(), test_settings(), noon(3, 5)));
}

Store reopened(const TempFolder& folder, Access access) {
  return value_of(Store::open(folder.shop(), access, noon(3, 5)));
}

Change take_in(const Shop& shop, const std::string& tag, Money price) {
  NewAcquisition acquisition;
  acquisition.date = day(3, 1);
  acquisition.source = Source::private_sale;
  acquisition.price = price;
  NewMachine machine;
  machine.tag = tag;
  machine.make = "Tarnwick";
  machine.model_number = "TW-21745";
  machine.symptom = "cranks, will not start";
  acquisition.machines.push_back(machine);
  return value_of(log_acquisition(shop, acquisition));
}

Done done(Store& store, const Result<Change>& change, Instant at) {
  return value_of(store.perform(value_of(change), at));
}

std::map<std::string, std::string> everything_in(const fs::path& folder) {
  std::map<std::string, std::string> found;
  for (const auto& entry : fs::recursive_directory_iterator{folder}) {
    std::string& content = found[fs::relative(entry.path(), folder).string()];
    content = std::to_string(static_cast<unsigned>(entry.status().permissions())) + ":";
    if (!entry.is_regular_file()) continue;
    std::ifstream file{entry.path(), std::ios::binary};
    const std::string bytes{std::istreambuf_iterator<char>{file}, {}};
    content += sha256(std::as_bytes(std::span{bytes}));
  }
  return found;
}

}  // namespace secondpull::db::testing
