#pragma once

#include <string>

#include "core/books/ledger.h"

namespace secondpull::bookkeeping {

/// What happened, for a person: "sold #14 to Ruel Astby", "fitted 1 x carburettor to #14".
std::string what_happened(const Shop& shop, const Ledger::Happening& happening);

/// What a line of a machine's account is: "share of lot L1", "carburettor x 1", "fee".
/// @param of_lot  did the machine come in with others?
std::string what_it_is(const Shop& shop, const Ledger::Happening& happening, LineKind line, bool of_lot);

}  // namespace secondpull::bookkeeping
