#include "db/records.h"

#include <algorithm>
#include <tuple>
#include <type_traits>
#include <utility>

#include "db/rows/row_table.h"

namespace secondpull::db {

namespace {

template <class Variant>
struct TablesOf;
template <class... Records>
struct TablesOf<std::variant<Records...>> {
  using type = std::tuple<RowTable<Records>...>;
  static type make(SQLite::Database& database) { return type{RowTable<Records>{database}...}; }
};

/// The table with the rows of `changed` (sorted, each once) as the file has them now: one pass, so that
/// taking back an import does not go over the whole table for each of its rows.
template <class Record>
void refresh_table(Table<Record>& table, RowTable<Record>& rows,
                   const std::vector<decltype(Record::id)>& changed) {
  std::vector<Record> merged;
  merged.reserve(table.size() + changed.size());
  auto old = table.begin();
  for (const auto id : changed) {
    for (; old != table.end() && old->id < id; ++old)
      merged.push_back(*old);
    if (old != table.end() && old->id == id) ++old;
    if (auto record = rows.find(id)) merged.push_back(std::move(*record));
  }
  merged.insert(merged.end(), old, table.end());
  table.assign(std::move(merged));
}

}  // namespace

struct Records::Impl {
  explicit Impl(SQLite::Database& opened) : database{opened}, tables{TablesOf<AnyRecord>::make(opened)} {}

  template <class Record>
  RowTable<Record>& rows() {
    return std::get<RowTable<Record>>(tables);
  }

  SQLite::Database& database;
  TablesOf<AnyRecord>::type tables;
};

Records::Records(SQLite::Database& database) : impl_{std::make_unique<Impl>(database)} {}
Records::Records(Records&&) noexcept = default;
Records& Records::operator=(Records&&) noexcept = default;
Records::~Records() = default;

void Records::load(Shop& shop) {
  each_kind([&]<class Record>(std::type_identity<Record>) {
    shop.all<Record>().assign(impl_->rows<Record>().all());
  });
}

void Records::write(const Edit& edit) {
  std::visit(
      [&]<class Record>(const Record& record) {
        RowTable<Record>& rows = impl_->rows<Record>();
        switch (edit.kind) {
          case EditKind::add:
            rows.insert(record);
            break;
          case EditKind::replace:
            rows.replace(record);
            break;
          case EditKind::remove:
            rows.remove(record.id);
            break;
        }
      },
      edit.record);
}

void Records::refresh(Shop& shop, const std::vector<AnyId>& changed) {
  each_kind([&]<class Record>(std::type_identity<Record>) {
    using Id = decltype(Record::id);
    std::vector<Id> ids;
    for (const AnyId& any : changed)
      if (const Id* id = std::get_if<Id>(&any)) ids.push_back(*id);
    if (ids.empty()) return;
    std::ranges::sort(ids);
    ids.erase(std::unique(ids.begin(), ids.end()), ids.end());
    refresh_table(shop.all<Record>(), impl_->rows<Record>(), ids);
  });
}

std::string Records::dump() {
  std::string text;
  each_kind([&]<class Record>(std::type_identity<Record>) {
    text += std::string{Rows<Record>::table} + "\n" + impl_->rows<Record>().dump();
  });
  return text;
}

std::vector<std::string> recorded_tables() {
  std::vector<std::string> names;
  each_kind([&]<class Record>(std::type_identity<Record>) { names.emplace_back(Rows<Record>::table); });
  return names;
}

}  // namespace secondpull::db
