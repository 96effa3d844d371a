#include "app/lessons/entry_editor.h"

#include <QAbstractItemView>
#include <QApplication>
#include <QGridLayout>
#include <QLabel>
#include <QPointer>
#include <QTimer>
#include <QVBoxLayout>

#include "app/parts/grown.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

using Kind = FieldSpec::Kind;

constexpr int kLabelWidth = 19 * kGrid;
constexpr int kSeenBelow = 20 * kGrid;  // of a field, below what is wrong with it
constexpr int kEditWidth = 90 * kGrid;  // a line longer than this is read with the head turning

bool isTable(const FieldSpec& field) {
  return field.kind == Kind::picks || field.kind == Kind::outcomes;
}

QLabel* words(const QString& object, const char* rank, QWidget* parent) {
  auto* label = new QLabel{parent};
  label->setObjectName(object);
  label->setWordWrap(true);
  label->setTextFormat(Qt::PlainText);
  setRank(label, rank);
  label->hide();
  return label;
}

void tell(QLabel* label, const QString& text) {
  label->setText(text);
  label->setVisible(!text.isEmpty());
}

}  // namespace

EntryEditor::EntryEditor(QWidget* parent) : QScrollArea(parent) {
  setWidgetResizable(true);
  setFrameShape(QFrame::NoFrame);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setFocusPolicy(Qt::NoFocus);
}

void EntryEditor::finishCell() {
  QWidget* const focus = QApplication::focusWidget();
  if (focus == nullptr || !isAncestorOf(focus)) return;
  // A cell's field stands in the viewport of its table; without the focus it gives the table what was typed.
  for (QWidget* above = focus->parentWidget(); above != nullptr && above != this;
       above = above->parentWidget())
    if (auto* const view = qobject_cast<QAbstractItemView*>(above); view != nullptr && view != focus)
      return view->setFocus();
}

void EntryEditor::clear() {
  // The old fields say nothing any more while they go: there is nothing left that they could be about.
  for (const Row& row : rows_)
    disconnect(row.edit, nullptr, this, nullptr);
  rows_.clear();
  // One of its fields may be what asked for this.
  if (QWidget* const old = takeWidget()) {
    old->hide();
    old->deleteLater();
  }
  beside_.reset();
}

void EntryEditor::showEntry(const QString& section, const EntrySheet& typed,
                            const learning::KnowledgeBase& base, Beside beside) {
  clear();
  beside_ = std::move(beside);
  auto* page = new QWidget;
  auto* grid = new QGridLayout{page};
  grid->setContentsMargins(0, 0, 2 * kGrid, 0);
  grid->setHorizontalSpacing(2 * kGrid);
  grid->setVerticalSpacing(kGrid + kGrid / 2);
  grid->setColumnStretch(1, 1);
  for (const FieldSpec& field : fieldsOf(section))
    addRow(field, base, grid);
  grid->setRowStretch(grid->rowCount(), 1);
  bindTables();
  setSheet(typed);
  setWidget(page);
}

void EntryEditor::addRow(const FieldSpec& field, const learning::KnowledgeBase& base, QGridLayout* grid) {
  QWidget* page = grid->parentWidget();
  FieldEdit* edit = nullptr;
  if (isTable(field)) {
    auto choices = entriesOf(base, QString::fromLatin1(field.of));
    if (QLatin1String{field.of} == "causes") {
      const QString unlisted =
          QString::fromUtf8(learning::kUnlisted.data(), static_cast<qsizetype>(learning::kUnlisted.size()));
      choices.emplace_back(unlisted, nameOf(base, "causes", unlisted));
      choices.emplace_back(kAnyOther, nameOf(base, "causes", kAnyOther));
    }
    edit = new TableEdit{field, std::move(choices), beside_->titles(field), page};
  } else {
    edit = makeFieldEdit(field, page);
  }
  auto* head = new QWidget{page};
  head->setFixedWidth(grown(kLabelWidth));
  auto* names = new QVBoxLayout{head};
  names->setContentsMargins(0, isTable(field) ? 0 : kGrid / 2, 0, 0);
  names->setSpacing(0);
  auto* label = new QLabel{field.label, head};
  label->setWordWrap(true);
  label->setBuddy(edit);
  names->addWidget(label);
  if (!field.help.isEmpty()) {
    auto* help = new QLabel{field.help, head};
    help->setWordWrap(true);
    setRank(help, "small");
    names->addWidget(help);
  }
  names->addStretch(1);
  auto* cell = new QWidget{page};
  cell->setMaximumWidth(grown(kEditWidth));
  auto* stack = new QVBoxLayout{cell};
  stack->setContentsMargins(0, 0, 0, 0);
  stack->setSpacing(kGrid / 4);
  Row row{.field = field,
          .edit = edit,
          .published = words("knowledgePublished." + field.key, "small", cell),
          .record = words("knowledgeRecord." + field.key, "small", cell),
          .problem = words("knowledgeProblem." + field.key, "problem", cell)};
  // What is wrong stands above: a table is higher than the room below it.
  stack->addWidget(row.problem);
  stack->addWidget(edit);
  for (QLabel* each : {row.published, row.record})
    stack->addWidget(each);
  stack->addStretch(1);
  const int at = grid->rowCount();
  grid->addWidget(head, at, 0);
  grid->addWidget(cell, at, 1);
  rows_.push_back(row);
  connect(edit, &FieldEdit::edited, this, [this] {
    if (setting_) return;
    refreshBeside();
    emit edited();
  });
  connect(edit, &FieldEdit::entered, this, &EntryEditor::entered);
  if (auto* made = qobject_cast<TableEdit*>(edit))
    made->setInfo([this, field](const QStringList& each) {
      return beside_ ? beside_->row(field, each) : QStringList{};
    });
}

TableEdit* EntryEditor::table(const QString& key) const {
  for (const Row& row : rows_)
    if (row.field.key == key) return qobject_cast<TableEdit*>(row.edit);
  return nullptr;
}

/// The chances of a test have a column for each outcome.
void EntryEditor::bindTables() {
  TableEdit* const outcomes = table("outcomes");
  TableEdit* const chances = table("likelihood");
  if (outcomes == nullptr || chances == nullptr) return;
  connect(outcomes, &TableEdit::rowAdded, chances, [chances] { chances->addColumn(QString{}); });
  connect(outcomes, &TableEdit::rowTakenOut, chances, [chances](int row) { chances->removeColumn(row); });
  connect(outcomes, &FieldEdit::edited, chances, [outcomes, chances] {
    QStringList titles;
    for (const QStringList& row : outcomes->rows())
      titles << row.value(1);
    if (titles.size() == chances->columns()) chances->setColumns(titles);
  });
}

void EntryEditor::setSheet(const EntrySheet& sheet) {
  setting_ = true;
  if (TableEdit* const chances = table("likelihood")) {
    QStringList titles;
    for (const QStringList& row : rowsOf(sheet, "outcomes"))
      titles << row.value(1);
    chances->setRows({});
    chances->setColumns(titles);
  }
  for (const Row& row : rows_)
    row.edit->setRows(rowsOf(sheet, row.field.key));
  setting_ = false;
  refreshBeside();
}

EntrySheet EntryEditor::sheet() const {
  EntrySheet sheet;
  for (const Row& row : rows_)
    sheet[row.field.key] = row.edit->rows();
  return sheet;
}

void EntryEditor::setTyped(const db::KnowledgeEntry& entry) {
  if (!beside_) return;
  beside_->setTyped(entry);
  refreshBeside();
}

void EntryEditor::refreshBeside() {
  if (!beside_) return;
  for (const Row& row : rows_) {
    tell(row.published, beside_->published(row.field, row.edit->rows()));
    tell(row.record, beside_->record(row.field));
    if (auto* made = qobject_cast<TableEdit*>(row.edit)) made->refreshInfo();
  }
}

void EntryEditor::clearProblems() {
  for (const Row& row : rows_) {
    tell(row.problem, {});
    row.edit->setAccessibleDescription({});
  }
}

bool EntryEditor::showProblem(const Problem& problem) {
  for (const Row& row : rows_) {
    if (row.field.key.toStdString() != problem.field) continue;
    const QString sentence = QString::fromStdString(problem.sentence);
    tell(row.problem, sentence);
    row.edit->setAccessibleDescription(sentence);
    row.edit->start();
    // Once the layout has made room for the sentence.
    QTimer::singleShot(0, this, [this, label = QPointer<QLabel>{row.problem}] {
      if (!label || widget() == nullptr || !widget()->isAncestorOf(label)) return;
      const QPoint top = label->mapTo(widget(), QPoint{});
      ensureVisible(0, top.y() + grown(kSeenBelow), 0, grown(kSeenBelow));
    });
    return true;
  }
  return false;
}

void EntryEditor::start() {
  if (!rows_.empty()) rows_.front().edit->start();
}

}  // namespace secondpull::app
