#include "app/bench/finding_line.h"

#include <algorithm>
#include <array>

#include <QComboBox>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/bench/suggestions.h"
#include "app/parts/edits.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "core/shop/bench.h"

namespace secondpull::app {
namespace {

bool beginsAWord(const QString& text, QStringView stem) {
  return text.startsWith(stem) || text.contains(QStringLiteral(" ") + stem.toString());
}

}  // namespace

Work workOfStep(const QString& step) {
  const QString text = step.toLower();
  const auto any = [&](std::initializer_list<const char16_t*> stems) {
    return std::any_of(stems.begin(), stems.end(),
                       [&](const char16_t* stem) { return beginsAWord(text, QStringView{stem}); });
  };
  if (any({u"test run", u"test-run", u"trial"})) return Work::test_run;
  if (any({u"test", u"check", u"measure", u"look", u"try", u"find"})) return Work::diagnose;
  if (any({u"fit", u"replace", u"swap", u"mend", u"repair", u"rebuild", u"adjust", u"weld", u"free",
           u"tighten", u"clean carb", u"clean the carb"}))
    return Work::repair;
  if (any({u"oil", u"grease", u"sharpen", u"service"})) return Work::service;
  if (any({u"clean", u"wash", u"scrape"})) return Work::clean;
  return Work::diagnose;
}

FindingLine::FindingLine(Session& session, std::function<Date()> day, QWidget* parent)
    : BenchPanel(session, parent),
      day_{std::move(day)},
      step_{new QLineEdit(this)},
      outcome_{new QLineEdit(this)},
      minutes_{new MinutesEdit(QStringLiteral("minutes"), this)},
      more_{new QPushButton(tr("More"), this)},
      more_row_{new QWidget(this)},
      reading_{new QLineEdit(more_row_)},
      unit_{new QLineEdit(more_row_)},
      cost_{new MoneyEdit(QStringLiteral("cost"), session.currency(), more_row_)},
      fault_{new QComboBox(more_row_)},
      note_{new QLineEdit(more_row_)},
      hint_{new HintLine(QStringLiteral("finding"), this)} {
  const auto named = [](QLineEdit* field, const char* name, const QString& says, const QString& inside) {
    field->setObjectName(QString::fromLatin1(name));
    field->setAccessibleName(says);
    field->setPlaceholderText(inside);
  };
  named(step_, "findingStep", tr("Step done"), tr("what you did"));
  named(outcome_, "findingOutcome", tr("What came of it"), tr("what came of it"));
  named(minutes_, "findingMinutes", tr("Minutes it took"), tr("how long"));
  named(reading_, "findingReading", tr("Reading"), tr("reading"));
  named(unit_, "findingUnit", tr("Unit of the reading"), tr("unit"));
  named(cost_, "findingCost", tr("Outside work paid for"), tr("paid to others"));
  named(note_, "findingNote", tr("Note"), tr("note"));
  fault_->setObjectName(QStringLiteral("findingFault"));
  fault_->setAccessibleName(tr("Which fault it is about"));
  more_->setObjectName(QStringLiteral("findingMore"));
  more_->setAccessibleName(tr("More about this step: reading, outside work, fault, note"));
  more_->setCheckable(true);
  setRank(more_, "quiet");

  QHBoxLayout* row = typedRow(tr("Step"), QStringLiteral("F5"), step_, this);
  row->addWidget(outcome_, 1);
  minutes_->setFixedWidth(grown(12 * kGrid));
  row->addWidget(minutes_);
  row->addWidget(more_);

  auto* extra = new QHBoxLayout(more_row_);
  extra->setContentsMargins(grown(kLabelWidth * kGrid) + kGrid, 0, 0, 0);
  extra->setSpacing(kGrid);
  reading_->setFixedWidth(grown(10 * kGrid));
  unit_->setFixedWidth(grown(8 * kGrid));
  cost_->setFixedWidth(grown(14 * kGrid));
  extra->addWidget(reading_);
  extra->addWidget(unit_);
  extra->addWidget(cost_);
  extra->addWidget(fault_, 1);
  extra->addWidget(note_, 1);
  more_row_->hide();

  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid / 2);
  column->addLayout(row);
  column->addWidget(more_row_);
  column->addWidget(hint_);

  connect(more_, &QPushButton::toggled, this, [this](bool on) {
    more_row_->setVisible(on);
    if (on) reading_->setFocus();
  });
  connect(step_, &QLineEdit::textChanged, this, &FindingLine::explain);
  connect(outcome_, &QLineEdit::textChanged, this, &FindingLine::explain);
  connect(minutes_, &QLineEdit::textChanged, this, &FindingLine::explain);
  connect(step_, &QLineEdit::editingFinished, this,
          [this] { completeFrom(outcome_, outcomesBefore(*this->session().shop(), step_->text())); });
  connect(step_, &QLineEdit::returnPressed, this, [this] {
    if (outcome_->text().trimmed().isEmpty())
      outcome_->setFocus();
    else
      save();
  });
  for (QLineEdit* field :
       {outcome_, static_cast<QLineEdit*>(minutes_), reading_, unit_, static_cast<QLineEdit*>(cost_), note_})
    connect(field, &QLineEdit::returnPressed, this, &FindingLine::save);
}

void FindingLine::start() {
  step_->setFocus();
  step_->selectAll();
}

void FindingLine::turned() {
  for (QLineEdit* field : {step_, outcome_, static_cast<QLineEdit*>(minutes_), reading_, unit_,
                           static_cast<QLineEdit*>(cost_), note_})
    field->clear();
  more_->setChecked(false);
  hint_->clearHint();
}

void FindingLine::refresh() {
  completeFrom(step_, stepsBefore(*session().shop()));
  const QVariant chosen = fault_->currentData();
  fault_->clear();
  fault_->addItem(tr("about no fault"), QVariant{});
  int latest = 0;
  for (const Fault* fault : session().books()->by_machine().of(machine()).faults) {
    if (fault->ended) continue;
    fault_->addItem(tr("about: %1").arg(QString::fromStdString(fault->symptom)),
                    QVariant::fromValue(number(fault->id)));
    latest = fault_->count() - 1;
  }
  const int again = chosen.isValid() ? fault_->findData(chosen) : -1;
  fault_->setCurrentIndex(again >= 0 ? again : latest);
  explain();
}

bool FindingLine::clockRunsHere() const {
  const auto clock = session().clock();
  return clock && clock->machine == machine();
}

std::optional<FaultId> FindingLine::fault() const {
  const QVariant chosen = fault_->currentData();
  return chosen.isValid() ? std::optional{static_cast<FaultId>(chosen.toLongLong())} : std::nullopt;
}

void FindingLine::explain() {
  const QString step = step_->text();
  hint_->careFor(step);
  const auto minutes = minutes_->value();
  if (step.trimmed().isEmpty() || !minutes) {
    hint_->clearHint();
  } else if (clockRunsHere()) {
    hint_->quiet(tr("The clock counts these hours already: the minutes are kept with the step alone."));
  } else {
    const std::string_view work = word(workOfStep(step));
    hint_->quiet(tr("%1 logged as %2 with it.")
                     .arg(QString::fromStdString(shown(*minutes)),
                          QString::fromUtf8(work.data(), static_cast<qsizetype>(work.size()))));
  }
}

void FindingLine::save() {
  if (const auto wrong = minutes_->problem()) return hint_->problem(*wrong);
  if (const auto wrong = cost_->problem()) return hint_->problem(*wrong);
  NewFinding finding;
  finding.machine = machine();
  finding.date = day_();
  finding.step = step_->text().trimmed().toStdString();
  finding.outcome = outcome_->text().trimmed().toStdString();
  finding.fault = fault();
  finding.minutes = minutes_->value();
  if (!clockRunsHere()) finding.labour = finding.minutes;
  finding.work = workOfStep(step_->text());
  finding.cost = cost_->value().value_or(Money{});
  finding.reading = reading_->text().trimmed().toStdString();
  finding.unit = unit_->text().trimmed().toStdString();
  finding.note = note_->text().trimmed().toStdString();
  const auto shop = session().shop();
  if (const auto failed = session().perform(record_finding(*shop, finding))) return hint_->problem(*failed);
  turned();
  step_->setFocus();
}

}  // namespace secondpull::app
