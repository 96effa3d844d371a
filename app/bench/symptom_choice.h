#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "app/bench/bench_panel.h"
#include "core/calendar/date.h"

namespace secondpull::app {

class NumberedChoices;

/// "What does it do?", in words of the knowledge base: the commonest for the kind of machine as numbered
/// buttons, any other by typing a bit of it. It opens the fault, or says an open one in these words. Object
/// names: "symptom1"..., "symptomLine", "symptomHint".
class SymptomChoice : public QWidget {
  Q_OBJECT
 public:
  SymptomChoice(Session& session, std::function<Date()> day, QWidget* parent);
  /// `fault`: an open one whose words nobody knows; absent: none is open. `said`: what was written of it.
  void show(MachineId machine, std::optional<FaultId> fault, const QString& said);
  /// With `run`, choosing one opens a new fault that the test run showed.
  bool press(int number);
  void start();

  /// Symptoms for a machine of that kind, the shop's commonest first, else as the knowledge base has them.
  static QStringList symptomsFor(const Session& session, MachineId machine);

 private:
  void choose(const QString& symptom);

  Session& session_;
  std::function<Date()> day_;
  MachineId machine_{};
  std::optional<FaultId> fault_;
  QStringList symptoms_;
  QLabel* title_;
  QLabel* says_;
  NumberedChoices* choices_;
  QLineEdit* line_;
  HintLine* hint_;
};

}  // namespace secondpull::app
