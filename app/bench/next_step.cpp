#include "app/bench/next_step.h"

#include <algorithm>
#include <cmath>

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/bench/chances_view.h"
#include "app/bench/numbered_choices.h"
#include "app/bench/reading_row.h"
#include "app/bench/shelf_choice.h"
#include "app/bench/step_words.h"
#include "app/parts/edits.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "core/decision/why.h"
#include "core/learning/tries.h"
#include "core/planning/forecast.h"
#include "core/planning/names.h"

namespace secondpull::app {
namespace {

using decision::Move;
using decision::NamedMove;

constexpr std::size_t kMostOthers = 8;
constexpr int kAmountWidth = 13 * kGrid;

QString text(const std::string& words) {
  return QString::fromStdString(words);
}

QLabel* wrapped(const char* name, QWidget* parent) {
  auto* label = new QLabel(parent);
  label->setObjectName(QLatin1String(name));
  label->setWordWrap(true);
  label->setTextFormat(Qt::PlainText);
  return label;
}

const diagnosis::Test* testOf(const diagnosis::Case& of, const std::string& id) {
  const auto found =
      std::find_if(of.tests.begin(), of.tests.end(), [&](const auto& each) { return each.id == id; });
  return found == of.tests.end() ? nullptr : &*found;
}

const diagnosis::Repair* repairOf(const diagnosis::Case& of, const std::string& id) {
  const auto found =
      std::find_if(of.repairs.begin(), of.repairs.end(), [&](const auto& each) { return each.id == id; });
  return found == of.repairs.end() ? nullptr : &*found;
}

}  // namespace

NextStep::NextStep(Session& session, std::function<Date()> day, QWidget* parent)
    : QWidget(parent), session_{session}, day_{std::move(day)} {
  build();
}

void NextStep::build() {
  kind_ = new QLabel(this);
  setRank(kind_, "small");
  title_ = wrapped("stepTitle", this);
  setRank(title_, "heading");
  says_ = wrapped("stepSays", this);
  why_ = wrapped("stepWhy", this);
  setRank(why_, "faded");
  care_ = wrapped("stepCare", this);
  care_->setTextFormat(Qt::RichText);
  acknowledge_ = new QPushButton(tr("I have read this and keep to it"), this);
  acknowledge_->setObjectName(QStringLiteral("stepAcknowledge"));
  setRank(acknowledge_, "first");
  connect(acknowledge_, &QPushButton::clicked, this, &NextStep::acknowledge);

  amounts_ = new QWidget(this);
  minutes_ = new MinutesEdit(QStringLiteral("minutes"), amounts_);
  minutes_->setObjectName(QStringLiteral("stepMinutes"));
  minutes_->setAccessibleName(tr("Minutes it took"));
  minutes_->setFixedWidth(grown(kAmountWidth));
  cost_ = new MoneyEdit(QStringLiteral("cost"), session_.currency(), amounts_);
  cost_->setObjectName(QStringLiteral("stepCost"));
  cost_->setAccessibleName(tr("Outside work paid for"));
  cost_->setPlaceholderText(tr("none"));
  cost_->setFixedWidth(grown(kAmountWidth));
  clock_ = new QLabel(amounts_);
  setRank(clock_, "small");
  auto* took = new QLabel(tr("took"), amounts_);
  auto* paid = new QLabel(tr("outside work"), amounts_);
  for (QLabel* label : {took, paid})
    setRank(label, "small");
  auto* amounts = new QHBoxLayout(amounts_);
  amounts->setContentsMargins(0, 0, 0, 0);
  amounts->setSpacing(kGrid);
  for (QWidget* each : std::initializer_list<QWidget*>{took, minutes_, clock_, paid, cost_})
    amounts->addWidget(each);
  amounts->addStretch(1);

  part_ = new ShelfChoice(session_, this);
  reading_ = new ReadingRow(this);
  connect(reading_, &ReadingRow::entered, this, [this] { outcomes_->start(); });

  outcomes_ = new NumberedChoices(QStringLiteral("outcome"), this);
  outcomes_->setAccessibleName(tr("What came of it"));
  connect(outcomes_, &NumberedChoices::chosen, this, &NextStep::choose);
  another_ = new QPushButton(tr("Another step instead"), this);
  another_->setObjectName(QStringLiteral("stepOther"));
  setRank(another_, "quiet");
  connect(another_, &QPushButton::clicked, this, &NextStep::turnToOthers);
  other_choices_ = new NumberedChoices(QStringLiteral("other"), this);
  other_choices_->setAccessibleName(tr("Another step instead"));
  other_choices_->hide();
  connect(other_choices_, &NumberedChoices::chosen, this,
          [this](int index) { take(others_[static_cast<std::size_t>(index)]); });
  hint_ = new HintLine(QStringLiteral("step"), this);

  auto* head = new QHBoxLayout;
  head->addWidget(kind_, 1);
  head->addWidget(another_);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid);
  column->addLayout(head);
  for (QWidget* each : std::initializer_list<QWidget*>{title_, why_, says_, care_, acknowledge_, reading_,
                                                       part_, outcomes_, other_choices_, amounts_, hint_})
    column->addWidget(each);
}

const learning::Knowledge& NextStep::knowledge() const {
  return base_->knowledge;
}

void NextStep::forget() {
  other_.reset();
  step_.reset();
  others_.clear();
  firm_ = false;
  reading_->clear();
  cost_->clear();
  hint_->clearHint();
}

bool NextStep::isClockHere() const {
  const auto clock = session_.clock();
  return clock && clock->machine == machine_;
}

void NextStep::show(MachineId machine, const MachinePlan& plan, std::optional<FaultId> fault,
                    const std::string& symptom) {
  const bool same_machine = machine == machine_;
  machine_ = machine;
  fault_ = fault;
  symptom_ = symptom;
  base_ = session_.knowledge();
  // Something else was written down, hours say: while the plan is made again, step and what is typed stay.
  const bool same_question =
      same_machine && step_ && plan.asked != nullptr && seen_ == plan.asked->of.evidence;
  if (plan.answer == nullptr && same_question) return showAmounts();
  plan_ = plan;
  // A step that was chosen instead is gone once it was made.
  if (other_ && plan_.asked != nullptr && testOf(plan_.asked->of, other_->id) == nullptr &&
      repairOf(plan_.asked->of, other_->id) == nullptr)
    other_.reset();
  const auto before = step_;
  step_ = other_ ? other_ : stepFor(plan_);
  if (step_ != before) {
    reading_->clear();
    cost_->clear();
    hint_->clearHint();
    minutes_->clear();
    part_->clear();
    others_.clear();
  }
  if (step_)
    showStep();
  else
    showWaiting();
}

std::optional<NamedMove> NextStep::stepFor(const MachinePlan& plan) {
  if (plan.answer == nullptr) return std::nullopt;
  // Once a person may have begun with it, a step is not taken from under the finger.
  const auto& ranking = plan.answer->ranking;
  const bool can_be_made =
      step_ && std::any_of(ranking.begin(), ranking.end(),
                           [&](const decision::Ranked& each) { return each.move == *step_; });
  if (firm_ && can_be_made && seen_ == plan.asked->of.evidence) return step_;
  seen_ = plan.asked->of.evidence;
  firm_ = plan.firm;
  return plan.answer->next;
}

void NextStep::showWaiting() {
  kind_->setText(tr("Next step"));
  title_->setText(plan_.problem ? QString{} : tr("Working it out…"));
  title_->setVisible(!plan_.problem);
  if (plan_.problem) hint_->problem(*plan_.problem);
  for (QWidget* each : std::initializer_list<QWidget*>{says_, why_, care_, acknowledge_, reading_, outcomes_,
                                                       amounts_, part_, another_, other_choices_})
    each->hide();
}

void NextStep::showStep() {
  const diagnosis::Case& of = plan_.asked->of;
  const bool stops = step_->kind == Move::Kind::stop;
  const QString name = stops ? stopTitle(step_->id) : text(planning::called(*step_, knowledge()));
  title_->setText(name);
  title_->show();
  const bool better = !other_ && plan_.answer != nullptr && plan_.answer->next != *step_;
  kind_->setText(
      other_ ? tr("Your step, instead of the plan's: %1").arg(costWords(*step_, of, session_.currency()))
      : !plan_.firm
          ? tr("At first sight, being worked out: %1").arg(costWords(*step_, of, session_.currency()))
          : tr("Next step: %1").arg(costWords(*step_, of, session_.currency())));
  const auto texts = base_->texts.find(step_->id);
  says_->setText(stops ? stopSays(step_->id)
                       : (texts != base_->texts.end() ? text(texts->second.says) : QString{}));
  says_->setVisible(!says_->text().isEmpty());
  const decision::Names names = planning::names_in(knowledge());
  const decision::PlanNode& root = plan_.answer->plan.root;
  if (other_ || better) {
    why_->setText(otherWords(*step_, *plan_.answer, session_.currency()));
    why_->setToolTip({});
  } else {
    // What each outcome leads to stands on its button.
    const std::string full = decision::why(root, *plan_.answer, of, names);
    why_->setText(text(stops ? full : decision::why_this(root, *plan_.answer, of, names)));
    why_->setToolTip(text(full));
  }
  why_->setVisible(!why_->text().isEmpty());
  another_->setVisible(plan_.answer->ranking.size() > 1);
  another_->setText(!others_.empty() ? tr("Back to the step")
                    : other_         ? tr("The plan's step again")
                    : better         ? tr("A better step was found")
                                     : tr("Another step instead"));
  showCare();
  showTools();
  showAmounts();
  showOutcomes();
}

std::vector<const learning::Caution*> NextStep::cautions() const {
  std::vector<const learning::Caution*> found;
  for (const learning::Caution& caution : base_->cautions)
    if (std::find(caution.steps.begin(), caution.steps.end(), step_->id) != caution.steps.end())
      found.push_back(&caution);
  std::stable_partition(found.begin(), found.end(), [](const auto* each) { return each->stops_the_way; });
  return found;
}

void NextStep::showCare() {
  QStringList lines;
  bool open = false;
  const auto books = session_.books();
  const ByMachine::Lines& lines_of_it = books->by_machine().of(machine_);
  const auto all = cautions();
  for (const learning::Caution* caution : all) {
    const bool read = is_acknowledged(lines_of_it, caution->name);
    open = open || (caution->stops_the_way && !read);
    QString line = QStringLiteral("<b>%1.</b> ").arg(text(caution->name).toHtmlEscaped());
    if (caution->stops_the_way) line += text(caution->danger).toHtmlEscaped() + QStringLiteral(" ");
    lines << line + text(caution->care).toHtmlEscaped();
  }
  if (!lines.isEmpty()) lines << tr("The maker's manual comes first.").toHtmlEscaped();
  care_->setText(lines.join(QStringLiteral("<br>")));
  care_->setVisible(!all.empty());
  acknowledge_->setVisible(open);
  outcomes_->setEnabled(!open);
}

void NextStep::keyPressEvent(QKeyEvent* event) {
  const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
  if (enter && acknowledge_->hasFocus()) return acknowledge();
  QWidget::keyPressEvent(event);
}

void NextStep::acknowledge() {
  for (const learning::Caution* caution : cautions()) {
    const auto books = session_.books();
    if (!caution->stops_the_way || is_acknowledged(books->by_machine().of(machine_), caution->name)) continue;
    if (const auto failed =
            session_.perform(acknowledge_caution(*session_.shop(), machine_, day_(), caution->name)))
      return hint_->problem(*failed);
  }
  outcomes_->start();
}

void NextStep::showTools() {
  const bool tests = step_->kind == Move::Kind::test;
  const bool repairs = step_->kind == Move::Kind::repair;
  const Machine* const machine = session_.shop()->find(machine_);
  reading_->showFor(tests ? knowledge().test(step_->id) : nullptr,
                    machine != nullptr ? machine->kind : MachineKind::other, *base_);
  part_->setVisible(repairs);
  if (!repairs) return;
  const auto& parts = plan_.asked->parts;
  const auto own = std::find_if(parts.begin(), parts.end(),
                                [&](const learning::RepairPart& each) { return each.repair == step_->id; });
  part_->showFor(step_->id, own == parts.end() ? nullptr : &*own);
}

void NextStep::showAmounts() {
  const bool works = step_->kind != Move::Kind::stop;
  amounts_->setVisible(works);
  if (!works) return;
  const bool counts = isClockHere();
  clock_->setText(counts ? tr("by the clock") : QString{});
  clock_->setVisible(counts);
  if (!minutes_->isBlank() && !minutes_->isGuess()) return;
  const diagnosis::Case& of = plan_.asked->of;
  double usual = 0;
  if (const auto* test = testOf(of, step_->id)) usual = test->minutes;
  if (const auto* repair = repairOf(of, step_->id)) usual = repair->minutes;
  const Minutes guess = counts ? session_.clockMinutes() : Minutes{std::llround(usual)};
  minutes_->setGuess(text(shown(guess)));
}

void NextStep::showOutcomes() {
  std::vector<NumberedChoices::Choice> choices;
  const diagnosis::Case& of = plan_.asked->of;
  const auto* root = plan_.answer->next == *step_ ? &plan_.answer->plan.root : nullptr;
  if (step_->kind == Move::Kind::test) {
    if (const auto* test = testOf(of, step_->id))
      for (std::size_t i = 0; i < test->outcomes.size(); ++i)
        choices.push_back({text(planning::called_outcome(test->id, test->outcomes[i], knowledge())),
                           root != nullptr ? leadsTo(*root, i, *plan_.answer, of, knowledge()) : QString{}});
  } else if (step_->kind == Move::Kind::repair) {
    const QString chance = root != nullptr ? tr("chance %1").arg(percent(root->chance_mended)) : QString{};
    choices.push_back({tr("It is mended"), chance});
    choices.push_back(
        {tr("Same trouble as before"),
         root != nullptr ? leadsTo(*root, std::nullopt, *plan_.answer, of, knowledge()) : QString{}});
  } else {
    choices.push_back({stopDeed(step_->id), {}});
    choices.push_back({tr("Go on all the same"), tr("shows the best step that is left")});
  }
  outcomes_->setChoices(choices);
  outcomes_->setVisible(others_.empty());
  other_choices_->setVisible(!others_.empty());
}

bool NextStep::press(int number) {
  return (others_.empty() ? outcomes_ : other_choices_)->press(number);
}

bool NextStep::start() {
  if (!others_.empty())
    other_choices_->start();
  else if (!acknowledge_->isHidden())
    acknowledge_->setFocus();
  else if (!outcomes_->isHidden())
    outcomes_->start();
  else
    return false;
  return true;
}

void NextStep::take(const NamedMove& step) {
  others_.clear();
  other_ = plan_.answer != nullptr && plan_.answer->next == step ? std::nullopt : std::optional{step};
  if (!other_) firm_ = false;  // the plan's step, whatever was shown before
  show(machine_, plan_, fault_, symptom_);
  start();
}

void NextStep::turnToOthers() {
  const bool back = !others_.empty() || other_;
  const bool better = !back && plan_.answer->next != *step_;
  if (back || better) {
    const NamedMove step = !others_.empty() ? *step_ : plan_.answer->next;
    return take(step);
  }
  for (const decision::Ranked& ranked : plan_.answer->ranking)
    if (ranked.move != *step_ && others_.size() < kMostOthers) others_.push_back(ranked.move);
  showOthers();
  show(machine_, plan_, fault_, symptom_);
  start();
}

void NextStep::showOthers() {
  std::vector<NumberedChoices::Choice> choices;
  for (const NamedMove& move : others_)
    choices.push_back(
        {text(planning::called(move, knowledge())), otherWords(move, *plan_.answer, session_.currency())});
  other_choices_->setChoices(choices);
}

void NextStep::choose(int index) {
  const diagnosis::Case& of = plan_.asked->of;
  if (step_->kind == Move::Kind::test) {
    const auto* test = testOf(of, step_->id);
    return record(
        planning::called_outcome(test->id, test->outcomes[static_cast<std::size_t>(index)], knowledge()));
  }
  if (step_->kind == Move::Kind::repair)
    return record(std::string{index == 0 ? learning::kSaysMended : learning::kSaysFailed});
  if (index == 0) {
    emit wantsStop(text(step_->id));
    return;
  }
  for (const decision::Ranked& ranked : plan_.answer->ranking)
    if (ranked.move.kind != Move::Kind::stop) return take(ranked.move);
  hint_->quiet(tr("Nothing is left to try."));
}

void NextStep::record(const std::string& outcome) {
  if (const auto wrong = minutes_->problem()) return hint_->problem(*wrong);
  if (const auto wrong = cost_->problem()) return hint_->problem(*wrong);
  const bool tests = step_->kind == Move::Kind::test;
  const bool counts = isClockHere();
  StepMade made;
  NewFinding& finding = made.finding;
  finding.machine = machine_;
  finding.date = day_();
  finding.step = planning::called(*step_, knowledge());
  finding.outcome = outcome;
  finding.fault = fault_;
  if (!fault_) made.opens = symptom_;
  // What the clock shows now, not when the step came on screen.
  finding.minutes = counts && minutes_->isGuess() ? session_.clockMinutes() : minutes_->value();
  finding.labour = finding.minutes;
  finding.work = tests ? Work::diagnose : Work::repair;
  finding.cost = cost_->value().value_or(Money{});
  if (tests)
    reading_->writeTo(finding);
  else if (const auto part = part_->chosen())
    made.part = PartUsed{.part = {.known = *part}};
  if (plan_.asked && plan_.answer) made.promise = planning::promise_of(plan_.asked->of, *plan_.answer);
  if (const auto failed = session_.perform(record_step(*session_.shop(), made)))
    return hint_->problem(*failed);
  // Its minutes are logged: from here on it counts for the next step.
  if (counts) session_.restartClock();
  other_.reset();
}

}  // namespace secondpull::app
