#pragma once

#include <string_view>
#include <tuple>
#include <type_traits>
#include <utility>
#include <variant>

#include "core/shop/shop.h"
#include "db/rows/bench_rows.h"
#include "db/rows/closing_rows.h"
#include "db/rows/find_rows.h"
#include "db/rows/intake_rows.h"
#include "db/rows/knowing_rows.h"
#include "db/rows/sale_rows.h"
#include "db/rows/selling_rows.h"
#include "db/rows/shelf_rows.h"
#include "db/rows/spending_rows.h"

namespace secondpull::db {

/// Calls `visit(std::type_identity<Record>{})` for each kind of record, in the order of Shop's tables.
template <class Visit>
void each_kind(Visit&& visit) {
  [&]<class... Records>(std::type_identity<std::variant<Records...>>) {
    (visit(std::type_identity<Records>{}), ...);
  }(std::type_identity<AnyRecord>{});
}

/// Calls `visit(column, position)` for each column of a kind's table, positions from 0.
template <class Record, class Visit>
void each_column(Visit&& visit) {
  std::apply(
      [&](const auto&... column) {
        int position = 0;
        (visit(column, position++), ...);
      },
      Rows<Record>::columns);
}

/// The id of a record of any kind.
inline AnyId id_of(const AnyRecord& record) {
  return std::visit([](const auto& one) { return AnyId{one.id}; }, record);
}

}  // namespace secondpull::db
