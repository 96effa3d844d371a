#pragma once

#include <memory>
#include <optional>
#include <utility>

#include <QWidget>

#include "app/lessons/entry_rows.h"

class QComboBox;
class QLineEdit;

namespace secondpull::app {

/// The entries of the knowledge base to choose from: searched, by section, with a menu for a new one. Object
/// names: knowledgeSearch, knowledgeSection, knowledgeNew, knowledgeTable.
class KnowledgeList : public QWidget {
  Q_OBJECT
 public:
  using Key = std::pair<QString, QString>;  ///< section and id; an empty id: a new one

  explicit KnowledgeList(Session& session, QWidget* parent = nullptr);
  void setRows(std::vector<EntryRow> rows);
  const std::vector<EntryRow>& rows() const { return rows_; }
  /// Marks that entry now and whenever the list changes, as far as it is among those shown. Tells nobody.
  void setCurrent(const std::optional<Key>& key);
  /// The section's entries, or all, with no search.
  void show(const QString& section);
  void start();  ///< puts the focus into the search
  const DataTable& table() const { return *table_; }

 signals:
  void chosen(const QString& section, const QString& id);  ///< by the person
  void opened();                                           ///< the chosen one is to be worked on
  void wantsNew(const QString& section);

 private:
  void makeSections();
  void filter();
  void mark();

  std::vector<EntryRow> rows_;
  std::optional<Key> current_;
  bool filling_ = false;
  QLineEdit* search_;
  QComboBox* section_;
  DataTable* table_;
  std::unique_ptr<RowModel<EntryRow>> model_;
};

}  // namespace secondpull::app
