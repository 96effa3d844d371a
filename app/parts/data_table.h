#pragma once

#include <functional>
#include <vector>

#include <QAbstractTableModel>
#include <QTableView>

namespace secondpull::app {

class Session;

/// A table model over rows already fetched, its columns given as functions: it formats and nothing else.
/// Role Qt::UserRole gives the value to sort by (numbers sort as numbers, dates as dates).
template <class Row>
struct TableColumn {
  QString key;  ///< for remembering: "days_here"
  QString title;
  std::function<QString(const Row&)> text;
  std::function<QVariant(const Row&)> sort;  ///< empty: the text
  bool number = false;                       ///< right-aligned, tabular
  bool shown = true;                         ///< until the person chooses otherwise
  std::function<QString(const Row&)> why;    ///< tool tip: how the figure came about; may be empty
  std::function<QString(const Row&)> plain;  ///< a figure as a spreadsheet reads it: "-3.20"; may be empty
};

class RowModelBase : public QAbstractTableModel {
  Q_OBJECT
 public:
  using QAbstractTableModel::QAbstractTableModel;
  enum Role { SortRole = Qt::UserRole, KeyRole, ShownRole, PlainRole };
};

template <class Row>
class RowModel : public RowModelBase {
 public:
  RowModel(std::vector<TableColumn<Row>> columns, QObject* parent = nullptr)
      : RowModelBase(parent), columns_{std::move(columns)} {}
  void setRows(std::vector<Row> rows) {
    beginResetModel();
    rows_ = std::move(rows);
    endResetModel();
  }
  /// Changes every row in its place: what is chosen stays chosen.
  void updateRows(const std::function<void(Row&)>& update) {
    if (rows_.empty()) return;
    for (Row& each : rows_)
      update(each);
    emit dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
  }
  const Row& row(int index) const { return rows_[static_cast<std::size_t>(index)]; }
  const std::vector<Row>& rows() const { return rows_; }
  const std::vector<TableColumn<Row>>& columns() const { return columns_; }
  int rowCount(const QModelIndex& parent = {}) const override {
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
  }
  int columnCount(const QModelIndex& parent = {}) const override {
    return parent.isValid() ? 0 : static_cast<int>(columns_.size());
  }
  QVariant data(const QModelIndex& index, int role) const override {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
    const TableColumn<Row>& column = columns_[static_cast<std::size_t>(index.column())];
    const Row& at = row(index.row());
    switch (role) {
      case Qt::DisplayRole:
        return column.text(at);
      case SortRole:
        return column.sort ? column.sort(at) : QVariant{column.text(at)};
      case PlainRole:
        return column.plain ? QVariant{column.plain(at)} : QVariant{};
      case Qt::ToolTipRole:
        return column.why ? QVariant{column.why(at)} : QVariant{};
      case Qt::TextAlignmentRole:
        return QVariant::fromValue(
            Qt::Alignment{(column.number ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter});
      default:
        return {};
    }
  }
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override {
    if (orientation != Qt::Horizontal || section < 0 || section >= columnCount()) return {};
    const TableColumn<Row>& column = columns_[static_cast<std::size_t>(section)];
    if (role == Qt::DisplayRole) return column.title;
    if (role == KeyRole) return column.key;
    if (role == ShownRole) return column.shown;
    if (role == Qt::TextAlignmentRole)
      return QVariant::fromValue(
          Qt::Alignment{(column.number ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter});
    return {};
  }

 private:
  std::vector<TableColumn<Row>> columns_;
  std::vector<Row> rows_;
};

/// The table of every screen: sorts by a click on a header, filters by text, lets columns be chosen (menu on
/// the header), copies the selection as tab-separated text, and remembers columns, widths and order under
/// `name` in the shop's preferences. Keyboard: arrows, Enter opens the row, Ctrl+C copies.
class DataTable : public QTableView {
  Q_OBJECT
 public:
  DataTable(Session& session, const QString& name, QWidget* parent = nullptr);
  void setRowModel(RowModelBase* model);    ///< sorted and filtered through a proxy; takes no ownership
  void setFilterText(const QString& text);  ///< every word must occur somewhere in the row
  void setRowFilter(std::function<bool(int source_row)> filter);  ///< besides the text; empty: all
  void sortBy(const QString& column_key, Qt::SortOrder order);    ///< unless the person chose another
  int currentSourceRow() const;                                   ///< -1 if none
  void selectSourceRow(int row);
  int shownRows() const;

 signals:
  void opened(int source_row);  ///< Enter or double click
  void currentRowChanged(int source_row);

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void contextMenuEvent(QContextMenuEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void changeEvent(QEvent* event) override;
  void hideEvent(QHideEvent* event) override;  ///< what is to be remembered is, at the latest now

 private:
  struct Impl;
  Impl* impl_ = nullptr;
};

}  // namespace secondpull::app
