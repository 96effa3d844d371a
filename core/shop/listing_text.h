#pragma once

#include <string>

#include "core/result.h"
#include "core/shop/change.h"

namespace secondpull {

// The owner's own words for a machine's listing, in the place of those made from the record
// (core/paper/listing_text.h).

/// These words from now on; spaces and empty lines at their ends are dropped, and the same ones again change
/// nothing. Refused: a machine that is not there or had not come in yet, no words ("text").
Result<Change> set_listing_text(const Shop& shop, MachineId machine, Date date, const std::string& text);

/// The words made from the record again. Changes nothing where there were no own ones.
Result<Change> clear_listing_text(const Shop& shop, MachineId machine);

/// The own words for a machine, or nullptr.
const ListingText* own_listing_text(const Shop& shop, MachineId machine);

}  // namespace secondpull
