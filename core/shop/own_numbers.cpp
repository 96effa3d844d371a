#include "core/shop/own_numbers.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/shop/checks.h"
#include "core/shop/describe.h"
#include "core/typed_words.h"

namespace secondpull {
namespace {

Objection check_path(const Shop& shop, MachineId machine, std::string_view path) {
  if (shop.find(machine) == nullptr)
    return Problem{"That machine is not in the shop's records any more: choose another one.", "machine", ""};
  return check_said(path, "path");
}

const OwnNumber* number_at(const Shop& shop, MachineId machine, std::string_view path) {
  const auto& all = shop.all<OwnNumber>();
  const auto at = std::find_if(all.begin(), all.end(), [&](const OwnNumber& one) {
    return one.machine == machine && one.path == path;
  });
  return at != all.end() ? &*at : nullptr;
}

}  // namespace

Result<Change> set_own_number(const Shop& shop, MachineId machine, const std::string& path, double value) {
  Objection objection = check_path(shop, machine, path);
  if (!objection && !std::isfinite(value))
    objection = Problem{fmt::format("The value {} is not a finite number.", value), "value",
                        fmt::format("{}", value)};
  if (objection) return tl::unexpected(*objection);
  const std::string said{trimmed(path)};
  Change change{shop, fmt::format("Own number for {}: {} = {}", called(shop, machine), said, value)};
  const OwnNumber* const before = number_at(shop, machine, said);
  if (before == nullptr) {
    change.add(OwnNumber{.machine = machine, .path = said, .value = value});
  } else if (before->value != value) {
    OwnNumber after = *before;
    after.value = value;
    change.replace(after);
  }
  return change;
}

Result<Change> clear_own_number(const Shop& shop, MachineId machine, const std::string& path) {
  if (const Objection objection = check_path(shop, machine, path)) return tl::unexpected(*objection);
  const std::string said{trimmed(path)};
  Change change{shop, fmt::format("Computed number again for {}: {}", called(shop, machine), said)};
  if (const OwnNumber* const before = number_at(shop, machine, said)) change.remove(*before);
  return change;
}

std::vector<std::pair<std::string, double>> own_numbers(const Shop& shop, MachineId machine) {
  std::vector<std::pair<std::string, double>> numbers;
  for (const OwnNumber& one : shop.all<OwnNumber>())
    if (one.machine == machine) numbers.emplace_back(one.path, one.value);
  std::sort(numbers.begin(), numbers.end());
  return numbers;
}

}  // namespace secondpull
