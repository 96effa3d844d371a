#include "app/bench/machine_list.h"

#include <algorithm>

#include <QKeyEvent>
#include <QLineEdit>
#include <QVBoxLayout>

#include "app/frame/session.h"
#include "app/parts/form.h"
#include "app/parts/look.h"
#include "app/parts/tag_delegate.h"

namespace secondpull::app {
namespace {

/// Tags that are whole numbers in order of number, before the others in order of text.
bool tagBefore(const std::string& a, const std::string& b) {
  bool a_is_number = false, b_is_number = false;
  const qlonglong a_number = QString::fromStdString(a).toLongLong(&a_is_number);
  const qlonglong b_number = QString::fromStdString(b).toLongLong(&b_is_number);
  if (a_is_number != b_is_number) return a_is_number;
  return a_is_number && a_number != b_number ? a_number < b_number : a < b;
}

}  // namespace

std::vector<MachineId> MachineList::here(const Session& session) {
  const auto books = session.books();
  std::vector<const Machine*> machines;
  for (const MachineFigures& figures : books->machines())
    if (is_here(figures.stage))
      if (const Machine* machine = books->shop().find(figures.machine)) machines.push_back(machine);
  std::stable_sort(machines.begin(), machines.end(),
                   [](const Machine* a, const Machine* b) { return tagBefore(a->tag, b->tag); });
  std::vector<MachineId> ids;
  for (const Machine* machine : machines)
    ids.push_back(machine->id);
  return ids;
}

MachineList::MachineList(Session& session, QWidget* parent)
    : QWidget(parent),
      session_{session},
      filter_{new QLineEdit(this)},
      table_{new DataTable(session, QStringLiteral("bench.machines"), this)} {
  filter_->setObjectName(QStringLiteral("machineFilter"));
  filter_->setAccessibleName(tr("Which machine"));
  filter_->setPlaceholderText(tr("a tag, a model, what is wrong with it"));
  table_->setObjectName(QStringLiteral("machineList"));
  table_->setAccessibleName(tr("Machines here"));
  const Session* shop = &session;
  model_ = new RowModel<Row>(
      {{.key = "tag",
        .title = tr("Tag"),
        .text = [](const Row& row) { return row.tag; },
        .sort =
            [](const Row& row) {
              bool whole = false;
              const qlonglong number_of_tag = row.tag.toLongLong(&whole);
              return whole ? QVariant{number_of_tag} : QVariant{row.tag};
            }},
       {.key = "machine", .title = tr("Machine"), .text = [](const Row& row) { return row.name; }},
       {.key = "standing",
        .title = tr("Where it stands"),
        .text = [](const Row& row) { return row.standing; }},
       {.key = "days",
        .title = tr("Days here"),
        .text = [](const Row& row) { return QString::number(row.days); },
        .sort = [](const Row& row) { return QVariant{row.days}; },
        .number = true},
       {.key = "money",
        .title = tr("Money in"),
        .text = [shop](const Row& row) { return shop->money(row.cost); },
        .sort = [](const Row& row) { return QVariant::fromValue<qlonglong>(row.cost.minor()); },
        .number = true},
       {.key = "hours",
        .title = tr("Hours in"),
        .text = [](const Row& row) { return QString::fromStdString(shown(row.minutes)); },
        .sort = [](const Row& row) { return QVariant::fromValue<qlonglong>(row.minutes.count); },
        .number = true}},
      this);
  table_->setRowModel(model_);
  table_->setItemDelegateForColumn(0, new TagDelegate{table_});
  table_->sortBy(QStringLiteral("tag"), Qt::DescendingOrder);

  auto* nothing = new EmptyState(
      QStringLiteral("bench"), tr("Here one machine at a time is worked on. There is none on the place yet."),
      tr("Log a machine"), this);
  empty_ = nothing;
  full_ = new QWidget(this);
  auto* column = new QVBoxLayout(full_);
  column->setContentsMargins(3 * kGrid, 3 * kGrid, 3 * kGrid, kGrid);
  column->setSpacing(kGrid);
  column->addWidget(heading(tr("Which machine goes on the bench?"), full_));
  column->addWidget(filter_);
  column->addWidget(table_, 1);
  auto* outer = new QVBoxLayout(this);
  outer->setContentsMargins(0, 0, 0, 0);
  outer->addWidget(full_);
  outer->addWidget(empty_);

  connect(nothing, &EmptyState::stepTaken, this, &MachineList::wantsLogging);
  connect(filter_, &QLineEdit::textChanged, table_, &DataTable::setFilterText);
  connect(filter_, &QLineEdit::returnPressed, this, [this] {
    if (const int row = table_->currentSourceRow(); row >= 0)
      emit picked(model_->row(row).machine);
    else
      table_->setFocus();
  });
  connect(table_, &DataTable::opened, this, [this](int row) { emit picked(model_->row(row).machine); });
}

void MachineList::start() {
  filter_->setFocus();
  filter_->selectAll();
}

void MachineList::refresh() {
  const auto books = session_.books();
  std::vector<Row> rows;
  for (const MachineId id : here(session_)) {
    const ByMachine::Lines& lines = books->by_machine().of(id);
    const MachineFigures* figures = books->machine(id);
    rows.push_back({id, session_.tagOf(id), session_.nameOf(id),
                    QString::fromStdString(standing(books->shop(), lines, session_.today())),
                    days_between(here_since(lines), session_.today()), figures->cost_basis,
                    figures->minutes});
  }
  full_->setVisible(!rows.empty());
  empty_->setVisible(rows.empty());
  model_->setRows(std::move(rows));
}

}  // namespace secondpull::app
