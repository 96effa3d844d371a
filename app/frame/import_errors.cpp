#include "app/frame/import_errors.h"

#include <algorithm>

#include <QHeaderView>
#include <QLabel>
#include <QVBoxLayout>

#include "app/parts/data_table.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

using Row = db::ImportError;

constexpr int kMostRowsShown = 12;  // without scrolling

/// A value as it stands in the file, on one line.
QString onOneLine(const std::string& text) {
  return QString::fromStdString(text)
      .replace('\n', QStringLiteral("\\n"))
      .replace('\r', QStringLiteral("\\r"))
      .replace('\t', QStringLiteral("\\t"));
}

std::vector<TableColumn<Row>> columns() {
  const auto sentence = [](const Row& row) { return QString::fromStdString(row.sentence); };
  return {
      {.key = "file",
       .title = ImportErrors::tr("File"),
       .text = [](const Row& row) { return QString::fromStdString(row.file); }},
      {.key = "line",
       .title = ImportErrors::tr("Line"),
       .text = [](const Row& row) { return row.line == 0 ? QString{} : QString::number(row.line); },
       .sort = [](const Row& row) { return QVariant{static_cast<qulonglong>(row.line)}; },
       .number = true},
      {.key = "column",
       .title = ImportErrors::tr("Column"),
       .text = [](const Row& row) { return QString::fromStdString(row.column); }},
      {.key = "value",
       .title = ImportErrors::tr("Value"),
       .text = [](const Row& row) { return onOneLine(row.value); }},
      {.key = "sentence", .title = ImportErrors::tr("What is wrong"), .text = sentence, .why = sentence},
  };
}

}  // namespace

ImportErrors::ImportErrors(Session& session, QWidget* parent)
    : QWidget(parent), model_{new RowModel<Row>{columns(), this}} {
  auto* layout = new QVBoxLayout{this};
  layout->setContentsMargins(0, 0, 0, 0);
  layout->setSpacing(kGrid);
  table_ = new DataTable{session, QStringLiteral("frame.import-errors"), this};
  table_->setObjectName("importErrors");
  table_->setAccessibleName(tr("Errors of the import"));
  table_->setRowModel(model_);
  full_ = new QLabel{this};
  full_->setObjectName("importError");
  full_->setWordWrap(true);
  full_->setTextFormat(Qt::PlainText);
  full_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  layout->addWidget(table_);
  layout->addWidget(full_);
  connect(table_, &DataTable::currentRowChanged, this, [this](int row) {
    full_->setText(row < 0 ? QString{} : QString::fromStdString(db::shown(model_->row(row))));
  });
}

void ImportErrors::setErrors(std::vector<db::ImportError> errors) {
  model_->setRows(std::move(errors));
  const int rows = std::min(model_->rowCount(), kMostRowsShown);
  table_->setFixedHeight(table_->horizontalHeader()->sizeHint().height() +
                         rows * table_->verticalHeader()->defaultSectionSize() + kGrid);
  if (rows > 0) table_->selectSourceRow(0);
}

}  // namespace secondpull::app
