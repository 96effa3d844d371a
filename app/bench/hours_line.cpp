#include "app/bench/hours_line.h"

#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QTimer>
#include <QVBoxLayout>

#include "app/bench/quick_lines.h"
#include "app/parts/look.h"
#include "core/shop/bench.h"

namespace secondpull::app {
namespace {

constexpr int kTickMilliseconds = 10'000;

QString wordOf(Work work) {
  const std::string_view text = word(work);
  return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

}  // namespace

HoursLine::HoursLine(Session& session, std::function<Date()> day, QWidget* parent)
    : BenchPanel(session, parent),
      day_{std::move(day)},
      line_{new QLineEdit(this)},
      clock_{new QPushButton(this)},
      hint_{new HintLine(QStringLiteral("labour"), this)},
      tick_{new QTimer(this)} {
  line_->setObjectName(QStringLiteral("labourLine"));
  line_->setAccessibleName(tr("Hours by hand"));
  line_->setPlaceholderText(tr("1h20 repair"));
  clock_->setObjectName(QStringLiteral("clockButton"));
  clock_->setToolTip(tr("Number pad +, or Ctrl+T"));
  QHBoxLayout* row = typedRow(tr("Hours"), QStringLiteral("F6"), line_, this);
  row->addWidget(clock_);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid / 2);
  column->addLayout(row);
  column->addWidget(hint_);
  tick_->setInterval(kTickMilliseconds);
  connect(tick_, &QTimer::timeout, this, &HoursLine::showClock);
  connect(clock_, &QPushButton::clicked, this, &HoursLine::toggleClock);
  connect(line_, &QLineEdit::textChanged, this, [this] {
    explain();
    showClock();
  });
  connect(line_, &QLineEdit::returnPressed, this, &HoursLine::save);
  connect(&session, &Session::clockChanged, this, &HoursLine::showClock);
}

void HoursLine::start() {
  line_->setFocus();
  line_->selectAll();
}

void HoursLine::turned() {
  line_->clear();
  hint_->clearHint();
}

void HoursLine::refresh() {
  explain();
  showClock();
}

bool HoursLine::clockRunsHere() const {
  const auto clock = session().clock();
  return clock && clock->machine == machine();
}

Work HoursLine::typedWork() const {
  const auto alone = readLabour(QStringLiteral("1m ") + line_->text(), Work::repair);
  return alone ? alone->work : Work::repair;
}

void HoursLine::showClock() {
  if (!clockRunsHere()) {
    tick_->stop();
    clock_->setText(tr("Start the clock"));
    clock_->setAccessibleName(tr("Start the clock on this machine"));
    setRank(clock_, "plain");
    return;
  }
  tick_->start();
  const Minutes minutes = session().clockMinutes();
  clock_->setText(tr("Stop: %1 of %2").arg(QString::fromStdString(shown(minutes)), wordOf(typedWork())));
  clock_->setAccessibleName(tr("Stop the clock and log its time as %1").arg(wordOf(typedWork())));
  setRank(clock_, "first");
}

void HoursLine::toggleClock() {
  const auto failed = clockRunsHere() ? session().stopClock(typedWork()) : session().startClock(machine());
  if (failed) return hint_->problem(*failed);
  if (!clockRunsHere()) line_->clear();
  showClock();
}

void HoursLine::explain() {
  const QString text = line_->text();
  hint_->careFor({});
  if (text.trimmed().isEmpty()) return hint_->clearHint();
  const auto read = readLabour(text, Work::repair);
  if (!read) {
    const bool only_work = clockRunsHere();
    return hint_->quiet(only_work ? tr("The clock will be logged as %1.").arg(wordOf(typedWork()))
                                  : tr("How long, then what it was: 1h20 repair."));
  }
  hint_->careFor(read->note + u' ' + (read->work == Work::test_run ? wordOf(read->work) : QString{}));
  const QString logs =
      tr("Enter logs %1 of %2").arg(QString::fromStdString(shown(read->minutes)), wordOf(read->work));
  hint_->quiet(read->note.isEmpty() ? tr("%1.").arg(logs) : tr("%1: %2.").arg(logs, read->note));
}

void HoursLine::save() {
  const auto read = readLabour(line_->text(), Work::repair);
  if (!read) return hint_->problem(read.error());
  const auto shop = session().shop();
  if (const auto failed = session().perform(
          log_labour(*shop, machine(), day_(), read->minutes, read->work, read->note.toStdString())))
    return hint_->problem(*failed);
  turned();
}

}  // namespace secondpull::app
