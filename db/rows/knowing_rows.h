#pragma once

#include <tuple>

#include "db/rows/columns.h"

namespace secondpull::db {

template <>
struct Rows<OwnNumber> {
  static constexpr const char* table = "own_numbers";
  static constexpr auto columns = std::tuple{
      Column{"id", &OwnNumber::id},
      Column{"entered", &OwnNumber::entered},
      Column{"machine_id", &OwnNumber::machine},
      Column{"path", &OwnNumber::path},
      Column{"value", &OwnNumber::value},
  };
};

template <>
struct Rows<KnowledgeEdit> {
  static constexpr const char* table = "knowledge_edits";
  static constexpr auto columns = std::tuple{
      Column{"id", &KnowledgeEdit::id},           Column{"entered", &KnowledgeEdit::entered},
      Column{"section", &KnowledgeEdit::section}, Column{"entry", &KnowledgeEdit::entry},
      Column{"text", &KnowledgeEdit::text},
  };
};

}  // namespace secondpull::db
