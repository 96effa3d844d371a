#pragma once

#include "app/bench/bench_panel.h"
#include "app/planning/planning.h"

namespace secondpull::app {

class ChancesView;
class PlanTree;

/// What it may be with its chances, and the plan ahead. Not there for a machine that waits for no step.
class PlanAhead : public BenchPanel {
  Q_OBJECT
 public:
  PlanAhead(Session& session, QWidget* parent);
  void refresh() override {}
  void showPlan(const MachinePlan& plan);

 private:
  void showChances(const MachinePlan& plan);
  ChancesView* chances_;
  PlanTree* plan_;
};

}  // namespace secondpull::app
