#include "app/bench/finish_list.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <QLineEdit>
#include <QListWidget>
#include <QTimer>
#include <QVBoxLayout>

#include "app/bench/numbered_choices.h"
#include "app/bench/symptom_choice.h"
#include "app/parts/edits.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "core/learning/known_work.h"
#include "core/shop/steps.h"

namespace secondpull::app {
namespace {

constexpr int kListHeight = 20 * kGrid;
constexpr int kMostSymptoms = 8;
constexpr int kMillisecondsASecond = 1000;

QString text(const std::string& words) {
  return QString::fromStdString(words);
}

}  // namespace

using planning::FinishItem;

FinishList::FinishList(Session& session, std::function<Date()> day, QWidget* parent)
    : QWidget(parent),
      session_{session},
      day_{std::move(day)},
      title_{heading({}, this)},
      says_{faded({}, this)},
      minutes_{new MinutesEdit(QStringLiteral("minutes"), this)},
      left_{new QLabel(this)},
      choices_{new NumberedChoices(QStringLiteral("finish"), this)},
      note_{new QLineEdit(this)},
      list_{new QListWidget(this)},
      hint_{new HintLine(QStringLiteral("finish"), this)},
      tick_{new QTimer(this)} {
  title_->setObjectName(QStringLiteral("finishTitle"));
  for (QLabel* label : {title_, says_, left_})
    label->setWordWrap(true);
  minutes_->setObjectName(QStringLiteral("testRunMinutes"));
  minutes_->setAccessibleName(tr("Length of the test run"));
  minutes_->setFixedWidth(grown(13 * kGrid));
  minutes_->setValue(Minutes{planning::kTestRunMinutes});
  left_->setObjectName(QStringLiteral("testRunLeft"));
  setRank(left_, "figure");
  note_->setObjectName(QStringLiteral("finishNote"));
  note_->setAccessibleName(tr("In your words"));
  list_->setObjectName(QStringLiteral("finishItems"));
  list_->setAccessibleName(tr("Before the sale"));
  list_->setMinimumHeight(kListHeight);
  list_->setWordWrap(true);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid);
  for (QWidget* each :
       std::initializer_list<QWidget*>{title_, says_, left_, minutes_, choices_, note_, hint_})
    column->addWidget(each);
  auto* all = new QLabel(tr("Before the sale"), this);
  setRank(all, "subheading");
  column->addWidget(all);
  column->addWidget(list_);
  connect(choices_, &NumberedChoices::chosen, this, &FinishList::choose);
  connect(note_, &QLineEdit::returnPressed, this, [this] {
    const QString said = note_->text().trimmed();
    if (said.isEmpty()) return hint_->quiet(tr("Say why it need not be looked at."));
    check("explained", said);
  });
  connect(list_, &QListWidget::itemActivated, this, [this](QListWidgetItem* item) {
    taken_again_ = item->data(Qt::UserRole).toString().toStdString();
    ask(Asks::check);
    show(machine_);
    start();
  });
  connect(tick_, &QTimer::timeout, this, &FinishList::tick);
}

void FinishList::forget() {
  run_since_.reset();
  taken_again_.reset();
  asks_ = Asks::start_run;
  note_->clear();
  hint_->clearHint();
  tick_->stop();
}

const FinishItem* FinishList::current() const {
  if (taken_again_) {
    const auto chosen = std::find_if(items_.begin(), items_.end(),
                                     [this](const FinishItem& each) { return each.step == *taken_again_; });
    if (chosen != items_.end()) return &*chosen;
  }
  const auto open =
      std::find_if(items_.begin(), items_.end(), [](const FinishItem& each) { return each.outcome.empty(); });
  return open == items_.end() ? nullptr : &*open;
}

void FinishList::show(MachineId machine) {
  machine_ = machine;
  const auto books = session_.books();
  items_ = planning::finishing(books->by_machine().of(machine), *session_.knowledge());
  const FinishItem* const item = current();
  if (item == nullptr)
    asks_ = Asks::done;
  else if (item->what == FinishItem::What::work)
    asks_ = Asks::work;
  else if (item->what == FinishItem::What::check)
    asks_ = asks_ == Asks::explain ? Asks::explain : Asks::check;
  else if (asks_ == Asks::work || asks_ == Asks::check || asks_ == Asks::explain || asks_ == Asks::done)
    asks_ = Asks::start_run;
  showItems();
  showAsked();
}

void FinishList::showItems() {
  list_->clear();
  for (const FinishItem& item : items_) {
    const QString name = item.must ? tr("%1 (must)").arg(text(item.name)) : text(item.name);
    auto* row = new QListWidgetItem(
        item.outcome.empty() ? tr("still to do: %1").arg(name) : tr("%1: %2").arg(text(item.outcome), name),
        list_);
    row->setData(Qt::UserRole, text(item.step));
    if (const FinishItem* now = current(); now != nullptr && now->step == item.step)
      list_->setCurrentItem(row);
  }
}

void FinishList::showAsked() {
  using Choice = NumberedChoices::Choice;
  const FinishItem* const item = current();
  const bool running = asks_ == Asks::run;
  left_->setVisible(running);
  minutes_->setVisible(asks_ == Asks::start_run);
  note_->setVisible(asks_ == Asks::explain);
  const auto put = [this](const QString& title, const QString& says, const std::vector<Choice>& choices) {
    title_->setText(title);
    says_->setText(says);
    says_->setVisible(!says.isEmpty());
    choices_->setChoices(choices);
  };
  switch (asks_) {
    case Asks::work:
      return put(item != nullptr ? text(item->name) : QString{},
                 tr("Seen when it came in, and not done yet."),
                 {{tr("Done"), {}}, {tr("Leave it"), tr("it is sold so")}});
    case Asks::start_run:
      return put(tr("Test run"),
                 tr("Outdoors, never in the garage: the exhaust carries carbon monoxide. Start it warm and "
                    "cold, and let "
                    "it cut if it can. The clock runs with it."),
                 {{tr("Start the test run"), {}},
                  {tr("It was run already: it ran through"), {}},
                  {tr("It was run already: it died"), {}}});
    case Asks::run:
      tick();
      return put(tr("Test run"), {}, {{tr("It ran through"), {}}, {tr("It died"), {}}});
    case Asks::trouble:
      return put(
          tr("It died. Same trouble, or a new one?"), tr("Same: the last repair counts as failed."),
          {{tr("Same trouble"), tr("the fault is open again")}, {tr("A new one"), tr("say what it does")}});
    case Asks::symptom: {
      std::vector<Choice> choices;
      for (const QString& name : symptoms_)
        choices.push_back({name, {}});
      return put(tr("What does it do now?"), {}, choices);
    }
    case Asks::check:
      return put(item != nullptr ? text(item->name) : QString{},
                 item != nullptr && item->must ? tr("A must: failed, it does not go for sale as running.")
                                               : QString{},
                 {{tr("Passed"), {}},
                  {tr("Failed"), {}},
                  {tr("Explain instead"), tr("why it need not be looked at")}});
    case Asks::explain:
      note_->setPlaceholderText(tr("why it need not be looked at; Enter keeps it"));
      return put(item != nullptr ? text(item->name) : QString{}, {}, {});
    case Asks::done: {
      const bool failed = std::any_of(items_.begin(), items_.end(), [](const FinishItem& each) {
        return each.must && each.outcome == kFailed;
      });
      return put(failed ? tr("A must has failed") : tr("Ready for sale"),
                 failed ? tr("It may go as is, or as running once that is put right and passed.")
                        : tr("It ran, and everything was looked at."),
                 {{failed ? tr("Put it for sale as is") : tr("Put it for sale"), {}}});
    }
  }
}

bool FinishList::press(int number) {
  return choices_->press(number);
}

void FinishList::start() {
  if (asks_ == Asks::explain)
    note_->setFocus();
  else
    choices_->start();
}

void FinishList::choose(int index) {
  switch (asks_) {
    case Asks::work:
      return work(index == 0);
    case Asks::start_run:
      if (index == 0) return startRun();
      return index == 1 ? endRun(true) : ask(Asks::trouble);
    case Asks::run:
      return index == 0 ? endRun(true) : ask(Asks::trouble);
    case Asks::trouble:
      if (index == 0) return endRun(false);
      symptoms_ = SymptomChoice::symptomsFor(session_, machine_).mid(0, kMostSymptoms);
      return ask(Asks::symptom);
    case Asks::symptom: {
      const auto shop = session_.shop();
      if (perform(new_trouble(*shop, run(kDied), symptoms_[index].toStdString()))) runIsOver();
      return;
    }
    case Asks::check:
      if (index == 2) {
        ask(Asks::explain);
        return start();
      }
      return check(std::string{index == 0 ? kPassed : kFailed}, {});
    case Asks::explain:
      return;
    case Asks::done:
      emit wantsSale();
  }
}

void FinishList::startRun() {
  if (const auto wrong = minutes_->problem()) return hint_->problem(*wrong);
  // What the clock counted before is work of its own.
  const auto clock = session_.clock();
  if (clock && clock->machine == machine_)
    if (const auto failed = session_.stopClock(Work::repair)) return hint_->problem(*failed);
  if (!session_.clock())
    if (const auto failed = session_.startClock(machine_)) return hint_->problem(*failed);
  run_since_ = session_.now();
  tick_->start(kMillisecondsASecond);
  ask(Asks::run);
}

void FinishList::tick() {
  if (!run_since_) return;
  const auto ran = std::chrono::floor<std::chrono::seconds>(session_.now() - *run_since_);
  const auto whole =
      std::chrono::minutes{minutes_->value().value_or(Minutes{planning::kTestRunMinutes}).count};
  const auto left =
      std::max(std::chrono::seconds{0}, std::chrono::duration_cast<std::chrono::seconds>(whole - ran));
  constexpr int kSixty = 60;
  left_->setText(
      left.count() == 0
          ? tr("Its time is up. Did it run through?")
          : tr("%1:%2 to go").arg(left.count() / kSixty).arg(left.count() % kSixty, 2, 10, QLatin1Char{'0'}));
}

NewFinding FinishList::run(std::string_view outcome) const {
  NewFinding run;
  run.machine = machine_;
  run.date = day_();
  run.step = kTestRun;
  run.outcome = outcome;
  run.work = Work::test_run;
  if (run_since_) {
    const auto ran = std::chrono::round<std::chrono::minutes>(session_.now() - *run_since_);
    run.minutes = Minutes{std::max<std::int64_t>(1, ran.count())};
  } else {
    run.minutes = minutes_->value();
  }
  run.labour = run.minutes;
  return run;
}

void FinishList::endRun(bool ran_through) {
  const auto shop = session_.shop();
  if (perform(ran_through ? record_finding(*shop, run(kRanThrough)) : same_trouble(*shop, run(kDied))))
    runIsOver();
}

/// Its minutes are logged with what came of it: the clock that ran along counts them no more.
void FinishList::runIsOver() {
  const auto clock = session_.clock();
  if (run_since_ && clock && clock->machine == machine_) session_.discardClock();
  run_since_.reset();
  tick_->stop();
  asks_ = Asks::start_run;
  show(machine_);
}

void FinishList::check(const std::string& outcome, const QString& note) {
  const FinishItem* const item = current();
  if (item == nullptr) return;
  const std::string step = item->step;
  const auto again = std::exchange(taken_again_, std::nullopt);
  const Asks asked = std::exchange(asks_, Asks::check);
  if (perform(record_check(*session_.shop(), machine_, day_(), step, outcome, note.toStdString())))
    return note_->clear();
  taken_again_ = again;
  asks_ = asked;
}

void FinishList::work(bool done) {
  const FinishItem* const item = current();
  if (item == nullptr) return;
  const learning::PieceOfWork* const known = session_.knowledge()->knowledge.piece_of_work(item->step);
  NewFinding finding;
  finding.machine = machine_;
  finding.date = day_();
  finding.step = item->step;
  finding.outcome = done ? std::string{learning::kSaysDone} : "left";
  finding.work = Work::service;
  if (done && known != nullptr)
    finding.minutes = finding.labour = Minutes{std::llround(known->minutes.typical)};
  taken_again_.reset();
  perform(record_finding(*session_.shop(), finding));
}

bool FinishList::perform(Result<Change> change) {
  if (const auto failed = session_.perform(std::move(change))) {
    hint_->problem(*failed);
    return false;
  }
  hint_->clearHint();
  return true;
}

}  // namespace secondpull::app
