#include "app/frame/sheet_panel.h"

#include <QComboBox>
#include <QGridLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr int kColumns = 3;            // of questions side by side
constexpr qsizetype kMostSample = 24;  // letters of a value shown beside its column's name

QString say(const std::string& text) {
  return QString::fromStdString(text);
}

/// "Brand (Tarnwick)": a column with the first value that stands in it.
QString columnWords(const db::SingleSheet& sheet, std::size_t column) {
  for (std::size_t row = 0; row < sheet.size(); ++row)
    if (const std::string_view cell = sheet.cell(row, column); !cell.empty()) {
      QString sample = QString::fromUtf8(cell.data(), static_cast<qsizetype>(cell.size())).simplified();
      if (sample.size() > kMostSample) sample = sample.left(kMostSample - 1) + QChar{0x2026};
      return SheetPanel::tr("%1 (%2)").arg(say(sheet.columns()[column]), sample);
    }
  return say(sheet.columns()[column]);
}

/// A label above its field.
QWidget* question(const QString& label, QComboBox* field) {
  auto* cell = new QWidget;
  auto* stack = new QVBoxLayout{cell};
  stack->setContentsMargins(0, 0, 0, 0);
  stack->setSpacing(kGrid / 4);
  auto* name = new QLabel{label};
  name->setBuddy(field);
  name->setWordWrap(true);
  setRank(name, "small");
  field->setAccessibleName(label);
  field->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  stack->addWidget(name);
  stack->addWidget(field);
  stack->addStretch(1);
  return cell;
}

}  // namespace

SheetPanel::SheetPanel(QWidget* parent)
    : QFrame(parent),
      title_{new QLabel},
      kind_{new QComboBox},
      order_{new QComboBox},
      grid_{new QGridLayout} {
  setObjectName("sheetPanel");
  auto* layout = new QVBoxLayout{this};
  layout->setContentsMargins(0, 0, 0, 0);
  layout->setSpacing(kGrid);
  setRank(title_, "subheading");
  layout->addWidget(title_);
  kind_->setObjectName("sheetKind");
  for (const db::SheetKind& kind : db::sheet_kinds())
    kind_->addItem(say(kind.name));
  order_->setObjectName("sheetDays");
  order_->addItems({tr("month, day, year"), tr("day, month, year"), tr("year, month, day")});
  auto* head = new QGridLayout;
  head->setHorizontalSpacing(2 * kGrid);
  head->addWidget(question(tr("What its lines are"), kind_), 0, 0);
  head->addWidget(question(tr("Days such as 3/4/26 are"), order_), 0, 1);
  for (int column = 0; column < kColumns; ++column) {
    head->setColumnStretch(column, 1);
    grid_->setColumnStretch(column, 1);
  }
  layout->addLayout(head);
  layout->addWidget(faded(tr("Which column is what? One marked * is needed.")));
  grid_->setHorizontalSpacing(2 * kGrid);
  grid_->setVerticalSpacing(kGrid);
  layout->addLayout(grid_);
  auto* buttons = new QHBoxLayout;
  auto* go = new QPushButton{tr("I&mport the sheet")};
  go->setObjectName("importSheet");
  setRank(go, "first");
  auto* leave = new QPushButton{tr("Leave")};
  leave->setObjectName("leaveSheet");
  buttons->addWidget(go);
  buttons->addWidget(leave);
  buttons->addStretch(1);
  layout->addLayout(buttons);
  connect(go, &QPushButton::clicked, this, &SheetPanel::wantsImport);
  connect(leave, &QPushButton::clicked, this, &SheetPanel::left);
  connect(kind_, &QComboBox::currentIndexChanged, this, &SheetPanel::ask);
}

void SheetPanel::show(const std::filesystem::path& path, db::SingleSheet sheet) {
  path_ = path;
  title_->setText(sheet.size() == 1 ? tr("%1: 1 line").arg(say(sheet.file()))
                                    : tr("%1: %2 lines").arg(say(sheet.file())).arg(sheet.size()));
  const bool same = sheet_ && sheet_->columns() == sheet.columns();
  sheet_ = std::move(sheet);
  if (!same) ask();  // else what was chosen before stays
  QFrame::show();
  kind_->setFocus();
}

void SheetPanel::ask() {
  while (QLayoutItem* item = grid_->takeAt(0)) {
    item->widget()->deleteLater();
    delete item;
  }
  columns_.clear();
  if (!sheet_) return;
  const db::ColumnChoice guess = db::guess_columns(*sheet_, kind());
  int place = 0;
  for (std::size_t i = 0; i < kind().fields.size(); ++i) {
    const db::SheetField& field = kind().fields[i];
    auto* columns = new QComboBox;
    columns->setObjectName(say("column." + field.file + ":" + field.column));
    columns->addItem(tr("none"));
    for (std::size_t column = 0; column < sheet_->columns().size(); ++column)
      columns->addItem(columnWords(*sheet_, column));
    columns->setCurrentIndex(guess[i] ? static_cast<int>(*guess[i]) + 1 : 0);
    columns_.push_back(columns);
    const QString label = say(field.label);
    grid_->addWidget(question(field.required ? tr("%1 *").arg(label) : label, columns), place / kColumns,
                     place % kColumns);
    ++place;
  }
}

const db::SheetKind& SheetPanel::kind() const {
  return db::sheet_kinds()[static_cast<std::size_t>(kind_->currentIndex())];
}

db::ColumnChoice SheetPanel::choice() const {
  db::ColumnChoice all;
  for (const QComboBox* columns : columns_)
    all.push_back(columns->currentIndex() > 0
                      ? std::optional{static_cast<std::size_t>(columns->currentIndex() - 1)}
                      : std::nullopt);
  return all;
}

db::DayOrder SheetPanel::order() const {
  constexpr db::DayOrder orders[] = {db::DayOrder::month_day_year, db::DayOrder::day_month_year,
                                     db::DayOrder::year_month_day};
  return orders[order_->currentIndex()];
}

void SheetPanel::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape) return emit left();
  if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) return emit wantsImport();
  QFrame::keyPressEvent(event);
}

}  // namespace secondpull::app
