#include "core/books/overheads.h"

#include <algorithm>

namespace secondpull::bookkeeping {

namespace {

/// One line of labour on one machine, sorted by year and by tag.
struct Logged {
  int year;
  Position rank;
  Position machine;
  std::int64_t minutes;
};

std::span<const YearOfWork> work_of(std::span<const YearOfWork> work, int year) {
  const auto [first, last] =
      std::equal_range(work.begin(), work.end(), YearOfWork{.year = year},
                       [](const YearOfWork& a, const YearOfWork& b) { return a.year < b.year; });
  return {first, last};
}

/// One share for each machine worked on; none in a year without minutes.
std::vector<Money> shares_by_minutes(Money total, std::span<const YearOfWork> work) {
  std::vector<std::int64_t> weights;
  weights.reserve(work.size());
  for (const YearOfWork& year : work)
    weights.push_back(year.minutes.count);
  if (std::all_of(weights.begin(), weights.end(), [](std::int64_t minutes) { return minutes == 0; }))
    return {};
  return split(total, weights);
}

}  // namespace

std::map<int, Money> overheads_by_year(const Ledger& ledger) {
  std::map<int, Money> years;
  for (std::size_t i = 0; i < ledger.happenings().size(); ++i) {
    const Ledger::Happening& happening = ledger.happenings()[i];
    if (happening.turn != Turn::expense && happening.turn != Turn::trip) continue;
    const auto [first, last] = ledger.legs(i);
    for (const auto* leg = first; leg != last; ++leg)
      if (leg->account == AccountKind::expense && leg->machine == nowhere)
        years[year_of(happening.date)] += leg->amount;
  }
  return years;
}

Result<std::vector<YearOfWork>> work_by_year(const Shop& shop, const Lots& lots,
                                             const Positions<Machine>& places,
                                             std::span<const Position> rank) {
  std::vector<Logged> logged;
  logged.reserve(shop.all<Labour>().size());
  const auto log = [&](const Labour& labour, Position machine, std::int64_t minutes) {
    logged.push_back({year_of(labour.date), rank[machine], machine, minutes});
  };
  for (const Labour& labour : shop.all<Labour>()) {
    if (labour.machine) {
      const Position machine = places.of(*labour.machine);
      if (machine == nowhere)
        return problem("A line of labour names a machine that is not there.", "machine",
                       std::to_string(number(*labour.machine)));
      log(labour, machine, labour.minutes.count);
    } else if (labour.acquisition) {
      const Position acquisition = lots.acquisitions().of(*labour.acquisition);
      if (acquisition == nowhere)
        return problem("A line of labour names an acquisition that is not there.", "acquisition",
                       std::to_string(number(*labour.acquisition)));
      // Minutes are shared like money: whole ones, and none left over.
      const std::vector<Money> shares = lots.shares(acquisition, Money::from_minor(labour.minutes.count));
      for (std::size_t i = 0; i < shares.size(); ++i)
        log(labour, lots.machines(acquisition)[i], shares[i].minor());
    }
  }
  std::sort(logged.begin(), logged.end(), [](const Logged& a, const Logged& b) {
    return a.year != b.year ? a.year < b.year : a.rank < b.rank;
  });

  std::vector<YearOfWork> work;
  for (const Logged& line : logged) {
    if (work.empty() || work.back().year != line.year || work.back().machine != line.machine)
      work.push_back({line.year, line.rank, line.machine, {}});
    work.back().minutes += Minutes{line.minutes};
  }
  return work;
}

std::vector<OverheadShare> overhead_shares(const std::map<int, Money>& overheads,
                                           std::span<const YearOfWork> work) {
  std::vector<OverheadShare> shares;
  for (const auto& [year, total] : overheads) {
    const auto worked = work_of(work, year);
    const std::vector<Money> parts = shares_by_minutes(total, worked);
    for (std::size_t i = 0; i < parts.size(); ++i)
      if (!parts[i].is_zero()) shares.push_back({worked[i].machine, year, parts[i]});
  }
  std::stable_sort(shares.begin(), shares.end(),
                   [](const OverheadShare& a, const OverheadShare& b) { return a.machine < b.machine; });
  return shares;
}

Money overhead_share_with(const std::map<int, Money>& overheads, std::span<const YearOfWork> work, int year,
                          Position machine, Position rank, Minutes more) {
  const auto total = overheads.find(year);
  if (total == overheads.end()) return {};
  const auto known = work_of(work, year);
  std::vector<YearOfWork> worked(known.begin(), known.end());
  auto at = std::lower_bound(worked.begin(), worked.end(), rank,
                             [](const YearOfWork& one, Position wanted) { return one.rank < wanted; });
  if (at == worked.end() || at->rank != rank) at = worked.insert(at, {year, rank, machine, {}});
  at->minutes += more;
  const std::vector<Money> parts = shares_by_minutes(total->second, worked);
  return parts.empty() ? Money{} : parts[static_cast<std::size_t>(at - worked.begin())];
}

}  // namespace secondpull::bookkeeping
