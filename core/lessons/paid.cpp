#include "core/lessons/paid.h"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "core/learning/units.h"
#include "core/typed_words.h"

namespace secondpull::lessons {
namespace {

using learning::in_units;

/// A machine's profit, in units of the currency, and its hours.
struct Job {
  double profit = 0;
  double hours = 0;
};

/// A ratio of sums and how well it is known.
struct Ratio {
  double value = 0;
  double variance = 0;
  double degrees = 0;
};

std::optional<Ratio> ratio_of(const std::vector<Job>& jobs) {
  double profit = 0;
  double hours = 0;
  for (const Job& job : jobs) {
    profit += job.profit;
    hours += job.hours;
  }
  if (jobs.size() < 2 || !(hours > 0)) return std::nullopt;
  const auto n = static_cast<double>(jobs.size());
  Ratio ratio{.value = profit / hours, .degrees = n - 1};
  for (const Job& job : jobs) {
    const double off = job.profit - ratio.value * job.hours;
    ratio.variance += off * off;
  }
  ratio.variance *= n / (n - 1) / (hours * hours);
  return ratio;
}

/// Welch's t between two ratios, each of kLeastCases jobs at least.
Differs differs(const Ratio& group, const Ratio& others, double level) {
  const double variance = group.variance + others.variance;
  const double difference = group.value - others.value;
  if (!(variance > 0))
    return difference < 0 ? Differs::lower : difference > 0 ? Differs::higher : Differs::no;
  const double degrees =
      variance * variance /
      (group.variance * group.variance / group.degrees + others.variance * others.variance / others.degrees);
  const double least = student_quantile((1 + level) / 2, degrees) * std::sqrt(variance);
  if (difference < -least) return Differs::lower;
  return difference > least ? Differs::higher : Differs::no;
}

std::string month_left(const MachineFigures& figures) {
  if (!figures.days_held) return "";
  const Date left = plus_days(figures.acquired, *figures.days_held);
  return fmt::format("{:02}", unsigned{left.month()});
}

std::string name_of(const ByMachine::Lines& lines, const MachineFigures& figures,
                    const learning::Knowledge& knowledge, PaidBy by) {
  switch (by) {
    case PaidBy::kind:
      return std::string{word(lines.machine->kind)};
    case PaidBy::make:
      return std::string{trimmed(lines.machine->make)};
    case PaidBy::source:
      return lines.acquisition == nullptr ? "" : std::string{word(lines.acquisition->source)};
    case PaidBy::symptom: {
      const learning::Symptom* const symptom = knowledge.symptom(lines.machine->symptom);
      return symptom != nullptr ? symptom->name : std::string{trimmed(lines.machine->symptom)};
    }
    case PaidBy::month:
      return month_left(figures);
  }
  return "";
}

/// The jobs of a group. One without hours counts in the pay per hour too: its profit was earned all the same.
std::vector<Job> jobs_of(const std::vector<const MachineFigures*>& figures, const Currency& currency) {
  std::vector<Job> jobs;
  for (const MachineFigures* each : figures)
    jobs.push_back({in_units(*each->profit, currency),
                    static_cast<double>(each->minutes.count) / learning::kMinutesOfHour});
  return jobs;
}

std::size_t with_hours(const std::vector<Job>& jobs) {
  return static_cast<std::size_t>(
      std::count_if(jobs.begin(), jobs.end(), [](const Job& job) { return job.hours > 0; }));
}

Paid paid_of(std::string name, const std::vector<const MachineFigures*>& figures,
             const std::vector<Job>& jobs, const Currency& currency) {
  Paid paid{.name = std::move(name), .together = earned(figures)};
  std::vector<double> profits;
  for (const MachineFigures* each : figures) {
    paid.machines.push_back(each->machine);
    profits.push_back(in_units(*each->profit, currency));
  }
  paid.profit = mean_of(profits);
  if (paid.together.pay_per_hour) paid.hourly = in_units(*paid.together.pay_per_hour, currency);
  if (const auto ratio = ratio_of(jobs); ratio && with_hours(jobs) > 1) {
    const double half = student_quantile((1 + kShownLevel) / 2, ratio->degrees) * std::sqrt(ratio->variance);
    paid.hourly_range = {ratio->value - half, ratio->value + half};
  }
  std::vector<double> each_hourly;
  for (const Job& job : jobs)
    if (job.hours > 0) each_hourly.push_back(job.profit / job.hours);
  constexpr double kQuarter = 0.25;
  if (each_hourly.size() > 1)
    paid.middle_half = {*quantile_of(each_hourly, kQuarter), *quantile_of(each_hourly, 1 - kQuarter)};
  return paid;
}

}  // namespace

std::vector<Paid> paid_by(const Books& books, const learning::Knowledge& knowledge, PaidBy by) {
  struct Group {
    std::string name;
    std::vector<const MachineFigures*> figures;
  };
  std::vector<Group> groups;
  for (const MachineFigures& figures : books.machines()) {
    const ByMachine::Lines& lines = books.by_machine().of(figures.machine);
    if (!figures.profit || lines.machine == nullptr) continue;
    std::string name = name_of(lines, figures, knowledge, by);
    auto at = std::find_if(groups.begin(), groups.end(),
                           [&](const Group& group) { return same_word(group.name, name); });
    if (at == groups.end()) at = groups.insert(groups.end(), {std::move(name), {}});
    at->figures.push_back(&figures);
  }

  const Currency& currency = books.shop().settings.currency;
  std::vector<std::vector<Job>> jobs;
  std::size_t large = 0;
  for (const Group& group : groups) {
    jobs.push_back(jobs_of(group.figures, currency));
    if (with_hours(jobs.back()) >= kLeastCases) ++large;
  }
  std::vector<Paid> all;
  for (std::size_t at = 0; at < groups.size(); ++at) {
    Paid paid = paid_of(groups[at].name, groups[at].figures, jobs[at], currency);
    std::vector<Job> others;
    for (std::size_t other = 0; other < groups.size(); ++other)
      if (other != at) others.insert(others.end(), jobs[other].begin(), jobs[other].end());
    const auto own = ratio_of(jobs[at]);
    const auto rest = ratio_of(others);
    if (with_hours(jobs[at]) >= kLeastCases && with_hours(others) >= kLeastCases && own && rest)
      paid.differs = differs(*own, *rest, 1 - (1 - kPayLevel) / static_cast<double>(large));
    all.push_back(std::move(paid));
  }
  std::stable_sort(all.begin(), all.end(), [](const Paid& a, const Paid& b) {
    return a.hourly.has_value() != b.hourly.has_value() ? a.hourly.has_value()
                                                        : a.hourly && *a.hourly > *b.hourly;
  });
  return all;
}

}  // namespace secondpull::lessons
