#pragma once

#include <functional>

#include "app/lessons/field_edit.h"

class QComboBox;
class QLabel;
class QPushButton;
class QTableWidget;

namespace secondpull::app {

/// A field that is a table: entries picked from a section with numbers beside them, or what a test can show.
/// A cell is typed over as in a spreadsheet; Delete takes the row out. Beside what is typed stands what is
/// only to be read (setInfo). Object names: the table "knowledge.KEY", the choice "knowledge.KEY.add", its
/// button "knowledge.KEY.addButton".
class TableEdit : public FieldEdit {
  Q_OBJECT
 public:
  /// What stands beside a row, a word for each title of `info_titles`.
  using Info = std::function<QStringList(const QStringList& row)>;

  /// @param choices  id and name of what can be picked; not for outcomes
  TableEdit(const FieldSpec& field, std::vector<std::pair<QString, QString>> choices,
            const QStringList& info_titles, QWidget* parent);

  Rows rows() const override;
  void setRows(const Rows& rows) override;
  void start() override;
  void setInfo(Info info);
  void refreshInfo();

  /// The cells to be typed in, besides the name: titles, what is typed stays in its column.
  void setColumns(const QStringList& titles);
  void addColumn(const QString& title);
  void removeColumn(int at);
  int columns() const { return static_cast<int>(columns_.size()); }

 signals:
  void rowAdded();
  void rowTakenOut(int row);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void addChosen();
  void takeOut(int row);
  void showTable(const Rows& rows);  ///< with the columns as they are
  void fit();
  void offerChoices();
  QString nameOf(const QString& id) const;
  bool isOutcomes() const { return field_.kind == FieldSpec::Kind::outcomes; }

  FieldSpec field_;
  std::vector<std::pair<QString, QString>> choices_;
  QStringList columns_, info_titles_;
  Info info_;
  bool setting_ = false;
  QTableWidget* table_;
  QComboBox* add_ = nullptr;
  QPushButton* add_button_;
  QLabel* told_;
};

}  // namespace secondpull::app
