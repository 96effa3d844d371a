#include "app/frame/history_page.h"

#include <QDateTime>
#include <QHBoxLayout>
#include <QLocale>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/frame/session.h"
#include "app/parts/data_table.h"
#include "app/parts/form.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

using Row = db::HistoryEntry;

QDateTime local(db::Instant at) {
  return QDateTime::fromMSecsSinceEpoch(at.time_since_epoch().count());
}

QString state(const Row& row) {
  if (row.undone) return HistoryPage::tr("taken back, can be done again");
  if (!row.undoable) return HistoryPage::tr("can no longer be taken back");
  return row.this_sitting ? QString{} : HistoryPage::tr("from an earlier sitting");
}

std::vector<TableColumn<Row>> columns() {
  return {
      {.key = "at",
       .title = HistoryPage::tr("When"),
       .text = [](const Row& row) { return QLocale::c().toString(local(row.at), "d MMM yyyy, HH:mm"); },
       .sort = [](const Row& row) { return QVariant{static_cast<qlonglong>(row.id)}; }},
      {.key = "title",
       .title = HistoryPage::tr("What was done"),
       .text = [](const Row& row) { return QString::fromStdString(row.title); }},
      {.key = "state", .title = HistoryPage::tr("Now"), .text = state},
  };
}

}  // namespace

struct HistoryPage::Impl : public QObject {
  explicit Impl(QObject* parent) : QObject(parent), model{columns(), this} {}
  RowModel<Row> model;
  DataTable* table = nullptr;
  QPushButton* undo = nullptr;
  QPushButton* redo = nullptr;
  QWidget* nothing = nullptr;
};

HistoryPage::HistoryPage(Session& session, QWidget* parent) : Page(session, parent), impl_{new Impl{this}} {
  setObjectName("page.History");
  auto* layout = new QVBoxLayout{this};
  layout->setContentsMargins(3 * kGrid, 2 * kGrid, 3 * kGrid, 2 * kGrid);
  layout->setSpacing(2 * kGrid);
  auto* head = new QHBoxLayout;
  head->addWidget(heading(tr("What was done"), this), 1);
  impl_->undo = new QPushButton{icon("undo"), tr("Take back the last"), this};
  impl_->undo->setObjectName("undo");
  impl_->undo->setToolTip("Ctrl+Z");
  impl_->redo = new QPushButton{icon("redo"), tr("Do it again"), this};
  impl_->redo->setObjectName("redo");
  impl_->redo->setToolTip("Ctrl+Shift+Z");
  head->addWidget(impl_->undo);
  head->addWidget(impl_->redo);
  layout->addLayout(head);
  impl_->nothing = new EmptyState{
      "history", tr("Nothing was done yet. Every action will stand here, newest first."), {}, this};
  layout->addWidget(impl_->nothing, 1);
  impl_->table = new DataTable{session, "frame.history", this};
  impl_->table->setAccessibleName(tr("What was done"));
  impl_->table->setRowModel(&impl_->model);
  impl_->table->sortBy("at", Qt::DescendingOrder);
  layout->addWidget(impl_->table, 1);
  connect(impl_->undo, &QPushButton::clicked, this, &HistoryPage::wantsUndo);
  connect(impl_->redo, &QPushButton::clicked, this, &HistoryPage::wantsRedo);
}

void HistoryPage::refresh(const std::vector<AnyId>&) {
  if (isVisible()) showHistory();
}

void HistoryPage::start() {
  impl_->table->setFocus();
}

void HistoryPage::showEvent(QShowEvent* event) {
  Page::showEvent(event);
  showHistory();
}

void HistoryPage::showHistory() {
  std::vector<Row> rows = session().history();
  const auto is = [&rows](auto&& what) { return std::any_of(rows.begin(), rows.end(), what); };
  impl_->undo->setEnabled(is([](const Row& row) { return !row.undone && row.undoable; }));
  impl_->redo->setEnabled(is([](const Row& row) { return row.undone; }));
  impl_->nothing->setVisible(rows.empty());
  impl_->undo->setVisible(!rows.empty());
  impl_->redo->setVisible(!rows.empty());
  impl_->table->setVisible(!rows.empty());
  impl_->model.setRows(std::move(rows));
  impl_->table->selectSourceRow(0);
}

}  // namespace secondpull::app
