#include "app/bench/cause_choice.h"

#include <QLineEdit>
#include <QVBoxLayout>

#include "app/bench/chances_view.h"
#include "app/bench/numbered_choices.h"
#include "app/bench/suggestions.h"
#include "app/parts/look.h"
#include "app/planning/planning.h"
#include "core/diagnosis/belief.h"
#include "core/planning/bench_moment.h"
#include "core/planning/names.h"
#include "core/shop/bench.h"

namespace secondpull::app {
namespace {

constexpr std::size_t kMostCauses = 7;  // and "cannot say"

/// What it was, by id, likeliest first.
std::vector<std::pair<std::string, double>> causesCured(Session& session, const Finding& mended) {
  const auto base = session.knowledge();
  const learning::Repair* const repair = base->knowledge.repair(mended.step);
  if (repair == nullptr) return {};
  const auto before = session.planning().situation()->case_before(mended.id, 0);
  if (!before) return {};
  const std::vector<double> belief = diagnosis::posterior(before->of);
  learning::ByCause<double> posterior;
  for (std::size_t i = 0; i < belief.size(); ++i)
    posterior.emplace_back(before->of.causes[i].id, belief[i]);
  return planning::causes_of_cure(*repair, posterior);
}

}  // namespace

CauseChoice::CauseChoice(Session& session, std::function<Date()> day, QWidget* parent)
    : QWidget(parent),
      session_{session},
      day_{std::move(day)},
      says_{faded({}, this)},
      choices_{new NumberedChoices(QStringLiteral("cause"), this)},
      line_{new QLineEdit(this)},
      hint_{new HintLine(QStringLiteral("cause"), this)} {
  says_->setWordWrap(true);
  choices_->setAccessibleName(tr("What was it?"));
  line_->setObjectName(QStringLiteral("causeLine"));
  line_->setAccessibleName(tr("Another cause"));
  line_->setPlaceholderText(tr("something else: type what it was"));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid);
  column->addWidget(heading(tr("It is mended. What was it?"), this));
  for (QWidget* each : std::initializer_list<QWidget*>{says_, choices_, line_, hint_})
    column->addWidget(each);
  connect(choices_, &NumberedChoices::chosen, this, &CauseChoice::choose);
  connect(line_, &QLineEdit::returnPressed, this, [this] {
    if (!line_->text().trimmed().isEmpty()) end(line_->text().trimmed());
  });
}

void CauseChoice::show(FaultId fault, FindingId mended_id) {
  fault_ = fault;
  const Finding* const mended = session_.shop()->find(mended_id);
  if (mended == nullptr) return;
  says_->setText(
      tr("\"%1\" did it. Say what you found: that is what the chances of the next machine are made of.")
          .arg(QString::fromStdString(mended->step)));
  causes_.clear();
  std::vector<NumberedChoices::Choice> choices;
  const auto base = session_.knowledge();
  for (const auto& [id, chance] : causesCured(session_, *mended)) {
    if (choices.size() == kMostCauses) break;
    causes_ << QString::fromStdString(planning::called_cause(id, base->knowledge));
    choices.push_back({causes_.back(), percent(chance)});
  }
  choices.push_back({tr("Cannot say"), tr("the fault ends, nothing is learned from it")});
  choices_->setChoices(choices);
  completeFrom(line_, causesBefore(*session_.shop()));
}

void CauseChoice::forget() {
  line_->clear();
  hint_->clearHint();
}

bool CauseChoice::press(int number) {
  return choices_->press(number);
}

void CauseChoice::start() {
  choices_->start();
}

void CauseChoice::choose(int index) {
  end(index < causes_.size() ? causes_[index] : QString{});
}

void CauseChoice::end(const QString& cause) {
  if (const auto failed = session_.perform(
          end_fault(*session_.shop(), fault_, day_(), FaultEnd::mended, cause.toStdString())))
    return hint_->problem(*failed);
  forget();
}

}  // namespace secondpull::app
