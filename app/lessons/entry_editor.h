#pragma once

#include <QScrollArea>

#include "app/lessons/entry_beside.h"
#include "app/lessons/table_edit.h"

class QGridLayout;
class QLabel;

namespace secondpull::app {

/// An entry of the knowledge base in fields to be typed in, each with what is published and what the shop's
/// record adds below or beside it. Object names: knowledge.KEY (field_edit.h), and of a field's words
/// knowledgePublished.KEY, knowledgeRecord.KEY, knowledgeProblem.KEY.
class EntryEditor : public QScrollArea {
  Q_OBJECT
 public:
  explicit EntryEditor(QWidget* parent);

  /// Shows an entry: fields anew, for its section. `typed` is what stands in them.
  void showEntry(const QString& section, const EntrySheet& typed, const learning::KnowledgeBase& base,
                 Beside beside);
  void clear();
  void finishCell();  ///< what is being typed in a cell of a table counts as typed
  EntrySheet sheet() const;
  void setSheet(const EntrySheet& sheet);
  /// What can be read of the entry as typed has changed.
  void setTyped(const db::KnowledgeEntry& entry);
  /// Under the field that it names, which gets the focus; false if none of them is named.
  bool showProblem(const Problem& problem);
  void clearProblems();
  void start();  ///< puts the focus into the first field

 signals:
  void edited();
  void entered();

 private:
  struct Row {
    FieldSpec field;
    FieldEdit* edit;
    QLabel* published;
    QLabel* record;
    QLabel* problem;
  };
  void addRow(const FieldSpec& field, const learning::KnowledgeBase& base, QGridLayout* grid);
  void bindTables();
  void refreshBeside();
  TableEdit* table(const QString& key) const;

  std::vector<Row> rows_;
  std::optional<Beside> beside_;
  bool setting_ = false;
};

}  // namespace secondpull::app
