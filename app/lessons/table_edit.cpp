#include "app/lessons/table_edit.h"

#include <algorithm>

#include <QComboBox>
#include <QCompleter>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

#include "app/parts/grown.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr int kMostRows = 12;  // shown at once
constexpr int kRowPad = 10;
constexpr int kLeastColumn = 7 * kGrid;
constexpr int kAddWidth = 40 * kGrid;

}  // namespace

TableEdit::TableEdit(const FieldSpec& field, std::vector<std::pair<QString, QString>> choices,
                     const QStringList& info_titles, QWidget* parent)
    : FieldEdit(parent),
      field_{field},
      choices_{std::move(choices)},
      columns_{isOutcomes() ? QStringList{tr("also called (with ; between)")} : field.columns},
      info_titles_{info_titles},
      table_{new QTableWidget{this}},
      add_button_{new QPushButton{this}},
      told_{new QLabel{this}} {
  const QString object = "knowledge." + field.key;
  table_->setObjectName(object);
  table_->setAccessibleName(field.label);
  table_->setAccessibleDescription(tr("type over a cell; Delete takes the row out"));
  table_->setTabKeyNavigation(false);
  table_->setShowGrid(false);
  table_->setCornerButtonEnabled(false);
  table_->setWordWrap(false);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setEditTriggers(QAbstractItemView::AnyKeyPressed | QAbstractItemView::EditKeyPressed |
                          QAbstractItemView::DoubleClicked | QAbstractItemView::SelectedClicked);
  table_->verticalHeader()->hide();
  table_->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
  table_->verticalHeader()->setDefaultSectionSize(table_->fontMetrics().height() + kRowPad);
  table_->horizontalHeader()->setHighlightSections(false);
  table_->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
  table_->installEventFilter(this);
  connect(table_, &QTableWidget::cellChanged, this, [this] {
    if (setting_) return;
    emit edited();
    refreshInfo();
  });
  setFocusProxy(table_);

  auto* foot = new QHBoxLayout;
  foot->setContentsMargins(0, 0, 0, 0);
  if (!isOutcomes()) {
    add_ = new QComboBox{this};
    add_->setObjectName(object + ".add");
    add_->setAccessibleName(tr("%1: one more").arg(field.label));
    add_->setEditable(true);
    add_->setInsertPolicy(QComboBox::NoInsert);
    add_->setFixedWidth(grown(kAddWidth));
    add_->completer()->setFilterMode(Qt::MatchContains);
    add_->completer()->setCompletionMode(QCompleter::PopupCompletion);
    add_->lineEdit()->setPlaceholderText(tr("one more"));
    connect(add_->lineEdit(), &QLineEdit::returnPressed, this, &TableEdit::addChosen);
    foot->addWidget(add_);
  }
  add_button_->setText(isOutcomes() ? tr("Add one") : tr("Add"));
  add_button_->setObjectName(object + ".addButton");
  add_button_->setAccessibleName(tr("%1: add").arg(field.label));
  connect(add_button_, &QPushButton::clicked, this, &TableEdit::addChosen);
  foot->addWidget(add_button_);
  setRank(told_, "small");
  told_->setText(tr("Delete takes a row out"));
  foot->addWidget(told_, 1);

  auto* column = new QVBoxLayout{this};
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid / 2);
  column->addWidget(table_);
  column->addLayout(foot);
}

QString TableEdit::nameOf(const QString& id) const {
  const auto at =
      std::find_if(choices_.begin(), choices_.end(), [&](const auto& each) { return each.first == id; });
  return at == choices_.end() ? id : at->second;
}

Rows TableEdit::rows() const {
  Rows rows;
  for (int at = 0; at < table_->rowCount(); ++at) {
    const QTableWidgetItem* head = table_->item(at, 0);
    QStringList row{head->data(Qt::UserRole).toString()};
    if (isOutcomes()) row << head->text();
    for (int column = 1; column <= columns(); ++column)
      row << table_->item(at, column)->text();
    rows.push_back(row);
  }
  return rows;
}

void TableEdit::setRows(const Rows& rows) {
  showTable(rows);
  offerChoices();
}

void TableEdit::showTable(const Rows& rows) {
  setting_ = true;
  const int current_row = table_->currentRow(), current_column = table_->currentColumn();
  table_->clear();
  table_->setColumnCount(1 + columns() + static_cast<int>(info_titles_.size()));
  table_->setHorizontalHeaderLabels(QStringList{isOutcomes() ? tr("shows") : QString{}} + columns_ +
                                    info_titles_);
  table_->setRowCount(static_cast<int>(rows.size()));
  for (int at = 0; at < table_->rowCount(); ++at) {
    const QStringList& row = rows[static_cast<std::size_t>(at)];
    auto* head = new QTableWidgetItem{isOutcomes() ? row.value(1) : nameOf(row.value(0))};
    head->setData(Qt::UserRole, row.value(0));
    head->setToolTip(head->text());
    if (!isOutcomes()) head->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable);
    table_->setItem(at, 0, head);
    for (int column = 1; column < table_->columnCount(); ++column) {
      auto* cell = new QTableWidgetItem;
      if (column <= columns()) {
        cell->setText(row.value(column + (isOutcomes() ? 1 : 0)));
        if (!isOutcomes()) cell->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
      } else {
        cell->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable);
        cell->setForeground(look().faded);
      }
      if (column <= columns() || (column == 0 && isOutcomes())) cell->setBackground(look().card);
      table_->setItem(at, column, cell);
    }
    if (isOutcomes()) head->setBackground(look().card);
  }
  if (current_row >= 0 && current_row < table_->rowCount() && current_column < table_->columnCount())
    table_->setCurrentCell(current_row, current_column);
  setting_ = false;
  refreshInfo();
  fit();
}

void TableEdit::fit() {
  QHeaderView& header = *table_->horizontalHeader();
  for (int column = 1; column < table_->columnCount(); ++column) {
    header.setSectionResizeMode(column, QHeaderView::ResizeToContents);
  }
  header.setMinimumSectionSize(grown(kLeastColumn));
  // With many columns the names keep a width to be told by, and the table is moved sideways.
  constexpr int kMany = 3, kNameWidth = 18 * kGrid;
  header.setSectionResizeMode(0, columns() < kMany ? QHeaderView::Stretch : QHeaderView::Fixed);
  if (columns() >= kMany) header.resizeSection(0, grown(kNameWidth));
  if (isOutcomes()) header.setSectionResizeMode(1, QHeaderView::Stretch);
  const bool has_titles = table_->columnCount() > 1;
  header.setVisible(has_titles);
  const int rows = std::clamp(table_->rowCount(), 1, kMostRows);
  table_->setFixedHeight(rows * table_->verticalHeader()->defaultSectionSize() +
                         (has_titles ? header.sizeHint().height() : 0) + 4);
}

void TableEdit::offerChoices() {
  if (add_ == nullptr) return;
  add_->clear();
  const Rows there = rows();
  for (const auto& [id, name] : choices_)
    if (!id.isEmpty() &&
        std::none_of(there.begin(), there.end(), [&](const QStringList& row) { return row.value(0) == id; }))
      add_->addItem(name, id);
  add_->setCurrentIndex(-1);
  add_->clearEditText();
}

void TableEdit::start() {
  table_->setFocus();
  if (table_->currentRow() < 0 && table_->rowCount() > 0) table_->setCurrentCell(0, isOutcomes() ? 0 : 1);
}

void TableEdit::setInfo(Info info) {
  info_ = std::move(info);
  refreshInfo();
}

void TableEdit::refreshInfo() {
  if (!info_ || info_titles_.isEmpty()) return;
  const Rows all = rows();
  setting_ = true;
  for (int at = 0; at < table_->rowCount(); ++at) {
    const QStringList words = info_(all[static_cast<std::size_t>(at)]);
    for (int column = 0; column < info_titles_.size(); ++column)
      table_->item(at, 1 + columns() + column)->setText(words.value(column));
  }
  setting_ = false;
}

void TableEdit::addChosen() {
  Rows all = rows();
  if (isOutcomes()) {
    all.push_back({QString{}, QString{}, QString{}});
  } else {
    const QString typed = add_->currentText().trimmed();
    const int at = add_->findText(typed, Qt::MatchFixedString);
    if (at < 0) {
      told_->setText(typed.isEmpty() ? tr("Choose one first.")
                                     : tr("“%1” is none of them, or stands there already.").arg(typed));
      return;
    }
    QStringList row{add_->itemData(at).toString()};
    while (row.size() <= columns())
      row << QString{};
    // The row for every other cause stays last.
    const auto last = !all.empty() && all.back().value(0) == kAnyOther ? all.end() - 1 : all.end();
    all.insert(last, row);
  }
  told_->setText(tr("Delete takes a row out"));
  showTable(all);
  offerChoices();
  emit rowAdded();
  emit edited();
  const int added =
      static_cast<int>(all.size()) - (all.back().value(0) == kAnyOther && !isOutcomes() ? 2 : 1);
  table_->setCurrentCell(added, isOutcomes() ? 0 : std::min(1, columns()));
  table_->setFocus();
}

void TableEdit::takeOut(int row) {
  Rows all = rows();
  if (row < 0 || row >= static_cast<int>(all.size())) return;
  if (!isOutcomes() && all[static_cast<std::size_t>(row)].value(0) == kAnyOther) return;
  all.erase(all.begin() + row);
  showTable(all);
  offerChoices();
  emit rowTakenOut(row);
  emit edited();
}

bool TableEdit::eventFilter(QObject* watched, QEvent* event) {
  if (watched == table_ && event->type() == QEvent::KeyPress) {
    const auto* key = static_cast<QKeyEvent*>(event);
    if (key->key() == Qt::Key_Delete && key->modifiers() == Qt::NoModifier) {
      takeOut(table_->currentRow());
      return true;
    }
  }
  return FieldEdit::eventFilter(watched, event);
}

void TableEdit::setColumns(const QStringList& titles) {
  const Rows all = rows();
  columns_ = titles;
  showTable(all);
}

void TableEdit::addColumn(const QString& title) {
  Rows all = rows();
  columns_ << title;
  for (QStringList& row : all)
    row << QString{};
  showTable(all);
}

void TableEdit::removeColumn(int at) {
  Rows all = rows();
  columns_.removeAt(at);
  for (QStringList& row : all)
    if (row.size() > at + 1) row.removeAt(at + 1);
  showTable(all);
}

}  // namespace secondpull::app
