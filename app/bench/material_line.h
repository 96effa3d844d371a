#pragma once

#include "app/bench/bench_panel.h"
#include "core/calendar/date.h"

namespace secondpull::app {

/// Material used, as one typed line: "degreaser 3.50". Object names: "materialLine", "materialHint".
class MaterialLine : public BenchPanel {
  Q_OBJECT
 public:
  MaterialLine(Session& session, std::function<Date()> day, QWidget* parent);
  void refresh() override;
  void start();

 protected:
  void turned() override;

 private:
  void save();
  void explain();

  std::function<Date()> day_;
  QLineEdit* line_;
  HintLine* hint_;
};

}  // namespace secondpull::app
