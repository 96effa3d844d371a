#pragma once

#include <string>

#include "core/result.h"
#include "core/shop/change.h"

namespace secondpull {

// Entries of the knowledge base as this shop has them, each in the place of the published one of that id or
// beside the published ones. Core knows no JSON: whether a text is an entry is found where it is read.

/// Keeps the text as the shop's own entry; the same text again changes nothing. Refused: an empty section,
/// entry or text (the field of that name).
Result<Change> keep_entry(const Shop& shop, const std::string& section, const std::string& entry,
                          const std::string& text);

/// The published entry again, or none where none is published. Changes nothing where there was no own one.
Result<Change> drop_entry(const Shop& shop, const std::string& section, const std::string& entry);

}  // namespace secondpull
