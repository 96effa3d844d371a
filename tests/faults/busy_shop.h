#pragma once

#include <filesystem>
#include <vector>

#include "core/shop/change.h"
#include "db/store.h"

namespace secondpull::faults {

/// A folder gone with its test.
class TempFolder {
 public:
  TempFolder();
  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;
  ~TempFolder();
  std::filesystem::path shop() const { return path_ / "shop"; }
  std::filesystem::path other() const { return path_ / "other"; }

 private:
  std::filesystem::path path_;
};

inline constexpr db::Instant now{std::chrono::sys_days{std::chrono::year{2026} / 3 / 5}};

/// A new shop with a machine in it, closed.
void make_shop(const std::filesystem::path& folder);
db::Store open_shop(const std::filesystem::path& folder);

/// An action that touches several tables: a machine taken in with its acquisition and hours.
Change take_in(const Shop& shop);
/// As many labour lines in one action.
Change import_labour(const Shop& shop, int lines);

/// What a busy owner does without end: three machines taken in, one taken back, and done again. Step n leads
/// from generation n - 1 to n.
void do_step(db::Store& store);

/// The shop at each generation of a busy owner's, as far as asked for; made by do_step's actions in memory.
class Expected {
 public:
  explicit Expected(const Shop& first, std::uint64_t generation) : first_{generation}, shops_{first} {}
  const Shop& at(std::uint64_t generation);

 private:
  std::uint64_t first_;
  std::vector<Shop> shops_;
};

}  // namespace secondpull::faults
