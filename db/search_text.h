#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/shop/shop.h"

namespace secondpull::db {

/// The text of a record that a person might look for: its text members that are not empty, a line each.
std::string searchable_text(const AnyRecord& record);

/// The text of the record with that id; empty if there is none.
std::string searchable_text(const Shop& shop, const AnyId& id);

/// The machine that a record is or belongs to.
std::optional<MachineId> machine_of(const Shop& shop, const AnyId& id);

/// What a person typed to search for, taken apart.
struct Query {
  std::string tag;                 ///< the whole of it without a leading '#', to be met exactly
  std::vector<std::string> words;  ///< folded; each must occur somewhere in a record's text
};
Query query_of(std::string_view typed);

/// Capitals made small, in ASCII and Latin-1.
std::string folded(std::string_view text);

/// Does a record's text hold all of the words?
bool holds_all(std::string_view text, const std::vector<std::string>& words);

/// The line of a record's text that holds the first of the words, else its first line.
std::string matching_line(std::string_view text, const std::vector<std::string>& words);

}  // namespace secondpull::db
