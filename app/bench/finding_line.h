#pragma once

#include "app/bench/bench_panel.h"
#include "core/calendar/date.h"

class QComboBox;
class QPushButton;

namespace secondpull::app {

class MinutesEdit;
class MoneyEdit;

/// The kind of work that the words of a step mean: "clean the deck" is cleaning, "fit a plug" a repair, a
/// test a diagnosis.
Work workOfStep(const QString& step);

/// A step done and what came of it, as one typed line: step, outcome, minutes; a reading, outside work paid
/// for, the fault it is about and a note when asked for. Enter in the step goes on to the outcome, Enter
/// there saves. Minutes are logged as own hours in the same action, unless the clock runs on this machine
/// and counts them already. Object names: "findingStep", "findingOutcome", "findingMinutes", "findingMore",
/// "findingReading", "findingUnit", "findingCost", "findingFault", "findingNote", "findingHint",
/// "findingCare".
class FindingLine : public BenchPanel {
  Q_OBJECT
 public:
  FindingLine(Session& session, std::function<Date()> day, QWidget* parent);
  void refresh() override;
  void start();

 protected:
  void turned() override;

 private:
  void save();
  void explain();
  bool clockRunsHere() const;
  std::optional<FaultId> fault() const;

  std::function<Date()> day_;
  QLineEdit* step_;
  QLineEdit* outcome_;
  MinutesEdit* minutes_;
  QPushButton* more_;
  QWidget* more_row_;
  QLineEdit* reading_;
  QLineEdit* unit_;
  MoneyEdit* cost_;
  QComboBox* fault_;
  QLineEdit* note_;
  HintLine* hint_;
};

}  // namespace secondpull::app
