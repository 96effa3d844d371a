#include "core/lessons/reliability.h"

#include <algorithm>
#include <array>

namespace secondpull::lessons {
namespace {

constexpr int kTenths = 10;

/// The smallest number of which at least a part p of the chances lies at it or below.
std::size_t quantile(const std::vector<double>& chances, double p) {
  double below = 0;
  for (std::size_t count = 0; count < chances.size(); ++count) {
    below += chances[count];
    if (below >= p) return count;
  }
  return chances.size() - 1;
}

std::vector<Tenth> in_tenths(std::span<const Said> said) {
  std::array<Tenth, kTenths> tenths{};
  for (const Said& each : said) {
    const int place = std::clamp(static_cast<int>(each.chance * kTenths), 0, kTenths - 1);
    Tenth& tenth = tenths[static_cast<std::size_t>(place)];
    tenth.from = place;
    ++tenth.seen.tried;
    if (each.came) ++tenth.seen.cured;
    tenth.said += each.chance;
  }
  std::vector<Tenth> found;
  for (Tenth& tenth : tenths) {
    if (tenth.seen.tried == 0) continue;
    tenth.said /= static_cast<double>(tenth.seen.tried);
    tenth.range = learning::jeffreys_interval(tenth.seen, kShownLevel);
    found.push_back(tenth);
  }
  return found;
}

}  // namespace

std::vector<double> how_many_come(std::span<const double> chances) {
  std::vector<double> sum{1};
  for (const double chance : chances) {
    sum.push_back(0);
    for (std::size_t count = sum.size() - 1; count > 0; --count)
      sum[count] = sum[count] * (1 - chance) + sum[count - 1] * chance;
    sum[0] *= 1 - chance;
  }
  return sum;
}

Reliability reliability(std::span<const Said> said) {
  Reliability held{.tenths = in_tenths(said)};
  if (said.empty()) return held;
  std::vector<double> chances;
  for (const Said& each : said) {
    const double off = each.chance - (each.came ? 1 : 0);
    ++held.all.tried;
    if (each.came) ++held.all.cured;
    held.said += each.chance;
    held.brier += off * off;
    chances.push_back(each.chance);
  }
  const auto n = static_cast<double>(said.size());
  held.said /= n;
  held.brier /= n;
  const double share = static_cast<double>(held.all.cured) / n;
  held.brier_of_the_share = share * (1 - share);

  const std::vector<double> come = how_many_come(chances);
  const auto quantile_at = [&](double p) { return static_cast<double>(quantile(come, p)); };
  held.least_expected = quantile_at((1 - kShownLevel) / 2);
  held.most_expected = quantile_at((1 + kShownLevel) / 2);
  const auto came = static_cast<double>(held.all.cured);
  if (said.size() < kLeastCases) return held;
  if (came < quantile_at((1 - kSayingLevel) / 2)) held.differs = Differs::lower;
  if (came > quantile_at((1 + kSayingLevel) / 2)) held.differs = Differs::higher;
  return held;
}

}  // namespace secondpull::lessons
