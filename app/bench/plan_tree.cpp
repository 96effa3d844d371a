#include "app/bench/plan_tree.h"

#include <algorithm>

#include <QHeaderView>

#include "app/bench/chances_view.h"
#include "app/frame/session.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "core/planning/names.h"

namespace secondpull::app {
namespace {

using decision::PlanNode;

constexpr double kOpenFrom = 0.3;  // branches at least as likely are shown open
constexpr int kHeight = 24 * kGrid;

}  // namespace

PlanTree::PlanTree(Session& session, QWidget* parent) : QTreeWidget(parent), session_{session} {
  setObjectName(QStringLiteral("planTree"));
  setAccessibleName(tr("The plan ahead"));
  setHeaderHidden(true);
  setColumnCount(1);
  setRootIsDecorated(true);
  setIndentation(kGrid + kGrid / 2);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setWordWrap(true);
  setUniformRowHeights(false);
  header()->setStretchLastSection(true);
}

QSize PlanTree::sizeHint() const {
  return {grown(34 * kGrid), grown(kHeight)};
}

void PlanTree::showPlan(const MachinePlan& plan) {
  if (plan.answer == plan_.answer) return;
  plan_ = plan;
  base_ = session_.knowledge();
  clear();
  if (plan_.answer == nullptr) return;
  auto* top = new QTreeWidgetItem(this, {words(plan_.answer->plan.root)});
  add(top, plan_.answer->plan.root, 1);
  top->setExpanded(true);
}

QString PlanTree::words(const PlanNode& node) const {
  return QString::fromStdString(
      planning::called(decision::named(plan_.asked->of, plan_.answer->model, node.move), base_->knowledge));
}

void PlanTree::add(QTreeWidgetItem* above, const PlanNode& from, double chance_from) {
  std::vector<const PlanNode*> children;
  for (const PlanNode& child : from.children)
    children.push_back(&child);
  std::stable_sort(children.begin(), children.end(),
                   [](const PlanNode* a, const PlanNode* b) { return a->chance > b->chance; });
  const decision::NamedMove move = decision::named(plan_.asked->of, plan_.answer->model, from.move);
  for (const PlanNode* child : children) {
    const QString chance = percent(child->chance / chance_from);
    if (child->what == PlanNode::What::revived) {
      new QTreeWidgetItem(above, {tr("mended, %1: it runs, and is sold").arg(chance)});
      continue;
    }
    QString came = tr("no help");
    if (child->outcome) {
      const auto& tests = plan_.asked->of.tests;
      const auto test =
          std::find_if(tests.begin(), tests.end(), [&](const auto& each) { return each.id == move.id; });
      came = QString::fromStdString(
          planning::called_outcome(move.id, test->outcomes[*child->outcome], base_->knowledge));
    }
    auto* item = new QTreeWidgetItem(above, {tr("%1, %2 → %3").arg(came, chance, words(*child))});
    item->setToolTip(0, item->text(0));
    add(item, *child, child->chance);
    item->setExpanded(child->chance >= kOpenFrom);
  }
}

}  // namespace secondpull::app
