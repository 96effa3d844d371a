#pragma once

#include <map>
#include <memory>
#include <optional>

#include <QObject>

#include "app/planning/planner_thread.h"
#include "core/diagnosis/belief.h"

namespace secondpull::app {

class Session;

/// The plans of the shop's machines, for the records as they are now: worked out in the background, told as
/// they come, and again after every action. Lives in the window's thread.
class Planning : public QObject {
  Q_OBJECT
 public:
  explicit Planning(Session& session);
  ~Planning() override;

  /// What the plans are made from, for the records as they are now.
  std::shared_ptr<const planning::Situation> situation();

  /// The machine that a person looks at: planned before all others, and refined. Nothing: none.
  void watch(std::optional<MachineId> machine);
  /// Its plan for the records as they are now: the case at once, the answer when planned() has told of it.
  MachinePlan now(MachineId machine);
  /// The last plan there was, of whatever state of the records; for a list that fills as plans come.
  MachinePlan last(MachineId machine) const;

  /// What an hour is worth: the last that was worked out.
  planning::HourValue hourValue() const { return hour_value_; }
  /// Every machine that waits, best paid first, as last told; `settled` when it is of the records as they are
  /// now.
  planning::BacklogPlan backlog();
  bool isSettled() const { return settled_; }

 signals:
  void planned(secondpull::MachineId machine);
  void hourValueChanged();
  void settled();  ///< every machine that waits has its plan

 private:
  void renew();
  void ask();

  Session& session_;
  std::shared_ptr<const planning::Situation> situation_;
  std::shared_ptr<const Books> situation_of_;
  std::optional<MachineId> watched_;
  std::map<MachineId, MachinePlan> plans_;
  planning::HourValue hour_value_;
  bool settled_ = false;
  bool asked_ = false;
  std::unique_ptr<PlannerThread> thread_;  // last: it goes first
};

}  // namespace secondpull::app
