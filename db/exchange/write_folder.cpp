#include <algorithm>
#include <fstream>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "db/exchange/columns.h"
#include "db/exchange/csv.h"
#include "db/exchange/exchange.h"
#include "db/exchange/files.h"
#include "db/exchange/origin.h"

namespace secondpull::db {
namespace {

namespace fs = std::filesystem;

/// The text of a table's file: its header and the records in the order in which they were entered.
template <class Record>
std::string csv_of(std::vector<const Record*> records, const Shop& shop) {
  const auto columns = format_of<Record>().columns;
  std::string out;
  std::vector<std::string> cells;
  for (const Column<Record>& column : columns)
    cells.emplace_back(column.name);
  append_csv_row(out, cells);
  for (const Record* record : records) {
    for (std::size_t i = 0; i < columns.size(); ++i) {
      cells[i].clear();
      columns[i].write(*record, shop, cells[i]);
    }
    append_csv_row(out, cells);
  }
  return out;
}

template <class Record>
std::vector<const Record*> as_entered(const Table<Record>& table) {
  std::vector<const Record*> records;
  for (const Record& record : table)
    records.push_back(&record);
  std::stable_sort(records.begin(), records.end(),
                   [](const Record* a, const Record* b) { return a->entered < b->entered; });
  return records;
}

std::map<std::string, std::string> texts_of(const Shop& shop) {
  std::map<std::string, std::string> texts;
  texts.emplace(format_of<Settings>().file, csv_of<Settings>({&shop.settings}, shop));
  shop.each_table([&]<class Record>(const Table<Record>& table) {
    if constexpr (has_file<Record>)
      if (!table.empty()) texts.emplace(format_of<Record>().file, csv_of<Record>(as_entered(table), shop));
  });
  return texts;
}

/// A part used from a donor whose tag is also the identifier of an order with that part: the cell `from`
/// would say the order.
template <class Use>
const Use* ambiguous_origin(const Shop& shop) {
  std::map<std::string_view, OrderId> orders;
  for (const Order& order : shop.all<Order>())
    orders.emplace(order.code, order.id);
  for (const Use& use : shop.all<Use>()) {
    if (!use.from_donor) continue;
    const Machine* donor = shop.find(*use.from_donor);
    const auto order = donor == nullptr ? orders.end() : orders.find(donor->tag);
    if (order != orders.end() && has_part(shop, order->second, use.part)) return &use;
  }
  return nullptr;
}

template <class Use>
Result<void> check_origins(const Shop& shop) {
  const Use* use = ambiguous_origin<Use>(shop);
  if (use == nullptr) return {};
  const std::string tag = shop.find(*use->from_donor)->tag;
  return problem(
      fmt::format("The order \"{0}\" and the donor \"{0}\" both gave the part \"{1}\", and the export "
                  "could not tell them apart: rename the order first.",
                  tag, shop.find(use->part)->code),
      "from", tag);
}

}  // namespace

Result<void> write_folder(const Shop& shop, const fs::path& folder) {
  return check_origins<Fitted>(shop).and_then([&] { return check_origins<PartSale>(shop); }).and_then([&] {
    return replace_files(folder, texts_of(shop));
  });
}

}  // namespace secondpull::db
