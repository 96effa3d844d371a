#include "app/planning/planning.h"

#include "app/frame/session.h"

namespace secondpull::app {

using planning::Situation;

Planning::Planning(Session& session) : session_{session} {
  // What the thread tells is of use only as long as the records are those it is about.
  const auto tell = [this](const std::shared_ptr<const Situation>& about, auto act) {
    QMetaObject::invokeMethod(
        this,
        [this, about, act = std::move(act)] {
          if (about == situation_) act();
        },
        Qt::QueuedConnection);
  };
  thread_ = std::make_unique<PlannerThread>(PlannerThread::Listener{
      .planned =
          [this, tell](std::shared_ptr<const Situation> about, MachineId machine, MachinePlan plan) {
            tell(about, [this, machine, plan = std::move(plan)] {
              plans_[machine] = plan;
              emit planned(machine);
            });
          },
      .worth_of_hour =
          [this, tell](std::shared_ptr<const Situation> about, planning::HourValue value) {
            tell(about, [this, value] {
              hour_value_ = value;
              emit hourValueChanged();
            });
          },
      .settled =
          [this, tell](std::shared_ptr<const Situation> about) {
            tell(about, [this] {
              settled_ = true;
              emit settled();
            });
          }});
  connect(&session_, &Session::changed, this, &Planning::renew);
}

Planning::~Planning() = default;

std::shared_ptr<const Situation> Planning::situation() {
  const auto books = session_.books();
  if (situation_ == nullptr || situation_of_ != books || situation_->today() != session_.today()) {
    situation_of_ = books;
    situation_ = std::make_shared<const Situation>(books, session_.knowledge(), session_.today());
    settled_ = false;
    asked_ = false;
  }
  return situation_;
}

void Planning::renew() {
  // Only a screen that shows plans has them made.
  if (situation_ == nullptr) return;
  ask();
}

void Planning::ask() {
  const auto about = situation();
  if (asked_) return;
  asked_ = true;
  thread_->plan(about, watched_);
}

void Planning::watch(std::optional<MachineId> machine) {
  if (watched_ == machine) return;
  watched_ = machine;
  asked_ = false;
  ask();
}

MachinePlan Planning::now(MachineId machine) {
  ask();
  // A plan made at another hour value stays until the one at the new value is there.
  const auto known = plans_.find(machine);
  const bool has = known != plans_.end() && known->second.asked != nullptr;
  const double hour_value = has ? known->second.asked->of.hour_value : hour_value_.value;
  auto made = situation()->case_of(machine, hour_value);
  if (!made) return {.problem = std::move(made.error()), .refined = true};
  if (has && known->second.asked->of == made->of) {
    MachinePlan plan = known->second;
    plan.asked = std::make_shared<const learning::MachineCase>(*std::move(made));
    return plan;
  }
  return {.asked = std::make_shared<const learning::MachineCase>(*std::move(made))};
}

MachinePlan Planning::last(MachineId machine) const {
  const auto known = plans_.find(machine);
  return known == plans_.end() ? MachinePlan{} : known->second;
}

planning::BacklogPlan Planning::backlog() {
  ask();
  planning::BacklogPlan backlog{.hour_value = hour_value_};
  for (const MachineId machine : situation_->waiting()) {
    const MachinePlan plan = last(machine);
    planning::Waiting& waiting = backlog.machines.emplace_back(planning::Waiting{.machine = machine});
    waiting.problem = plan.problem;
    waiting.asked = plan.asked;
    waiting.answer = plan.answer;
  }
  planning::sort_by_worth(backlog.machines);
  return backlog;
}

}  // namespace secondpull::app
