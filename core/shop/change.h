#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/result.h"
#include "core/shop/shop.h"

namespace secondpull {

enum class EditKind { add, replace, remove };

struct Edit {
  EditKind kind = EditKind::add;
  AnyRecord record;  ///< as it is afterwards; for a removal as it was
};

/// What one action of the user does to the records: the functions of core/shop make it, the store keeps it as
/// one transaction and one entry of the history. Edits are applied in order.
class Change {
 public:
  /// @param title  what was done, as the history and undo say it: "Sold #14 to Ruel for $160"
  Change(const Shop& shop, std::string title) : title_{std::move(title)}, next_id_{shop.next_id} {}

  /// A fresh id for a record that this change adds.
  template <class Id>
  Id new_id() {
    return static_cast<Id>(next_id_++);
  }
  /// Adds the record, giving it a fresh id (its `entered` becomes the same number). Returns the id.
  template <class Record>
  auto add(Record record) {
    record.id = new_id<decltype(record.id)>();
    record.entered = number(record.id);
    const auto id = record.id;
    edits_.push_back({EditKind::add, AnyRecord{std::move(record)}});
    return id;
  }
  template <class Record>
  void replace(Record record) {
    edits_.push_back({EditKind::replace, AnyRecord{std::move(record)}});
  }
  template <class Record>
  void remove(Record record) {
    edits_.push_back({EditKind::remove, AnyRecord{std::move(record)}});
  }

  /// Takes in the edits of a change that was made for the shop as this one leaves it.
  void follow(const Change& next) {
    edits_.insert(edits_.end(), next.edits_.begin(), next.edits_.end());
    next_id_ = next.next_id_;
  }

  const std::string& title() const { return title_; }
  void set_title(std::string title) { title_ = std::move(title); }
  const std::vector<Edit>& edits() const { return edits_; }
  std::int64_t next_id() const { return next_id_; }
  bool empty() const { return edits_.empty(); }

 private:
  std::string title_;
  std::vector<Edit> edits_;
  std::int64_t next_id_;
};

/// The shop after the change. A problem (and no shop) if an edit adds a taken id, or replaces or removes a
/// record that is not there: the change was made for another state of the shop.
Result<Shop> apply(const Shop& shop, const Change& change);

}  // namespace secondpull
