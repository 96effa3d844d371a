#pragma once

#include <tuple>

#include "db/rows/columns.h"

namespace secondpull::db {

template <>
struct Rows<ClosedYear> {
  static constexpr const char* table = "closed_years";
  static constexpr auto columns = std::tuple{
      Column{"id", &ClosedYear::id},
      Column{"entered", &ClosedYear::entered},
      Column{"year", &ClosedYear::year},
      Column{"closed", &ClosedYear::closed},
  };
};

template <>
struct Rows<KeptFigure> {
  static constexpr const char* table = "kept_figures";
  static constexpr auto columns = std::tuple{
      Column{"id", &KeptFigure::id},
      Column{"entered", &KeptFigure::entered},
      Column{"closed_year_id", &KeptFigure::closed_year},
      Column{"line", &KeptFigure::line},
      Column{"name", &KeptFigure::name},
      Column{"size", &KeptFigure::size},
  };
};

}  // namespace secondpull::db
