#pragma once

#include <atomic>
#include <condition_variable>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <thread>

#include "core/planning/backlog_plan.h"

namespace secondpull::app {

/// A machine's plan as far as it is worked out.
struct MachinePlan {
  std::shared_ptr<const learning::MachineCase> asked;  ///< null: `problem` says why
  std::optional<Problem> problem;
  std::shared_ptr<const decision::Answer> answer;  ///< null until the first one is there
  bool firm = false;     ///< more than a first look: the first step is worth being made
  bool refined = false;  ///< nothing better will come: it is exact, or the time for it is over
};

/// Plans machines in a thread of its own. Whatever it is asked for last comes first: a new situation or
/// another machine to watch cancels what is under way. In this order:
///   1. the machine that is watched: a first look at once, a firm plan after it, and then its other figures;
///   2. what an hour is worth, and then every machine that waits;
///   3. the machine that is watched again, as exactly as its time allows.
/// A plan is kept as long as its case is the same, and serves other machines with the same case.
class PlannerThread {
 public:
  /// What is told as it comes, from the planner's thread. Each says which situation it is about.
  struct Listener {
    std::function<void(std::shared_ptr<const planning::Situation>, MachineId, MachinePlan)> planned;
    std::function<void(std::shared_ptr<const planning::Situation>, planning::HourValue)> worth_of_hour;
    std::function<void(std::shared_ptr<const planning::Situation>)> settled;  ///< all that wait are planned
  };
  explicit PlannerThread(Listener listener);
  PlannerThread(const PlannerThread&) = delete;
  PlannerThread& operator=(const PlannerThread&) = delete;
  ~PlannerThread();

  void plan(std::shared_ptr<const planning::Situation> situation, std::optional<MachineId> watched);

 private:
  /// How much is made of a plan: each takes longer than the one before.
  enum class Pains {
    first_look,  ///< a plan, in the time that nobody takes for waiting
    listed,      ///< of few states, with its worth per hour
    firm,        ///< a step that is worth being made
    whole,       ///< the same with all figures
    refined      ///< as exact as its time allows
  };
  struct Kept {
    diagnosis::Case of;
    MachinePlan plan;
    Pains pains = Pains::first_look;
  };
  struct Errand {
    std::shared_ptr<const planning::Situation> situation;
    std::optional<MachineId> watched;
    std::uint64_t turn = 0;
  };
  void work();
  void run(const Errand& errand);
  void plan_one(const Errand& errand, MachineId machine, Pains pains);
  /// The plan that is kept for this case, what it has cost so far apart, if no less was made of it.
  const Kept* kept_for(MachineId machine, const diagnosis::Case& of, Pains pains) const;
  bool value_hours(const Errand& errand);
  static decision::Figures figures_of(Pains pains);
  decision::Budget budget_of(const Errand& errand, Pains pains) const;
  bool is_over(const Errand& errand) const { return turn_ != errand.turn; }

  Listener listener_;
  std::map<MachineId, Kept> kept_;  // the planner's thread alone
  planning::HourValue hour_value_;  // likewise
  bool hours_are_valued_ = false;   // until then no plan is firm
  std::mutex mutex_;
  std::condition_variable waiting_;
  Errand next_;
  bool has_next_ = false;
  bool closing_ = false;
  std::atomic<std::uint64_t> turn_ = 0;
  std::thread thread_;  // last: it starts when all the rest is there
};

}  // namespace secondpull::app
