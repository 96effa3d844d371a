#pragma once

#include <vector>

#include "app/parts/data_table.h"
#include "core/shop/shop.h"

namespace secondpull::app {

/// A find in the list.
struct FindRow {
  FindId find{};
  Date seen{};
  QString what;
  QString symptom;
  Money asking;
  QString how;  ///< "bought as #61 on 5 May", "passed on", "open"
};

/// Every find, the latest first.
std::vector<FindRow> findRows(const Session& session);
std::vector<TableColumn<FindRow>> findColumns(const Session& session);

}  // namespace secondpull::app
