#pragma once

#include <functional>

#include "app/bench/bench_panel.h"
#include "core/calendar/date.h"
#include "core/planning/bench_moment.h"

class QStackedLayout;

namespace secondpull::app {

class CauseChoice;
class FinishList;
class NextStep;
class SymptomChoice;
struct MachinePlan;

/// The large place on the card for what the machine waits for now: to be told what it does wrong, the next
/// step, what it was, or what is left to do before the sale. Digits (on the number pad too) choose.
class StepPanel : public BenchPanel {
  Q_OBJECT
 public:
  StepPanel(Session& session, std::function<Date()> day, QWidget* parent);
  void refresh() override;
  /// Chooses what stands under that number, from 1. False: nothing does.
  bool press(int number);
  void start();

 signals:
  void wantsStop(const QString& stop);  ///< id of a stop of the case
  void wantsSale();                     ///< it is ready: put it for sale

 protected:
  void turned() override;

 private:
  void showMoment(const planning::BenchMoment& moment, const MachinePlan& plan);

  planning::BenchMoment moment_;
  SymptomChoice* symptom_;
  NextStep* next_;
  CauseChoice* cause_;
  FinishList* finish_;
  QLabel* note_;
};

}  // namespace secondpull::app
