#pragma once

#include <vector>

#include "app/bench/bench_panel.h"
#include "core/calendar/date.h"

class QVBoxLayout;

namespace secondpull::app {

/// The open faults of the machine, each with its cause (typed in place, Enter keeps it) and its three ways to
/// end; below them a line that opens another. An empty line and Enter open what the machine came in with, if
/// no fault was ever opened. Object names: "faultLine", "faultHint"; in the n-th open fault, from 0:
/// "faultCause<n>", "faultMended<n>", "faultGivenUp<n>", "faultMistaken<n>".
class FaultPanel : public BenchPanel {
  Q_OBJECT
 public:
  FaultPanel(Session& session, std::function<Date()> day, QWidget* parent);
  void refresh() override;
  void start();

 protected:
  void turned() override;

 private:
  QWidget* faultRow(const Fault& fault, int index);
  void open();
  void end(FaultId fault, FaultEnd how, const QString& cause);
  void keepCause(FaultId fault, const QString& cause);

  std::function<Date()> day_;
  std::vector<Fault> shown_;
  QVBoxLayout* rows_;
  QWidget* line_row_;
  QLineEdit* line_;
  bool wanted_ = false;  ///< the line for another fault was asked for
  HintLine* hint_;
};

}  // namespace secondpull::app
