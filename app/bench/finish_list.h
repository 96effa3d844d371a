#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "app/bench/bench_panel.h"
#include "core/calendar/date.h"
#include "core/planning/finishing.h"
#include "core/shop/bench.h"

class QListWidget;
class QTimer;

namespace secondpull::app {

class MinutesEdit;
class NumberedChoices;

/// What is left between the last repair and the sale: the test run with its own clock, then the looks before
/// a machine is offered, one at a time with numbered answers, and all of them as a list in which any can be
/// taken again. Dies in the test run: the same trouble, or a new one? Object names: "finishTitle",
/// "finish1"..., "finishItems", "testRunMinutes", "testRunLeft", "finishNote", "finishSymptom", "finishHint".
class FinishList : public QWidget {
  Q_OBJECT
 public:
  FinishList(Session& session, std::function<Date()> day, QWidget* parent);
  void show(MachineId machine);
  void forget();
  bool press(int number);
  void start();

 signals:
  void wantsSale();

 private:
  enum class Asks { work, start_run, run, trouble, symptom, check, explain, done };
  void showItems();
  void showAsked();
  void ask(Asks asks) {
    asks_ = asks;
    showAsked();
  }
  void choose(int index);
  void startRun();
  void endRun(bool ran_through);
  void runIsOver();
  void work(bool done);
  void check(const std::string& outcome, const QString& note);
  void tick();
  NewFinding run(std::string_view outcome) const;
  bool perform(Result<Change> change);
  const planning::FinishItem* current() const;

  Session& session_;
  std::function<Date()> day_;
  MachineId machine_{};
  std::vector<planning::FinishItem> items_;
  std::optional<std::string> taken_again_;  ///< the step of an item that the person turned to
  Asks asks_ = Asks::start_run;
  std::optional<db::Instant> run_since_;
  QStringList symptoms_;

  QLabel* title_;
  QLabel* says_;
  MinutesEdit* minutes_;
  QLabel* left_;
  NumberedChoices* choices_;
  QLineEdit* note_;
  QListWidget* list_;
  HintLine* hint_;
  QTimer* tick_;
};

}  // namespace secondpull::app
