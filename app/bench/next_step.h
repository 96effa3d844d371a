#pragma once

#include <functional>
#include <optional>

#include "app/bench/bench_panel.h"
#include "app/planning/planning.h"
#include "core/calendar/date.h"
#include "core/learning/knowledge_base.h"
#include "core/shop/steps.h"

class QPushButton;

namespace secondpull::app {

class MinutesEdit;
class MoneyEdit;
class NumberedChoices;
class ReadingRow;
class ShelfChoice;

/// The next step of a machine whose fault is open: what to do, why, how long, what it costs, its cautions,
/// and a numbered button for each outcome, which writes down finding, hours, cost and part in one action. A
/// caution that stops the way has to be acknowledged first. Another step than the planner's can be taken;
/// what that costs is said. A step that is shown stays until it is made, though a better one may be found
/// meanwhile: it is offered, never put under the finger. Object names: "stepTitle", "stepSays", "stepWhy",
/// "stepCare", "stepAcknowledge", "stepMinutes", "stepCost", "stepPart", "stepReading", "stepReadingOf",
/// "stepOther", "stepHint", and the outcomes "outcome1", "outcome2"...
class NextStep : public QWidget {
  Q_OBJECT
 public:
  NextStep(Session& session, std::function<Date()> day, QWidget* parent);

  /// Shows the next step of this plan. `fault`: the open one; absent: none was opened yet, and `symptom`
  /// opens it.
  void show(MachineId machine, const MachinePlan& plan, std::optional<FaultId> fault,
            const std::string& symptom);
  void forget();  ///< another machine: what was typed for the last one goes
  bool press(int number);
  /// The focus on what is to be pressed; false: there is nothing yet.
  bool start();

 signals:
  void said(const QString& sentence, bool problem);
  void wantsStop(const QString& stop);  ///< the id of a stop of the case: the person ends it here

 protected:
  void keyPressEvent(QKeyEvent* event) override;  ///< Enter goes on: it acknowledges

 private:
  void build();
  void showStep();
  void showWaiting();
  void showCare();
  void showTools();  ///< what is read, or the part that goes in
  void showOutcomes();
  void showAmounts();
  void turnToOthers();
  void showOthers();
  void take(const decision::NamedMove& step);
  std::optional<decision::NamedMove> stepFor(const MachinePlan& plan);
  void choose(int index);
  void acknowledge();
  void record(const std::string& outcome);
  std::vector<const learning::Caution*> cautions() const;
  bool isClockHere() const;
  const learning::Knowledge& knowledge() const;

  Session& session_;
  std::function<Date()> day_;
  MachineId machine_{};
  MachinePlan plan_;
  std::optional<FaultId> fault_;
  std::string symptom_;
  std::optional<decision::NamedMove> step_;   ///< as shown
  std::optional<decision::NamedMove> other_;  ///< chosen by the person instead of the planner's
  std::vector<diagnosis::Evidence> seen_;     ///< what was known when it was first shown
  bool firm_ = false;                         ///< it was the step of a firm plan then
  std::vector<decision::NamedMove> others_;   ///< to choose from, while they are shown
  std::shared_ptr<const learning::KnowledgeBase> base_;

  QLabel* kind_;
  QLabel* title_;
  QLabel* says_;
  QLabel* why_;
  QLabel* care_;
  QPushButton* acknowledge_;
  QWidget* amounts_;
  MinutesEdit* minutes_;
  MoneyEdit* cost_;
  QLabel* clock_;
  ShelfChoice* part_;
  ReadingRow* reading_;
  NumberedChoices* outcomes_;
  NumberedChoices* other_choices_;
  QPushButton* another_;
  HintLine* hint_;
};

}  // namespace secondpull::app
