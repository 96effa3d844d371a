#pragma once

#include "app/bench/bench_panel.h"
#include "core/calendar/date.h"

class QPushButton;
class QTimer;

namespace secondpull::app {

/// Own hours: by hand as one typed line ("1h20 repair"), or by the clock. Stopping the clock logs it as the
/// kind of work typed in the line, else as repair. Object names: "labourLine", "clockButton", "labourHint".
class HoursLine : public BenchPanel {
  Q_OBJECT
 public:
  HoursLine(Session& session, std::function<Date()> day, QWidget* parent);
  void refresh() override;
  void start();
  void toggleClock();

 protected:
  void turned() override;

 private:
  void save();
  void explain();
  void showClock();
  bool clockRunsHere() const;
  Work typedWork() const;

  std::function<Date()> day_;
  QLineEdit* line_;
  QPushButton* clock_;
  HintLine* hint_;
  QTimer* tick_;
};

}  // namespace secondpull::app
