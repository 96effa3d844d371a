#pragma once

#include <tuple>

#include "db/rows/columns.h"

namespace secondpull::db {

template <>
struct Rows<Find> {
  static constexpr const char* table = "finds";
  static constexpr auto columns = std::tuple{
      Column{"id", &Find::id},           Column{"entered", &Find::entered},
      Column{"date", &Find::date},       Column{"kind", &Find::kind},
      Column{"make", &Find::make},       Column{"model", &Find::model},
      Column{"year", &Find::year},       Column{"symptom", &Find::symptom},
      Column{"asking", &Find::asking},   Column{"miles", &Find::miles},
      Column{"minutes", &Find::minutes}, Column{"pickup_cost", &Find::pickup_cost},
      Column{"place", &Find::place},     Column{"ended", &Find::ended},
      Column{"how", &Find::how},         Column{"machine_id", &Find::machine},
      Column{"note", &Find::note},
  };
};

template <>
struct Rows<FindAnswer> {
  static constexpr const char* table = "find_answers";
  static constexpr auto columns = std::tuple{
      Column{"id", &FindAnswer::id},        Column{"entered", &FindAnswer::entered},
      Column{"find_id", &FindAnswer::find}, Column{"date", &FindAnswer::date},
      Column{"test", &FindAnswer::test},    Column{"outcome", &FindAnswer::outcome},
  };
};

}  // namespace secondpull::db
