#pragma once

#include "app/bench/bench_panel.h"

class QPushButton;

namespace secondpull::app {

class PaperButton;
class WhyFigure;
class WordRow;

/// The head of the card: the tag, what the machine is, where it stands and what it has taken so far.
/// Object names: "machineName", "machineStanding", "machineFacts", "stageWords", "editFacts",
/// "paperButton", "previousMachine", "nextMachine", "pickMachine", "moneyIn", "hoursIn", "earned", "perHour".
class MachineHead : public BenchPanel {
  Q_OBJECT
 public:
  MachineHead(Session& session, QWidget* parent);
  void refresh() override;
  PaperButton& papers() const { return *papers_; }

 signals:
  void wantsFacts();
  void wantsPrevious();
  void wantsNext();
  void wantsPick();

 private:
  void setStage(int index);
  void showFigures();

  QWidget* tag_;
  QLabel* name_;
  QLabel* standing_;
  QLabel* facts_;
  QLabel* condition_;
  WordRow* stage_;
  QPushButton* edit_;
  PaperButton* papers_;
  WhyFigure* money_;
  WhyFigure* hours_;
  WhyFigure* earned_;
  WhyFigure* per_hour_;
};

}  // namespace secondpull::app
