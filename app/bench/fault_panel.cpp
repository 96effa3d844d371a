#include "app/bench/fault_panel.h"

#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/bench/suggestions.h"
#include "app/parts/look.h"
#include "core/shop/bench.h"

namespace secondpull::app {

FaultPanel::FaultPanel(Session& session, std::function<Date()> day, QWidget* parent)
    : BenchPanel(session, parent),
      day_{std::move(day)},
      rows_{new QVBoxLayout},
      line_row_{new QWidget(this)},
      line_{new QLineEdit(line_row_)},
      hint_{new HintLine(QStringLiteral("fault"), this)} {
  line_->setObjectName(QStringLiteral("faultLine"));
  line_->setAccessibleName(tr("A fault: what it does wrong"));
  rows_->setSpacing(kGrid);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid);
  column->addLayout(rows_);
  auto* row = typedRow(tr("Fault"), QStringLiteral("F9"), line_, line_row_);
  row->setContentsMargins(0, 0, 0, 0);
  line_row_->setLayout(row);
  column->addWidget(line_row_);
  column->addWidget(hint_);
  connect(line_, &QLineEdit::returnPressed, this, &FaultPanel::open);
  connect(line_, &QLineEdit::textEdited, hint_, &HintLine::clearHint);
}

void FaultPanel::start() {
  wanted_ = true;
  line_row_->show();
  line_->setFocus();
  line_->selectAll();
}

void FaultPanel::turned() {
  wanted_ = false;
  line_->clear();
  hint_->clearHint();
  shown_.clear();
}

void FaultPanel::refresh() {
  const auto books = session().books();
  const ByMachine::Lines& lines = books->by_machine().of(machine());
  std::vector<Fault> open;
  for (const Fault* fault : lines.faults)
    if (!fault->ended) open.push_back(*fault);

  // Another fault beside an open one is rare, and what waits below needs the room.
  line_row_->setVisible(open.empty() || wanted_);
  const bool first = lines.faults.empty() && lines.machine != nullptr && !lines.machine->symptom.empty();
  line_->setPlaceholderText(
      first ? tr("Enter opens what it came in with: %1").arg(QString::fromStdString(lines.machine->symptom))
      : open.empty() ? tr("what it does wrong")
                     : tr("another one: what it does wrong"));
  completeFrom(line_, symptomsBefore(*session().shop()));
  if (open == shown_ && rows_->count() == static_cast<int>(open.size())) return;
  shown_ = std::move(open);
  while (QLayoutItem* item = rows_->takeAt(0)) {
    if (QWidget* row = item->widget()) {
      row->hide();
      row->deleteLater();
    }
    delete item;
  }
  int index = 0;
  for (const Fault& fault : shown_)
    rows_->addWidget(faultRow(fault, index++));
}

QWidget* FaultPanel::faultRow(const Fault& fault, int index) {
  auto* box = new QWidget(this);
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid / 2);
  auto* symptom = new QLabel(QString::fromStdString(fault.symptom), box);
  setRank(symptom, "subheading");
  symptom->setWordWrap(true);
  auto* since =
      new QLabel(tr("since %1").arg(QString::fromStdString(shown_short(fault.date, session().today()))), box);
  setRank(since, "small");
  auto* head = new QHBoxLayout;
  head->addWidget(symptom);
  head->addWidget(since);
  head->addStretch(1);
  column->addLayout(head);

  auto* cause = new QLineEdit(QString::fromStdString(fault.cause), box);
  cause->setObjectName(QStringLiteral("faultCause%1").arg(index));
  cause->setAccessibleName(tr("Cause of: %1").arg(QString::fromStdString(fault.symptom)));
  cause->setPlaceholderText(tr("the cause, once you know it"));
  completeFrom(cause, causesBefore(*session().shop()));
  auto* row = new QHBoxLayout;
  row->setSpacing(kGrid);
  row->addWidget(cause, 1);
  const FaultId id = fault.id;
  const auto ending = [&](const QString& text, const char* name, FaultEnd how) {
    auto* button = new QPushButton(text, box);
    button->setObjectName(QStringLiteral("%1%2").arg(QString::fromLatin1(name)).arg(index));
    button->setAccessibleName(tr("%1: %2").arg(text, QString::fromStdString(fault.symptom)));
    connect(button, &QPushButton::clicked, this, [this, id, how, cause] { end(id, how, cause->text()); });
    row->addWidget(button);
  };
  ending(tr("Mended"), "faultMended", FaultEnd::mended);
  ending(tr("Given up"), "faultGivenUp", FaultEnd::given_up);
  ending(tr("Mistaken"), "faultMistaken", FaultEnd::mistaken);
  column->addLayout(row);
  connect(cause, &QLineEdit::returnPressed, this, [this, id, cause] { keepCause(id, cause->text()); });
  return box;
}

void FaultPanel::open() {
  QString symptom = line_->text().trimmed();
  const auto books = session().books();
  const ByMachine::Lines& lines = books->by_machine().of(machine());
  if (symptom.isEmpty() && lines.faults.empty() && lines.machine != nullptr)
    symptom = QString::fromStdString(lines.machine->symptom);
  if (symptom.isEmpty()) return;
  const auto shop = session().shop();
  if (const auto failed =
          session().perform(open_fault(*shop, machine(), day_(), symptom.toStdString(), {}, {})))
    return hint_->problem(*failed);
  wanted_ = false;
  line_->clear();
  hint_->clearHint();
  refresh();
}

void FaultPanel::end(FaultId fault, FaultEnd how, const QString& cause) {
  const auto shop = session().shop();
  if (const auto failed =
          session().perform(end_fault(*shop, fault, day_(), how, cause.trimmed().toStdString())))
    hint_->problem(*failed);
}

void FaultPanel::keepCause(FaultId fault, const QString& cause) {
  const auto shop = session().shop();
  const Fault* known = shop->find(fault);
  if (known == nullptr || known->cause == cause.trimmed().toStdString()) return;
  Fault changed = *known;
  changed.cause = cause.trimmed().toStdString();
  if (const auto failed = session().perform(replace_line(*shop, AnyRecord{changed}))) hint_->problem(*failed);
}

}  // namespace secondpull::app
