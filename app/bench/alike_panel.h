#pragma once

#include "app/bench/bench_panel.h"

namespace secondpull::app {

/// Same machine before: those of the same model or engine, what was wrong with them, what was fitted and what
/// they sold for. Not there without one. A tag opens its machine. Object names: "alikePanel", "alikeLines".
class AlikePanel : public BenchPanel {
  Q_OBJECT
 public:
  AlikePanel(Session& session, QWidget* parent);
  void refresh() override;

 signals:
  void wantsMachine(MachineId machine);

 private:
  QLabel* lines_;
};

}  // namespace secondpull::app
