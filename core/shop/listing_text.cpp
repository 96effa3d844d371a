#include "core/shop/listing_text.h"

#include <algorithm>
#include <string_view>

#include <fmt/format.h>

#include "core/shop/checks.h"
#include "core/shop/describe.h"

namespace secondpull {
namespace {

std::string without_blank_ends(std::string_view text) {
  constexpr std::string_view kBlank = " \t\r\n";
  const std::size_t first = text.find_first_not_of(kBlank);
  if (first == std::string_view::npos) return {};
  return std::string{text.substr(first, text.find_last_not_of(kBlank) + 1 - first)};
}

}  // namespace

const ListingText* own_listing_text(const Shop& shop, MachineId machine) {
  const auto& all = shop.all<ListingText>();
  const auto at =
      std::find_if(all.begin(), all.end(), [&](const ListingText& one) { return one.machine == machine; });
  return at != all.end() ? &*at : nullptr;
}

Result<Change> set_listing_text(const Shop& shop, MachineId machine, Date date, const std::string& text) {
  const std::string said = without_blank_ends(text);
  if (const Objection objection = first_of({check_machine(shop, machine, date), check_said(said, "text")}))
    return tl::unexpected(*objection);
  Change change{shop, fmt::format("Own words for the listing of {}", called(shop, machine))};
  const ListingText* const before = own_listing_text(shop, machine);
  if (before == nullptr) {
    change.add(ListingText{.machine = machine, .date = date, .text = said});
  } else if (before->text != said) {
    ListingText after = *before;
    after.date = date;
    after.text = said;
    change.replace(after);
  }
  return change;
}

Result<Change> clear_listing_text(const Shop& shop, MachineId machine) {
  if (shop.find(machine) == nullptr)
    return problem("That machine is not in the shop's records any more: choose another one.", "machine");
  Change change{shop,
                fmt::format("Words made from the record again for the listing of {}", called(shop, machine))};
  if (const ListingText* const before = own_listing_text(shop, machine)) change.remove(*before);
  return change;
}

}  // namespace secondpull
