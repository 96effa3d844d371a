#pragma once

#include <vector>

#include "app/lessons/entry_sheet.h"
#include "app/parts/data_table.h"

namespace secondpull::app {

class Session;

/// An entry in the list of the knowledge base.
struct EntryRow {
  QString section;
  QString id;  ///< empty: a new one that is not kept yet
  QString name;
  QString also;         ///< further words, found by the search
  bool is_own = false;  ///< the shop has its own
  bool is_published = false;
  bool is_typed = false;  ///< something typed is not saved
};

/// "published", "own", "own, added", and whether something is not saved.
QString whoseWords(const EntryRow& row);
/// Every entry of the sections that are edited, by section and name; own ones that cannot be read too.
std::vector<EntryRow> entryRows(const Session& session);
std::vector<TableColumn<EntryRow>> entryColumns();

/// The text of the shop's own entry, or nothing.
std::optional<std::string> ownText(const Shop& shop, const QString& section, const QString& id);

}  // namespace secondpull::app
