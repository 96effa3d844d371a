#include "app/planning/planner_thread.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace secondpull::app {
namespace {

using namespace std::chrono_literals;
using planning::Situation;

/// The first look takes no longer than a person takes for waiting.
constexpr auto kFirstLook = 60ms;
/// After this long a plan is as good as it gets.
constexpr auto kPatience = 20s;
/// An hour value that moved by no more than this has not moved.
constexpr double kSameHourValue = 0.005;

}  // namespace

decision::Figures PlannerThread::figures_of(Pains pains) {
  if (pains == Pains::first_look || pains == Pains::firm) return decision::Figures::plan_alone;
  return pains == Pains::listed ? decision::Figures::for_a_queue : decision::Figures::all;
}

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

decision::Budget PlannerThread::budget_of(const Errand& errand, Pains pains) const {
  decision::Budget budget;
  // A firm plan is the same on any machine; the first look and the refined one are as good as their time
  // allows.
  if (pains == Pains::listed) budget.states = planning::kStatesEach;
  if (pains == Pains::firm || pains == Pains::whole) budget.states = planning::kStatesFirm;
  budget.time = pains == Pains::first_look ? kFirstLook : kPatience;
  budget.spent = [since = std::chrono::steady_clock::now()] {
    return std::chrono::steady_clock::now() - since;
  };
  budget.go_on = [this, &errand](const decision::Progress&) { return !is_over(errand); };
  return budget;
}

void PlannerThread::run(const Errand& errand) {
  // What the owner says takes no working out.
  if (errand.situation->shop().settings.hour_value && !value_hours(errand)) return;
  if (errand.watched) {
    plan_one(errand, *errand.watched, Pains::first_look);
    for (const Pains pains : {Pains::firm, Pains::whole})
      if (!is_over(errand)) plan_one(errand, *errand.watched, pains);
  }
  if (is_over(errand)) return;
  if (!errand.situation->shop().settings.hour_value && !value_hours(errand)) return;
  for (const MachineId machine : errand.situation->waiting()) {
    if (is_over(errand)) return;
    plan_one(errand, machine, machine == errand.watched ? Pains::whole : Pains::listed);
  }
  if (is_over(errand)) return;
  listener_.settled(errand.situation);
  if (errand.watched) plan_one(errand, *errand.watched, Pains::refined);
}

bool PlannerThread::value_hours(const Errand& errand) {
  const bool said = errand.situation->shop().settings.hour_value.has_value();
  std::vector<decision::BacklogCase> cases;
  for (const MachineId machine : errand.situation->waiting()) {
    if (said) break;
    if (is_over(errand)) return false;
    if (auto made = errand.situation->case_of(machine, hour_value_.value))
      cases.push_back({std::to_string(number(machine)), std::move(made->of)});
  }
  const auto value = planning::hour_value(*errand.situation, cases, budget_of(errand, Pains::listed));
  if (is_over(errand)) return false;
  // Without a value the plans are made with the last one that there was.
  const bool moved = value && (value->from != hour_value_.from ||
                               std::abs(value->value - hour_value_.value) > kSameHourValue);
  if (moved) hour_value_ = *value;
  listener_.worth_of_hour(errand.situation, hour_value_);
  const bool first = !std::exchange(hours_are_valued_, true);
  if (!said && (moved || first) && errand.watched) plan_one(errand, *errand.watched, Pains::firm);
  return true;
}

const PlannerThread::Kept* PlannerThread::kept_for(MachineId machine, const diagnosis::Case& of,
                                                   Pains pains) const {
  const auto serves = [&](const Kept& kept) {
    if (kept.pains < pains && !kept.plan.refined) return false;
    diagnosis::Case its = kept.of;
    its.sunk = of.sunk;
    return its == of;
  };
  if (const auto own = kept_.find(machine); own != kept_.end() && serves(own->second)) return &own->second;
  const auto other =
      std::find_if(kept_.begin(), kept_.end(), [&](const auto& each) { return serves(each.second); });
  return other == kept_.end() ? nullptr : &other->second;
}

void PlannerThread::plan_one(const Errand& errand, MachineId machine, Pains pains) {
  auto made = errand.situation->case_of(machine, hour_value_.value);
  if (!made) {
    kept_.erase(machine);
    return listener_.planned(errand.situation, machine,
                             {.problem = std::move(made.error()), .firm = true, .refined = true});
  }
  MachinePlan plan{.asked = std::make_shared<const learning::MachineCase>(*std::move(made))};
  const diagnosis::Case& of = plan.asked->of;
  if (const Kept* const kept = kept_for(machine, of, pains)) {
    plan.problem = kept->plan.problem;
    plan.firm = hours_are_valued_ && (kept->plan.refined || kept->pains != Pains::first_look);
    plan.refined = kept->plan.refined;
    if (kept->plan.answer != nullptr) {
      auto answer = std::make_shared<decision::Answer>(*kept->plan.answer);
      answer->profit = decision::profit_of(*answer, of);
      plan.answer = std::move(answer);
    }
    kept_.insert_or_assign(machine, Kept{of, plan, kept->pains});
    return listener_.planned(errand.situation, machine, std::move(plan));
  }
  auto answer = decision::verdict(of, budget_of(errand, pains), figures_of(pains));
  if (is_over(errand)) return;  // it was cut short
  if (answer) {
    plan.refined = pains == Pains::refined ||
                   (answer->gap == 0 && answer->break_even_price.exact && answer->worth_per_hour.exact);
    plan.firm = hours_are_valued_ && (plan.refined || pains != Pains::first_look);
    plan.answer = std::make_shared<const decision::Answer>(*std::move(answer));
  } else {
    plan.problem = std::move(answer.error());
    plan.firm = plan.refined = true;
  }
  kept_.insert_or_assign(machine, Kept{of, plan, pains});
  listener_.planned(errand.situation, machine, std::move(plan));
}

}  // namespace secondpull::app
