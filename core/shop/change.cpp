#include "core/shop/change.h"

#include <algorithm>
#include <variant>

namespace secondpull {
namespace {

template <class Record>
bool carry_out(Table<Record>& table, EditKind kind, const Record& record) {
  switch (kind) {
    case EditKind::add:
      return table.insert(record);
    case EditKind::replace:
      return table.replace(record);
    case EditKind::remove:
      return table.erase(record.id);
  }
  return false;
}

}  // namespace

Result<Shop> apply(const Shop& shop, const Change& change) {
  Shop after = shop;
  for (const Edit& edit : change.edits()) {
    const bool done = std::visit(
        [&]<class Record>(const Record& record) { return carry_out(after.all<Record>(), edit.kind, record); },
        edit.record);
    if (!done)
      return problem("The shop has changed since this was begun (\"" + change.title() +
                     "\"): nothing was done. Look at it again and repeat the step.");
  }
  after.next_id = std::max(shop.next_id, change.next_id());
  return after;
}

}  // namespace secondpull
