#include "app/bench/plan_ahead.h"

#include <algorithm>

#include <QVBoxLayout>

#include "app/bench/chances_view.h"
#include "app/bench/plan_tree.h"
#include "app/parts/look.h"
#include "core/diagnosis/belief.h"
#include "core/learning/whose.h"
#include "core/planning/names.h"

namespace secondpull::app {
namespace {

/// How often a cause is behind a symptom: how much of that is this shop's own record.
QString whoseCount(const learning::Knowledge& knowledge, const std::string& symptom, const std::string& cause,
                   const learning::Tallies& tallies) {
  const learning::Symptom* const known = knowledge.symptom(symptom);
  if (known == nullptr) return {};
  const learning::Share share = learning::share_of_cause(*known, cause, tallies);
  if (share.own <= 0) return PlanAhead::tr("from the knowledge base");
  return PlanAhead::tr("%1 of your own cases beside %2 believed")
      .arg(qRound(share.own))
      .arg(qRound(share.known));
}

}  // namespace

PlanAhead::PlanAhead(Session& session, QWidget* parent)
    : BenchPanel(session, parent), chances_{new ChancesView(this)}, plan_{new PlanTree(session, this)} {
  const auto titled = [this](const QString& title) {
    auto* label = new QLabel(title, this);
    setRank(label, "subheading");
    return label;
  };
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid);
  column->addWidget(titled(tr("What it may be")));
  column->addWidget(chances_);
  column->addSpacing(kGrid);
  column->addWidget(titled(tr("The plan ahead")));
  column->addWidget(plan_);
}

void PlanAhead::showPlan(const MachinePlan& plan) {
  setVisible(plan.asked != nullptr);
  if (plan.asked != nullptr) showChances(plan);
  // While the next plan is worked out, the last one stays: an empty place would only flicker.
  if (plan.answer != nullptr || plan.asked == nullptr) plan_->showPlan(plan);
}

void PlanAhead::showChances(const MachinePlan& plan) {
  const diagnosis::Case& of = plan.asked->of;
  const auto base = session().knowledge();
  const auto situation = session().planning().situation();
  const std::vector<double> belief = diagnosis::posterior(of);
  std::vector<ChancesView::Line> lines;
  for (std::size_t i = 0; i < belief.size(); ++i)
    lines.push_back({QString::fromStdString(planning::called_cause(of.causes[i].id, base->knowledge)),
                     belief[i],
                     whoseCount(base->knowledge, plan.asked->question.symptom, of.causes[i].id,
                                situation->learned().tallies)});
  std::stable_sort(lines.begin(), lines.end(),
                   [](const auto& a, const auto& b) { return a.chance > b.chance; });
  chances_->setLines(lines);
}

}  // namespace secondpull::app
