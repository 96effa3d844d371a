#include "app/print/table_report.h"

#include <QHeaderView>
#include <QTableView>

#include "app/parts/data_table.h"

namespace secondpull::app {

namespace {

std::vector<int> shownColumns(const QTableView& table) {
  std::vector<int> columns;
  for (int place = 0; table.model() != nullptr && place < table.model()->columnCount(); ++place)
    if (const int at = table.horizontalHeader()->logicalIndex(place); !table.isColumnHidden(at))
      columns.push_back(at);
  return columns;
}

}  // namespace

QStringList keysOf(const QTableView& table) {
  QStringList keys;
  for (const int column : shownColumns(table))
    keys << table.model()->headerData(column, Qt::Horizontal, RowModelBase::KeyRole).toString();
  return keys;
}

ReportSection sectionOf(const QTableView& table, const QString& heading) {
  ReportSection section{.heading = heading};
  const QAbstractItemModel* model = table.model();
  if (model == nullptr) return section;
  const std::vector<int> columns = shownColumns(table);
  for (const int at : columns) {
    const auto side =
        static_cast<Qt::Alignment>(model->headerData(at, Qt::Horizontal, Qt::TextAlignmentRole).toInt());
    section.columns.push_back(
        {model->headerData(at, Qt::Horizontal).toString(), side.testFlag(Qt::AlignRight)});
  }
  for (int row = 0; row < model->rowCount(); ++row) {
    ReportRow made;
    for (const int column : columns) {
      const QModelIndex index = model->index(row, column);
      made.cells.emplace_back(index.data().toString(), index.data(RowModelBase::PlainRole).toString());
    }
    section.rows.push_back(std::move(made));
  }
  return section;
}

}  // namespace secondpull::app
