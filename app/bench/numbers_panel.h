#pragma once

#include <optional>
#include <vector>

#include "app/bench/bench_panel.h"
#include "app/planning/planning.h"
#include "core/planning/case_numbers.h"

class QGridLayout;
class QPushButton;

namespace secondpull::app {

/// The numbers behind the plan, folded away until asked for: each with what was worked out, where that comes
/// from, and a field in which another can be said for this machine. An empty field takes it back. Object
/// names: "numbersOpen", "numberEdit" + place from 0, "numbersHint".
class NumbersPanel : public BenchPanel {
  Q_OBJECT
 public:
  NumbersPanel(Session& session, QWidget* parent);
  void refresh() override {}
  void showPlan(const MachinePlan& plan);

 private:
  void showRows();
  void say(const planning::CaseNumber& number, const QString& typed);

  MachinePlan plan_;
  std::vector<planning::CaseNumber> numbers_;
  QPushButton* open_;
  QWidget* rows_;
  QGridLayout* grid_;
  HintLine* hint_;
};

}  // namespace secondpull::app
