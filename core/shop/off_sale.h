#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/result.h"
#include "core/shop/change.h"
#include "core/shop/stage.h"

namespace secondpull {

// A listing that ends without a sale, and why. The reason is a finding of this step on the day the listing
// ended, so that it travels with the machine; it is no evidence about a fault.
inline constexpr std::string_view kTakenOffSale = "Taken off sale";

/// Ends the listing and keeps the reason in the same action; an empty reason keeps none. "Took #14 off sale:
/// nobody came". Problems: those of end_listing (selling.h).
Result<Change> take_off_sale(const Shop& shop, ListingId listing, Date date, const std::string& reason);

/// Why a listing ended without a sale, as it was said; empty if nobody said, or it has not ended.
std::string why_ended(const ByMachine::Lines& lines, const Listing& listing);

/// The reasons that were given in this shop, each once, the latest first.
std::vector<std::string> reasons_given(const Shop& shop);

}  // namespace secondpull
