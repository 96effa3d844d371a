#include "app/bench/step_panel.h"

#include <QApplication>
#include <QVBoxLayout>

#include "app/bench/cause_choice.h"
#include "app/bench/finish_list.h"
#include "app/bench/next_step.h"
#include "app/bench/symptom_choice.h"
#include "app/parts/look.h"
#include "app/planning/planning.h"

namespace secondpull::app {

using What = planning::BenchMoment::What;

StepPanel::StepPanel(Session& session, std::function<Date()> day, QWidget* parent)
    : BenchPanel(session, parent),
      symptom_{new SymptomChoice(session, day, this)},
      next_{new NextStep(session, day, this)},
      cause_{new CauseChoice(session, day, this)},
      finish_{new FinishList(session, day, this)},
      note_{faded({}, this)} {
  setObjectName(QStringLiteral("stepPanel"));
  setAccessibleName(tr("What it waits for"));
  setFocusPolicy(Qt::StrongFocus);  // until there is something in it to press
  note_->setWordWrap(true);
  note_->setObjectName(QStringLiteral("stepNote"));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  for (QWidget* each : std::initializer_list<QWidget*>{symptom_, next_, cause_, finish_, note_})
    column->addWidget(each);
  connect(next_, &NextStep::wantsStop, this, &StepPanel::wantsStop);
  connect(finish_, &FinishList::wantsSale, this, &StepPanel::wantsSale);
  connect(&session.planning(), &Planning::planned, this, [this](MachineId machine) {
    if (machine == this->machine() && isVisible()) refresh();
  });
}

void StepPanel::turned() {
  next_->forget();
  cause_->forget();
  finish_->forget();
}

void StepPanel::refresh() {
  // What had the focus may go with the step that was made.
  const bool had_focus = hasFocus() || isAncestorOf(QApplication::focusWidget());
  const auto books = session().books();
  moment_ = planning::bench_moment(books->by_machine().of(machine()), session().knowledge()->knowledge);
  // Of a machine that waits for no step there is no plan to be made.
  session().planning().watch(moment_.what == What::step ? std::optional{machine()} : std::nullopt);
  showMoment(moment_, moment_.what == What::step ? session().planning().now(machine()) : MachinePlan{});
  if (had_focus && (hasFocus() || !isAncestorOf(QApplication::focusWidget()))) start();
}

void StepPanel::showMoment(const planning::BenchMoment& moment, const MachinePlan& plan) {
  symptom_->setVisible(moment.what == What::symptom);
  next_->setVisible(moment.what == What::step);
  cause_->setVisible(moment.what == What::cause);
  finish_->setVisible(moment.what == What::finish);
  note_->setVisible(moment.what == What::given_up);
  switch (moment.what) {
    case What::symptom:
      return symptom_->show(machine(), moment.fault, QString::fromStdString(moment.symptom));
    case What::step:
      return next_->show(machine(), plan, moment.fault, moment.symptom);
    case What::cause:
      return cause_->show(*moment.fault, *moment.mended);
    case What::finish:
      return finish_->show(machine());
    case What::given_up:
      note_->setText(
          tr("Its last fault was given up: sell it as it is, part it out or scrap it, or open a fault again "
             "(F9)."));
      break;
    case What::gone:
      break;
  }
}

bool StepPanel::press(int number) {
  switch (moment_.what) {
    case What::symptom:
      return symptom_->press(number);
    case What::step:
      return next_->press(number);
    case What::cause:
      return cause_->press(number);
    case What::finish:
      return finish_->press(number);
    case What::given_up:
    case What::gone:
      break;
  }
  return false;
}

void StepPanel::start() {
  switch (moment_.what) {
    case What::symptom:
      return symptom_->start();
    case What::step:
      if (!next_->start()) setFocus();
      return;
    case What::cause:
      return cause_->start();
    case What::finish:
      return finish_->start();
    case What::given_up:
    case What::gone:
      break;
  }
}

}  // namespace secondpull::app
