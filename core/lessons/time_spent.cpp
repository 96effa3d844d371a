#include "core/lessons/time_spent.h"

#include <algorithm>
#include <map>

namespace secondpull::lessons {
namespace {

using MinutesByWork = std::map<Work, Minutes>;

/// What a machine has of its acquisition's hours, by their kinds of work.
void add_share(MinutesByWork& by_work, const ByMachine::Lines& lines, Minutes share) {
  if (share.count <= 0) return;
  std::vector<Work> works;
  std::vector<std::int64_t> weights;
  for (const Labour* labour : lines.acquisition_labour) {
    works.push_back(labour->work);
    weights.push_back(labour->minutes.count);
  }
  if (works.empty()) return;
  const std::vector<Money> parts = split(Money::from_minor(share.count), weights);
  for (std::size_t at = 0; at < works.size(); ++at)
    by_work[works[at]] += Minutes{parts[at].minor()};
}

}  // namespace

TimeSpent time_spent(const Books& books) {
  TimeSpent spent;
  std::vector<double> each;
  std::map<Work, TimeOfWork> by_work;
  for (const MachineFigures& figures : books.machines()) {
    if (is_here(figures.stage)) continue;
    const ByMachine::Lines& lines = books.by_machine().of(figures.machine);
    MinutesByWork own;
    Minutes directly;
    for (const Labour* labour : lines.labour) {
      own[labour->work] += labour->minutes;
      directly += labour->minutes;
    }
    add_share(own, lines, {figures.minutes.count - directly.count});
    for (const auto& [work, minutes] : own) {
      if (minutes.count == 0) continue;
      TimeOfWork& sum = by_work[work];
      sum.work = work;
      sum.minutes += minutes;
      ++sum.machines;
    }
    ++spent.machines;
    spent.minutes += figures.minutes;
    each.push_back(static_cast<double>(figures.minutes.count));
  }
  spent.each = mean_of(each);
  for (const auto& [work, sum] : by_work)
    spent.by_work.push_back(sum);
  std::stable_sort(spent.by_work.begin(), spent.by_work.end(),
                   [](const TimeOfWork& a, const TimeOfWork& b) { return a.minutes > b.minutes; });
  for (const Labour& labour : books.shop().all<Labour>())
    if (!labour.machine && !labour.acquisition) spent.shop_in_general += labour.minutes;
  return spent;
}

}  // namespace secondpull::lessons
