#include "app/yard/spent_rows.h"

#include <algorithm>
#include <map>

#include <QCompleter>
#include <QGridLayout>
#include <QJsonObject>
#include <QLabel>
#include <QLineEdit>

#include "app/frame/session.h"
#include "app/parts/edits.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

enum Column { kAmount, kCategory, kNote };

}  // namespace

QStringList usedCategories(const Session& session) {
  std::map<std::string, int> counts;
  const auto shop = session.shop();
  for (const Expense& expense : shop->all<Expense>())
    ++counts[expense.category];
  std::vector<std::pair<std::string, int>> ordered(counts.begin(), counts.end());
  std::stable_sort(ordered.begin(), ordered.end(),
                   [](const auto& a, const auto& b) { return a.second > b.second; });
  QStringList names;
  for (const auto& [name, count] : ordered)
    names.push_back(QString::fromStdString(name));
  if (names.isEmpty())
    names = {SpentRows::tr("oil and cleaner"), SpentRows::tr("tools"), SpentRows::tr("advertising"),
             SpentRows::tr("dump fees"), SpentRows::tr("office")};
  return names;
}

struct SpentRows::Impl : public QObject {
  Impl(Session& session_in, SpentRows* rows_in) : QObject(rows_in), session{session_in}, rows{rows_in} {}
  struct Row {
    MoneyEdit* amount;
    QLineEdit* category;
    QLineEdit* note;
    std::vector<QWidget*> widgets() const { return {amount, category, note}; }
    bool isBlank() const {
      return amount->isBlank() && category->text().trimmed().isEmpty() && note->text().trimmed().isEmpty();
    }
  };
  Session& session;
  SpentRows* rows;
  QGridLayout* grid = nullptr;
  std::vector<Row> lines;
  QWidget* before = nullptr;  ///< in the order of Tab
  int widget_rows = 1;        // the grid's next row, the head being row 0

  void addRow();
};

void SpentRows::Impl::addRow() {
  const auto index = lines.size();
  const auto named = [&](const char* what) {
    return QStringLiteral("%1%2").arg(QLatin1String{what}).arg(index);
  };
  Row row{.amount = new MoneyEdit{named("spentAmount"), session.currency(), rows},
          .category = new QLineEdit{rows},
          .note = new QLineEdit{rows}};
  row.category->setObjectName(named("spentCategory"));
  row.note->setObjectName(named("spentNote"));
  row.amount->setAccessibleName(tr("Money spent, line %1").arg(index + 1));
  row.category->setAccessibleName(tr("Kind of cost, line %1").arg(index + 1));
  row.note->setAccessibleName(tr("Where or what, line %1").arg(index + 1));
  row.category->setPlaceholderText(tr("oil, tools, …"));
  auto* completer = new QCompleter{usedCategories(session), row.category};
  completer->setCaseSensitivity(Qt::CaseInsensitive);
  completer->setFilterMode(Qt::MatchContains);
  row.category->setCompleter(completer);
  int column = kAmount;
  QWidget* last = lines.empty() ? before : lines.back().note;
  for (QWidget* widget : row.widgets()) {
    grid->addWidget(widget, widget_rows, column++);
    widget->show();
    if (last != nullptr) QWidget::setTabOrder(last, widget);
    last = widget;
  }
  ++widget_rows;
  lines.push_back(row);
  for (QLineEdit* edit : {static_cast<QLineEdit*>(row.amount), row.category, row.note})
    connect(edit, &QLineEdit::textChanged, this, [this] {
      if (!lines.back().isBlank()) addRow();
      emit rows->edited();
    });
}

SpentRows::SpentRows(Session& session, QWidget* parent) : QWidget(parent), impl_{new Impl{session, this}} {
  setObjectName("spentRows");
  setAccessibleName(tr("Money spent"));
  impl_->grid = new QGridLayout{this};
  QGridLayout& grid = *impl_->grid;
  grid.setContentsMargins(0, 0, 0, 0);
  grid.setHorizontalSpacing(2 * kGrid);
  grid.setVerticalSpacing(kGrid / 2);
  const QStringList heads{tr("Spent"), tr("Kind of cost"), tr("Where or what")};
  for (int column = kAmount; column <= kNote; ++column) {
    auto* label = new QLabel{heads[column], this};
    setRank(label, "small");
    grid.addWidget(label, 0, column);
  }
  grid.setColumnStretch(kAmount, 1);
  grid.setColumnStretch(kCategory, 1);
  grid.setColumnStretch(kNote, 2);
  impl_->addRow();
}

SpentRows::~SpentRows() = default;

void SpentRows::clear() {
  for (const Impl::Row& row : impl_->lines)
    for (QWidget* widget : row.widgets()) {
      widget->disconnect(impl_);
      widget->hide();
      widget->deleteLater();
    }
  impl_->lines.clear();
  impl_->addRow();
}

std::vector<EveningExpense> SpentRows::expenses() const {
  std::vector<EveningExpense> all;
  for (const Impl::Row& row : impl_->lines)
    if (!row.isBlank())
      all.push_back({.category = row.category->text().trimmed().toStdString(),
                     .amount = row.amount->value().value_or(Money{}),
                     .note = row.note->text().trimmed().toStdString()});
  return all;
}

std::optional<Problem> SpentRows::problem() const {
  for (const Impl::Row& row : impl_->lines)
    if (auto wrong = row.amount->problem()) {
      row.amount->markProblem();
      row.amount->setFocus();
      return wrong;
    }
  return std::nullopt;
}

void SpentRows::setTabAfter(QWidget* field) {
  impl_->before = field;
  QWidget* last = field;
  for (const Impl::Row& row : impl_->lines)
    for (QWidget* widget : row.widgets()) {
      QWidget::setTabOrder(last, widget);
      last = widget;
    }
}

QJsonArray SpentRows::draft() const {
  QJsonArray all;
  for (const Impl::Row& row : impl_->lines)
    if (!row.isBlank())
      all.append(QJsonObject{
          {"amount", row.amount->text()}, {"category", row.category->text()}, {"note", row.note->text()}});
  return all;
}

void SpentRows::restore(const QJsonArray& draft) {
  clear();
  for (const auto& entry : draft) {
    const QJsonObject kept = entry.toObject();
    const Impl::Row row = impl_->lines.back();  // filling it in adds the next one
    row.amount->setText(kept["amount"].toString());
    row.category->setText(kept["category"].toString());
    row.note->setText(kept["note"].toString());
  }
}

}  // namespace secondpull::app
