#pragma once

#include <functional>
#include <vector>

#include "app/bench/bench_panel.h"
#include "core/calendar/date.h"

namespace secondpull::app {

class NumberedChoices;

/// "What was it?", once a repair has mended a fault: the causes that this repair cures, likeliest first. The
/// answer ends the fault and is what the shop learns from. Object names: "cause1"..., "causeLine",
/// "causeHint".
class CauseChoice : public QWidget {
  Q_OBJECT
 public:
  CauseChoice(Session& session, std::function<Date()> day, QWidget* parent);
  /// `mended`: the finding that says so.
  void show(FaultId fault, FindingId mended);
  void forget();
  bool press(int number);
  void start();

 private:
  void choose(int index);
  void end(const QString& cause);

  Session& session_;
  std::function<Date()> day_;
  FaultId fault_{};
  QStringList causes_;
  QLabel* says_;
  NumberedChoices* choices_;
  QLineEdit* line_;
  HintLine* hint_;
};

}  // namespace secondpull::app
