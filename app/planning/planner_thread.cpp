#include "app/planning/planner_thread.h"

#include <chrono>
#include <cmath>
#include <utility>

namespace secondpull::app {
namespace {

using namespace std::chrono_literals;
using planning::Situation;

/// The plan at once takes no longer than a person takes for waiting; the break-even price and the worth per
/// hour may take as long again together.
constexpr auto kQuick = 60ms;
/// After this long a plan is as good as it gets.
constexpr auto kPatience = 20s;
/// An hour value that moved by no more than this has not moved.
constexpr double kSameHourValue = 0.005;

}  // namespace

PlannerThread::PlannerThread(Listener listener)
    : listener_{std::move(listener)}, thread_{[this] { work(); }} {}

PlannerThread::~PlannerThread() {
  {
    const std::lock_guard lock{mutex_};
    closing_ = true;
    ++turn_;
  }
  waiting_.notify_one();
  thread_.join();
}

void PlannerThread::plan(std::shared_ptr<const Situation> situation, std::optional<MachineId> watched) {
  {
    const std::lock_guard lock{mutex_};
    next_ = {std::move(situation), watched, ++turn_};
    has_next_ = true;
  }
  waiting_.notify_one();
}

void PlannerThread::work() {
  while (true) {
    Errand errand;
    {
      std::unique_lock lock{mutex_};
      waiting_.wait(lock, [this] { return closing_ || has_next_; });
      if (closing_) return;
      errand = std::move(next_);
      has_next_ = false;
    }
    run(errand);
  }
}

decision::Budget PlannerThread::budget_of(const Errand& errand, std::chrono::milliseconds time) const {
  decision::Budget budget;
  budget.time = time;
  budget.spent = [since = std::chrono::steady_clock::now()] {
    return std::chrono::steady_clock::now() - since;
  };
  budget.go_on = [this, &errand](const decision::Progress&) { return !is_over(errand); };
  return budget;
}

void PlannerThread::run(const Errand& errand) {
  if (errand.watched) plan_one(errand, *errand.watched, budget_of(errand, kQuick), false);
  if (is_over(errand) || !value_hours(errand)) return;
  for (const MachineId machine : errand.situation->waiting()) {
    if (is_over(errand)) return;
    decision::Budget each = budget_of(errand, kPatience);
    each.states = planning::kStatesEach;
    plan_one(errand, machine, each, false);
  }
  if (is_over(errand)) return;
  listener_.settled(errand.situation);
  if (errand.watched) plan_one(errand, *errand.watched, budget_of(errand, kPatience), true);
}

bool PlannerThread::value_hours(const Errand& errand) {
  std::vector<decision::BacklogCase> cases;
  for (const MachineId machine : errand.situation->waiting()) {
    if (is_over(errand)) return false;
    if (auto made = errand.situation->case_of(machine, hour_value_.value))
      cases.push_back({std::to_string(number(machine)), std::move(made->of)});
  }
  decision::Budget each = budget_of(errand, kPatience);
  each.states = planning::kStatesEach;
  const auto value = planning::hour_value(*errand.situation, cases, each);
  if (is_over(errand)) return false;
  // Without a value the plans are made with the last one that there was.
  if (value &&
      (value->from != hour_value_.from || std::abs(value->value - hour_value_.value) > kSameHourValue)) {
    hour_value_ = *value;
    if (errand.watched) plan_one(errand, *errand.watched, budget_of(errand, kQuick), false);
  }
  listener_.worth_of_hour(errand.situation, hour_value_);
  return true;
}

void PlannerThread::plan_one(const Errand& errand, MachineId machine, decision::Budget budget, bool refine) {
  auto made = errand.situation->case_of(machine, hour_value_.value);
  if (!made) {
    kept_.erase(machine);
    return listener_.planned(errand.situation, machine,
                             {.problem = std::move(made.error()), .refined = true});
  }
  const auto kept = kept_.find(machine);
  const bool same = kept != kept_.end() && kept->second.of == made->of;
  auto asked = std::make_shared<const learning::MachineCase>(*std::move(made));
  if (same && (kept->second.plan.refined || !refine)) {
    kept->second.plan.asked = asked;
    return listener_.planned(errand.situation, machine, kept->second.plan);
  }
  auto answer = decision::verdict(asked->of, budget);
  if (is_over(errand)) return;  // it was cut short
  MachinePlan plan{.asked = asked};
  if (answer) {
    plan.refined =
        refine || (answer->gap == 0 && answer->break_even_price.exact && answer->worth_per_hour.exact);
    plan.answer = std::make_shared<const decision::Answer>(*std::move(answer));
  } else {
    plan.problem = std::move(answer.error());
    plan.refined = true;
  }
  kept_.insert_or_assign(machine, Kept{asked->of, plan});
  listener_.planned(errand.situation, machine, std::move(plan));
}

}  // namespace secondpull::app
