#include "core/shop/off_sale.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/shop/bench.h"
#include "core/shop/describe.h"
#include "core/shop/selling.h"
#include "core/shop/together.h"
#include "core/typed_words.h"

namespace secondpull {

Result<Change> take_off_sale(const Shop& shop, ListingId id, Date date, const std::string& reason) {
  const std::string said{trimmed(reason)};
  const Listing* const listing = shop.find(id);
  if (said.empty() || listing == nullptr) return end_listing(shop, id, date);
  Together together{shop};
  together.add([&](const Shop& now) { return end_listing(now, id, date); });
  together.add([&](const Shop& now) {
    return record_finding(
        now,
        {.machine = listing->machine, .date = date, .step = std::string{kTakenOffSale}, .outcome = said});
  });
  return std::move(together).result(
      fmt::format("Took {} off sale: {}", called(shop, listing->machine), said));
}

std::string why_ended(const ByMachine::Lines& lines, const Listing& listing) {
  if (!listing.ended) return {};
  // Several listings may end on one day; the reason is that of the one entered last before it.
  for (auto at = lines.findings.rbegin(); at != lines.findings.rend(); ++at) {
    const Finding& finding = **at;
    if (finding.date != *listing.ended || !same_word(finding.step, kTakenOffSale)) continue;
    const bool another = std::any_of(lines.listings.begin(), lines.listings.end(), [&](const Listing* other) {
      return other->ended == listing.ended && other->entered > listing.entered &&
             other->entered < finding.entered;
    });
    if (!another && listing.entered < finding.entered) return finding.outcome;
  }
  return {};
}

std::vector<std::string> reasons_given(const Shop& shop) {
  std::vector<std::string> given;
  const auto& all = shop.all<Finding>();
  for (auto at = all.end(); at != all.begin();) {
    const Finding& finding = *--at;
    if (same_word(finding.step, kTakenOffSale) &&
        std::find(given.begin(), given.end(), finding.outcome) == given.end())
      given.push_back(finding.outcome);
  }
  return given;
}

}  // namespace secondpull
