#include "app/bench/symptom_choice.h"

#include <algorithm>
#include <map>

#include <QLineEdit>
#include <QVBoxLayout>

#include "app/bench/numbered_choices.h"
#include "app/parts/look.h"
#include "core/learning/knowledge_base.h"
#include "core/shop/bench.h"

namespace secondpull::app {
namespace {

constexpr int kMostButtons = 8;

}  // namespace

SymptomChoice::SymptomChoice(Session& session, std::function<Date()> day, QWidget* parent)
    : QWidget(parent),
      session_{session},
      day_{std::move(day)},
      title_{heading(tr("What does it do?"), this)},
      says_{faded({}, this)},
      choices_{new NumberedChoices(QStringLiteral("symptom"), this)},
      line_{new QLineEdit(this)},
      hint_{new HintLine(QStringLiteral("symptom"), this)} {
  says_->setWordWrap(true);
  choices_->setAccessibleName(tr("What does it do?"));
  line_->setObjectName(QStringLiteral("symptomLine"));
  line_->setAccessibleName(tr("Another symptom"));
  line_->setPlaceholderText(tr("another: type a bit of it"));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid);
  for (QWidget* each : std::initializer_list<QWidget*>{title_, says_, choices_, line_, hint_})
    column->addWidget(each);
  connect(choices_, &NumberedChoices::chosen, this, [this](int index) { choose(symptoms_[index]); });
  connect(line_, &QLineEdit::returnPressed, this, [this] { choose(line_->text().trimmed()); });
}

QStringList SymptomChoice::symptomsFor(const Session& session, MachineId machine) {
  const auto base = session.knowledge();
  const auto shop = session.shop();
  const Machine* const about = shop->find(machine);
  std::map<std::string, int> times;  // by id
  for (const Fault& fault : shop->all<Fault>())
    if (const auto* symptom = base->knowledge.symptom(fault.symptom)) ++times[symptom->id];
  std::vector<const learning::Symptom*> all;
  for (const learning::Symptom& symptom : base->knowledge.symptoms)
    if (about == nullptr || learning::fits(symptom.kinds, about->kind)) all.push_back(&symptom);
  std::stable_sort(all.begin(), all.end(),
                   [&](const auto* a, const auto* b) { return times[a->id] > times[b->id]; });
  QStringList names;
  for (const auto* symptom : all)
    names << QString::fromStdString(symptom->name);
  return names;
}

void SymptomChoice::show(MachineId machine, std::optional<FaultId> fault, const QString& said) {
  machine_ = machine;
  fault_ = fault;
  symptoms_ = symptomsFor(session_, machine);
  says_->setText(
      said.isEmpty()
          ? tr("Once it is said, the tests follow that find the cause with least work.")
          : tr("It is written down as \"%1\". Say which of these it does, and the tests follow.").arg(said));
  std::vector<NumberedChoices::Choice> choices;
  for (const QString& name : symptoms_.mid(0, kMostButtons))
    choices.push_back({name, {}});
  choices_->setChoices(choices);
  completeFrom(line_, symptoms_);
}

bool SymptomChoice::press(int number) {
  return choices_->press(number);
}

void SymptomChoice::start() {
  choices_->start();
}

void SymptomChoice::choose(const QString& symptom) {
  if (symptom.isEmpty()) return;
  const auto shop = session_.shop();
  const Fault* const open = fault_ ? shop->find(*fault_) : nullptr;
  Result<Change> change = [&]() -> Result<Change> {
    if (open == nullptr) return open_fault(*shop, machine_, day_(), symptom.toStdString(), {}, {});
    Fault said = *open;
    // What was written first is kept.
    if (said.note.empty()) said.note = said.symptom;
    said.symptom = symptom.toStdString();
    return replace_line(*shop, AnyRecord{said});
  }();
  if (const auto failed = session_.perform(std::move(change))) return hint_->problem(*failed);
  line_->clear();
  hint_->clearHint();
}

}  // namespace secondpull::app
