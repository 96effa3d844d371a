#pragma once

#include <filesystem>
#include <string>

#include "core/shop/shop.h"

namespace secondpull::bench {

/// A shop of `machines` machines that came one by one over some years, half of them sold, with `labour_lines`
/// lines of labour spread over them, a part fitted to every tenth and a trip for every fifth. The same every
/// time.
Shop big_shop(std::size_t machines, std::size_t labour_lines);

/// A fresh folder in the system's place for such, removed with everything in it when it leaves scope.
class ScratchFolder {
 public:
  ScratchFolder();
  ~ScratchFolder();
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;
  std::filesystem::path operator/(const std::string& name) const { return path_ / name; }

 private:
  std::filesystem::path path_;
};

/// Writes big_shop as an exchange folder and imports it with the command line program; throws if that fails.
void make_shop_folder(const std::filesystem::path& shop, const Shop& content);

/// Runs a command with its output thrown away; throws std::runtime_error if it does not end with 0.
void run_or_throw(const std::string& command);

}  // namespace secondpull::bench
