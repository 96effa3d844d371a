#include "core/lessons/flow.h"

#include <algorithm>

#include "core/lessons/rates.h"

namespace secondpull::lessons {
namespace {

bool here_in_the_evening_of(const Stay& stay, Date day) {
  return stay.came <= day && (!stay.left || day < *stay.left);
}

}  // namespace

std::vector<Stay> stays(const ByMachine& by_machine, const Shop& shop) {
  std::vector<Stay> all;
  for (const Machine& machine : shop.all<Machine>()) {
    const ByMachine::Lines& lines = by_machine.of(machine.id);
    if (lines.acquisition == nullptr) continue;
    Stay stay{.machine = machine.id, .came = lines.acquisition->date};
    // Sales and returns take turns.
    for (std::size_t at = 0; at < lines.sales.size(); ++at) {
      stay.left = lines.sales[at]->date;
      if (at >= lines.returns.size()) break;
      all.push_back(stay);
      stay = {.machine = machine.id, .came = lines.returns[at]->date};
    }
    if (!lines.disposals.empty()) stay.left = lines.disposals.back()->date;
    all.push_back(stay);
  }
  return all;
}

Flow flow(std::span<const Stay> all, Date from, Date to) {
  Flow flow{.from = from, .to = to, .days = days_between(from, to) + 1};
  const Date before = plus_days(from, -1);
  std::vector<double> through;
  for (const Stay& stay : all) {
    if (here_in_the_evening_of(stay, before)) ++flow.here_before;
    if (here_in_the_evening_of(stay, to)) ++flow.here_after;
    if (stay.came >= from && stay.came <= to) ++flow.came;
    if (stay.left && *stay.left >= from && *stay.left <= to) {
      ++flow.left;
      through.push_back(static_cast<double>(days_between(stay.came, *stay.left)));
    }
    const Date first = std::max(stay.came, from);
    const Date end = std::min(stay.left.value_or(plus_days(to, 1)), plus_days(to, 1));
    if (first < end) flow.machine_days += days_between(first, end);
  }
  flow.days_through = mean_of(through);
  return flow;
}

double Flow::in_work() const {
  return days > 0 ? static_cast<double>(machine_days) / days : 0;
}
double Flow::left_a_month() const {
  return days > 0 ? static_cast<double>(left) / days * kDaysAMonth : 0;
}
double Flow::came_a_month() const {
  return days > 0 ? static_cast<double>(came) / days * kDaysAMonth : 0;
}

double months_through(double in_work, double a_month) {
  return in_work / a_month;
}

Differs grows(const Flow& flow) {
  constexpr double kAsLikely = 0.5;
  return differs(learning::Tries{.tried = static_cast<std::int64_t>(flow.came + flow.left),
                                 .cured = static_cast<std::int64_t>(flow.came)},
                 kAsLikely);
}

Waits waits(const ByMachine& by_machine, const Shop& shop) {
  std::vector<double> yard, bench, sale;
  for (const Machine& machine : shop.all<Machine>()) {
    const ByMachine::Lines& lines = by_machine.of(machine.id);
    if (lines.acquisition == nullptr || lines.sales.size() != 1 || !lines.returns.empty() ||
        lines.listings.empty())
      continue;
    const Date came = lines.acquisition->date;
    const Date listed = lines.listings.front()->date;
    const Date sold = lines.sales.front()->date;
    const Date work = std::min(bench_since(lines).value_or(listed), listed);
    if (listed > sold || work < came) continue;
    yard.push_back(days_between(came, work));
    bench.push_back(days_between(work, listed));
    sale.push_back(days_between(listed, sold));
  }
  return {mean_of(yard), mean_of(bench), mean_of(sale)};
}

}  // namespace secondpull::lessons
