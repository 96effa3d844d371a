#include "core/planning/backlog_plan.h"

#include <algorithm>
#include <utility>

#include "core/learning/units.h"

namespace secondpull::planning {

Result<HourValue> hour_value(const Situation& situation, const std::vector<decision::BacklogCase>& cases,
                             const decision::Budget& per_solve) {
  const Settings& settings = situation.shop().settings;
  if (settings.hour_value)
    return HourValue{learning::in_units(*settings.hour_value, settings.currency), HourValue::From::said};
  const HoursAWeek week = situation.hours_a_week();
  if (week.hours <= 0) return HourValue{};
  return decision::shadow_price({.hours = kWeeksAhead * week.hours, .cases = cases}, per_solve)
      .map([](const decision::ShadowPrice& price) {
        return HourValue{price.hour_value, HourValue::From::computed};
      });
}

double worth_per_hour(const Waiting& waiting) {
  if (!waiting.answer) return -1;
  return waiting.answer->worth_per_hour.value.value_or(2 * decision::highest_hour_value);
}

void sort_by_worth(std::vector<Waiting>& machines) {
  std::stable_sort(machines.begin(), machines.end(),
                   [](const Waiting& a, const Waiting& b) { return worth_per_hour(a) > worth_per_hour(b); });
}

Result<BacklogPlan> plan_backlog(const Situation& situation, const decision::Budget& each) {
  BacklogPlan plan;
  std::vector<decision::BacklogCase> cases;
  for (const MachineId machine : situation.waiting()) {
    Waiting& waiting = plan.machines.emplace_back(Waiting{.machine = machine});
    auto made = situation.case_of(machine, 0);
    if (!made) {
      waiting.problem = std::move(made.error());
      continue;
    }
    cases.push_back({std::to_string(number(machine)), made->of});
  }
  auto value = hour_value(situation, cases, each);
  if (!value) return tl::unexpected(std::move(value.error()));
  plan.hour_value = *value;
  for (Waiting& waiting : plan.machines) {
    if (waiting.problem) continue;
    // Anew, as what is worth taking off a machine depends on the hour value.
    auto made = situation.case_of(waiting.machine, plan.hour_value.value);
    auto answer = made ? decision::verdict(made->of, each) : tl::unexpected(made.error());
    if (answer) {
      waiting.asked = std::make_shared<const learning::MachineCase>(*std::move(made));
      waiting.answer = std::make_shared<const decision::Answer>(*std::move(answer));
    } else {
      waiting.problem = std::move(answer.error());
    }
  }
  sort_by_worth(plan.machines);
  return plan;
}

WeekAhead week_ahead(const BacklogPlan& plan, double hours_left) {
  WeekAhead week{.hours_left = std::max(0.0, hours_left)};
  double left = week.hours_left;
  for (const Waiting& waiting : plan.machines) {
    if (!waiting.answer) continue;
    const bool pays = waiting.answer->next.kind != decision::Move::Kind::stop;
    if (!pays) {
      week.stop_now.push_back(waiting.machine);
    } else if (left > 0) {
      week.work.push_back(waiting.machine);
      left -= waiting.answer->expected.hours;
    } else {
      week.later.push_back(waiting.machine);
    }
  }
  return week;
}

}  // namespace secondpull::planning
