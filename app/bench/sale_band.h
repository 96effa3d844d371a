#pragma once

#include "app/bench/bench_panel.h"

namespace secondpull::app {

class MoneyEdit;
class WhyFigure;

/// The band at the foot: what a sale at some price would leave, and, apart, what is spent either way.
/// Object names: "ifSoldPrice", "ifSoldGross", "ifSoldRunning", "ifSoldProfit", "ifSoldPerHour", "alreadyIn".
class SaleBand : public BenchPanel {
  Q_OBJECT
 public:
  SaleBand(Session& session, QWidget* parent);
  void refresh() override;
  void start();

 protected:
  void turned() override;
  void paintEvent(QPaintEvent* event) override;

 private:
  void showFigures();

  MoneyEdit* price_;
  QLabel* from_;
  WhyFigure* gross_;
  WhyFigure* running_;
  WhyFigure* profit_;
  WhyFigure* per_hour_;
  QLabel* already_;
};

}  // namespace secondpull::app
