#pragma once

#include <map>
#include <utility>

#include "app/lessons/entry_sheet.h"

namespace secondpull::app {

class Session;

/// What is typed into entries of the knowledge base and not saved, by section and id (empty: a new entry).
/// It outlives the program as a draft of the shop once it is written.
class KnowledgeDrafts {
 public:
  using Key = std::pair<QString, QString>;

  explicit KnowledgeDrafts(Session& session);  ///< with what was written before
  const std::map<Key, EntrySheet>& all() const { return sheets_; }
  const EntrySheet* find(const Key& key) const;  ///< nullptr: nothing is typed there
  void put(const Key& key, const EntrySheet& sheet) { sheets_[key] = sheet; }
  void drop(const Key& key) { sheets_.erase(key); }
  void write() const;

 private:
  Session& session_;
  std::map<Key, EntrySheet> sheets_;
};

}  // namespace secondpull::app
