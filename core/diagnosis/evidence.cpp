#include "core/diagnosis/evidence.h"

#include <algorithm>
#include <functional>
#include <numeric>
#include <set>
#include <string_view>

#include "core/diagnosis/belief.h"

namespace secondpull::diagnosis {
namespace {

template <class Item>
const Item* find_id(const std::vector<Item>& list, std::string_view id) {
  const auto at = std::find_if(list.begin(), list.end(), [&](const Item& item) { return item.id == id; });
  return at == list.end() ? nullptr : &*at;
}

/// P(what the line says | cause) by cause.
std::vector<double> chances_of(const Case& of, const Evidence& line) {
  if (const auto* failed = std::get_if<RepairFailed>(&line)) {
    std::vector<double> row = cure_row(*find_id(of.repairs, failed->repair), of.causes);
    for (double& chance : row)
      chance = 1 - chance;
    return row;
  }
  const auto& showed = std::get<TestShowed>(line);
  const Test& test = *find_id(of.tests, showed.test);
  const auto outcome = std::find(test.outcomes.begin(), test.outcomes.end(), showed.outcome);
  return likelihood_table(test, of.causes)[static_cast<std::size_t>(outcome - test.outcomes.begin())];
}

}  // namespace

std::vector<std::size_t> counting_lines(const Case& of) {
  std::vector<std::size_t> lines;
  std::set<std::string_view> seen;  // groups with a later line
  for (std::size_t i = of.evidence.size(); i-- > 0;) {
    if (const auto* showed = std::get_if<TestShowed>(&of.evidence[i])) {
      const Test* test = find_id(of.tests, showed->test);
      if (test == nullptr) continue;
      if (!test->group.empty() && !seen.insert(test->group).second) continue;
    }
    lines.push_back(i);
  }
  std::reverse(lines.begin(), lines.end());
  return lines;
}

Update update(const Case& of, std::vector<double> belief, const Evidence& line) {
  const std::vector<double> chances = chances_of(of, line);
  std::transform(belief.begin(), belief.end(), chances.begin(), belief.begin(), std::multiplies<>{});
  const double seen = std::accumulate(belief.begin(), belief.end(), 0.0);
  if (seen <= 0) return {std::vector<double>(belief.size(), 0.0), false};
  for (double& p : belief)
    p /= seen;
  return {std::move(belief), true};
}

std::vector<double> prior(const std::vector<Cause>& causes) {
  // Divided by the largest first, so that no sum of finite weights overflows.
  double largest = 0;
  for (const Cause& cause : causes)
    largest = std::max(largest, cause.weight);
  std::vector<double> shares;
  for (const Cause& cause : causes)
    shares.push_back(cause.weight / largest);
  const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
  for (double& share : shares)
    share /= sum;
  return shares;
}

}  // namespace secondpull::diagnosis
