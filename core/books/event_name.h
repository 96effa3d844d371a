#pragma once

#include <string>

#include "core/shop/shop.h"

namespace secondpull {

/// What kind of record an event is, with the user's own identifier where it has one, else its number:
/// "acquisition L1", "sale 26".
std::string event_name(const Shop& shop, const AnyId& event);

}  // namespace secondpull
