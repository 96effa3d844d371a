#pragma once

#include <QTreeWidget>

#include "app/planning/planning.h"

namespace secondpull::app {

/// The plan ahead as steps that branch: each line an outcome with its chance and the step that follows it;
/// what the plan does first stands at the top. Likely branches are open. Object name: "planTree".
class PlanTree : public QTreeWidget {
  Q_OBJECT
 public:
  PlanTree(Session& session, QWidget* parent);
  void showPlan(const MachinePlan& plan);
  QSize sizeHint() const override;

 private:
  void add(QTreeWidgetItem* above, const decision::PlanNode& from, double chance_from);
  QString words(const decision::PlanNode& node) const;

  Session& session_;
  std::shared_ptr<const learning::KnowledgeBase> base_;
  MachinePlan plan_;
};

}  // namespace secondpull::app
