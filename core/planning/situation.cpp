#include "core/planning/situation.h"

#include <chrono>
#include <utility>

#include "core/learning/units.h"
#include "core/planning/sale_forecast.h"
#include "core/shop/own_numbers.h"

namespace secondpull::planning {
namespace {

using learning::in_units;
using learning::kMinutesOfHour;

double in_hours(Minutes minutes) {
  return static_cast<double>(minutes.count) / kMinutesOfHour;
}

/// Hours logged from one day to another, both included.
double hours_between(const Shop& shop, std::chrono::sys_days from, std::chrono::sys_days to) {
  Minutes sum;
  for (const Labour& labour : shop.all<Labour>())
    if (const std::chrono::sys_days day{labour.date}; day >= from && day <= to)
      sum.count += labour.minutes.count;
  return in_hours(sum);
}

}  // namespace

Situation::Situation(std::shared_ptr<const Books> books, std::shared_ptr<const learning::KnowledgeBase> base,
                     Date today)
    : books_{std::move(books)},
      base_{std::move(base)},
      today_{today},
      learned_{learning::learned_from(books_->by_machine(), books_->shop(), base_->knowledge, today)},
      prices_{market::price_model(books_->by_machine(), books_->shop(), base_->knowledge, today)},
      times_{market::times_for_sale(books_->by_machine(), books_->shop(), prices_, today)} {
  for (const Machine& machine : shop().all<Machine>()) {
    const Stage stage = stage_of(books_->by_machine().of(machine.id));
    if (is_here(stage) && stage != Stage::for_sale) waiting_.push_back(machine.id);
  }
}

learning::Terms Situation::terms_of(MachineId machine, double hour_value) const {
  const Currency& currency = shop().settings.currency;
  learning::Terms terms{.hour_value = hour_value,
                        .day_cost = in_units(shop().settings.day_cost.value_or(Money{}), currency)};
  if (const MachineFigures* figures = books_->machine(machine))
    terms.sunk = {in_units(figures->cost_basis, currency), in_hours(figures->minutes)};
  if (const Machine* const record = shop().find(machine)) terms.sale = sale_of(*record);
  for (const auto& [path, value] : own_numbers(shop(), machine))
    terms.said.push_back({path, value});
  return terms;
}

learning::SaleForecast Situation::sale_of(const Machine& machine) const {
  return sale_forecast(prices_, times_, base_->knowledge, machine, today_);
}

Result<learning::MachineCase> Situation::case_of(MachineId machine, double hour_value) const {
  return learning::case_of_machine(shop(), books_->by_machine(), machine, base_->knowledge, learned_,
                                   terms_of(machine, hour_value));
}

Result<learning::MachineCase> Situation::case_before(FindingId id, double hour_value) const {
  const Finding* const finding = shop().find(id);
  if (finding == nullptr) return problem("That finding is not in the shop's records any more.", "finding");
  const MachineId machine = finding->machine;
  Shop before = shop();
  before.all<Finding>().erase(id);
  return learning::case_of_machine(before, ByMachine{before}, machine, base_->knowledge, learned_,
                                   terms_of(machine, hour_value));
}

HoursAWeek Situation::hours_a_week() const {
  if (const auto said = shop().settings.hours_a_week) return {static_cast<double>(said->count) / 10, false};
  const std::chrono::sys_days today{today_};
  const auto from = today - std::chrono::weeks{kWeeksLookedBack} + std::chrono::days{1};
  return {hours_between(shop(), from, today) / kWeeksLookedBack, true};
}

double Situation::hours_this_week() const {
  const std::chrono::sys_days today{today_};
  const auto since_monday = std::chrono::weekday{today} - std::chrono::Monday;
  return hours_between(shop(), today - since_monday, today);
}

}  // namespace secondpull::planning
