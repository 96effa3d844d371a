#pragma once

#include <string>
#include <vector>

#include "core/learning/knowledge_base.h"
#include "core/result.h"
#include "core/shop/shop.h"

namespace secondpull::db {

/// A part of the knowledge base as text.
struct KnowledgeText {
  std::string name;  ///< how a problem calls it: "tests.json"
  std::string json;
};

/// Reads a knowledge base from its parts (DEVELOPERS.md, "The knowledge base", has the format). An entry of a
/// later part takes the place of the one with the same id in an earlier part as a whole. The first problem
/// names part, section, entry and field ("tests.json, tests.spark.minutes"): text that is no JSON, an unknown
/// field, a value of the wrong kind, an entry without origin, a reference to no entry, and all of
/// learning::problems_of.
Result<learning::KnowledgeBase> read_knowledge(const std::vector<KnowledgeText>& parts);

/// The published knowledge base with the shop's own entries laid over it, read anew at each call. A problem
/// of an own entry names it ("own entry tests spark, tests.spark.minutes"); one of a published entry says
/// which no longer fits to an own one.
Result<learning::KnowledgeBase> knowledge_with_own_entries(const Shop& shop);

/// What knowledge_with_own_entries would read after keep_entry, and after drop_entry; nothing is kept. The
/// problems of the two. One that another entry has with it (a cause that is gone) names that other one.
Result<learning::KnowledgeBase> knowledge_if_kept(const Shop& shop, const std::string& section,
                                                  const std::string& entry, const std::string& text);
Result<learning::KnowledgeBase> knowledge_if_dropped(const Shop& shop, const std::string& section,
                                                     const std::string& entry);

/// The knowledge base that comes with the program (resources/knowledge).
const learning::KnowledgeBase& published_knowledge();

}  // namespace secondpull::db
