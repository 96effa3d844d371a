#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "core/learning/knowledge_base.h"
#include "core/result.h"
#include "core/shop/shop.h"

namespace secondpull::db {

// Entries of the knowledge base as text, the other way round from knowledge_entries.h: what is written here
// is read there as the same entry.

/// An entry of any section but `trade` and `sources`, with the words beside it. A caution, a measurement and
/// a look before the sale have their origin in themselves; `text` has it as well.
struct KnowledgeEntry {
  std::variant<learning::Symptom, learning::Cause, learning::Test, learning::Repair, learning::PieceOfWork,
               learning::PartToPull, learning::KindFigures, learning::Caution, learning::Measurement,
               learning::SaleCheck>
      of;
  learning::EntryText text;
};

/// "symptoms", "causes", "tests", "repairs", "known_work", "parts_to_pull", "kinds", "cautions",
/// "measurements" or "checks".
std::string_view section_of(const KnowledgeEntry& entry);
/// Its id; of a kind of machine its word.
std::string id_of(const KnowledgeEntry& entry);

/// The entry as the JSON text that stands in its section under its id. What is empty or as usual is left out.
/// Its origin is `text.origin`.
std::string write_entry(const KnowledgeEntry& entry);
/// A figure of the trade as a whole (read_trade); empty for an id that is none.
std::string write_trade(const std::string& id, const learning::Knowledge& knowledge,
                        const learning::Origin& origin);

/// Reads the text of one entry by itself; what it says of others is not looked up. Problems: a section
/// ("section") that is none of the above, and those of its reader, with the path from the section on
/// ("tests.spark.minutes").
Result<KnowledgeEntry> read_entry(const std::string& section, const std::string& id, const std::string& text);

/// The entry of that id; nothing if the section or the id is none.
std::optional<KnowledgeEntry> find_entry(const learning::KnowledgeBase& base, std::string_view section,
                                         std::string_view id);

/// An id for a new entry of that name: its letters and digits of ASCII in lower case, with "-" between words,
/// and a number behind if an entry of any section, or one that the shop keeps, is called so already.
std::string new_entry_id(const learning::KnowledgeBase& base, const Shop& shop, std::string_view name);

}  // namespace secondpull::db
