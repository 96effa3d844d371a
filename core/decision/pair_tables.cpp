#include "core/decision/pair_tables.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "core/decision/wide.h"

namespace secondpull::decision {
namespace {

using Line = OddsGrid::Line;

constexpr double less_rounding = 1 - 1e-5;

/// The charge at every point. Whether the step can be better than `value` anywhere: what is left after it is
/// at least `rest` times what there was, so the regret is at least charge / (1 - rest) where it is the best
/// step.
bool charge_line(const OddsGrid& grid, double c, double d, double rest, const Line& value, Line& line) {
  const auto gone = static_cast<float>(1 - rest * less_rounding);
  const auto charge_c = static_cast<float>(c);
  const auto charge_d = static_cast<float>(d);
  unsigned below = 0;
  for (std::size_t i = 0; i < OddsGrid::points; ++i) {
    line[i] = charge_c * grid.y_line[i] + charge_d * grid.x_line[i];
    below |= static_cast<unsigned>(line[i] < gone * value[i]);
  }
  return below != 0;
}

void add_shifted(const OddsGrid::Padded& padded, const OddsShift& shift, Line& line) {
  const float* const from = padded.data() + shift.from;
  for (std::size_t i = 0; i < OddsGrid::points; ++i)
    line[i] += shift.at[i] * from[i] + shift.next[i] * from[i + 1];
}

void take_lower(const Line& line, Line& value) {
  for (std::size_t i = 0; i < OddsGrid::points; ++i)
    value[i] = line[i] < value[i] ? line[i] : value[i];
}

}  // namespace

void PairTables::clear() {
  lines_.clear();
  places_.assign(first_room, {});
}

void PairTables::grow() {
  std::vector<Place> old(places_.size() * 2);
  old.swap(places_);
  for (const Place& place : old)
    if (place.line != no_line) places_[place_of(place.key)] = place;
}

const Line& PairTables::make(const CostShares& shares, std::size_t set, std::size_t pair, Index index,
                             std::uint64_t key) {
  Line value;
  build(shares, set, pair, index, value);
  if (2 * (lines_.size() + 1) > places_.size()) grow();
  const std::size_t added = lines_.add(value);
  places_[place_of(key)] = {key, static_cast<std::uint32_t>(added)};
  return lines_[added];
}

const PairTables::Charges& PairTables::charges(std::size_t at, Index index) {
  const CausePairs::Pair& pair = pairs_.pairs()[at];
  const Index runs = pair.repairs.empty() ? 1 : pair.repairs.back().stride * pair.repairs.back().values;
  if (charges_[at].size() < runs) charges_[at].resize(runs);
  Charges& charges = charges_[at][index % runs];
  if (charges.stops.empty()) charges = charges_at(pair, index);
  return charges;
}

PairTables::Charges PairTables::charges_at(const CausePairs::Pair& pair, Index index) const {
  State at;
  at.left.assign(space_.layout().repairs.size(), 0);
  at.run.assign(space_.layout().causes(), 0);
  for (const CausePairs::Repair& repair : pair.repairs) {
    const Index left = index / repair.stride % repair.values;
    at.left[repair.repair] = static_cast<std::uint8_t>(left);
    for (const std::size_t cause : {pair.c, pair.d})
      at.run[cause] += space_.perfect().stride(repair.repair, cause) * (repair.values - 1 - left);
  }
  Charges charges;
  const double perfect_c = space_.perfect().worth(pair.c, at.run[pair.c], at.left);
  const double perfect_d = space_.perfect().worth(pair.d, at.run[pair.d], at.left);
  for (const Layout::Stop& stop : space_.layout().stops)
    charges.stops.push_back(
        {std::max(0.0, perfect_c - stop.worth[pair.c]), std::max(0.0, perfect_d - stop.worth[pair.d])});
  for (const CausePairs::Repair& repair : pair.repairs)
    if (at.left[repair.repair] > 0)
      charges.repairs.push_back(
          {space_.repair_charge(at, repair.repair, pair.c), space_.repair_charge(at, repair.repair, pair.d)});
    else
      charges.repairs.emplace_back();
  return charges;
}

SECONDPULL_WIDE
void PairTables::build(const CostShares& shares, std::size_t set, std::size_t at, Index index, Line& value) {
  const CausePairs::Pair& pair = pairs_.pairs()[at];
  const OddsGrid& grid = pairs_.grid();
  const Charges& charge = charges(at, index);
  const auto [c, d] = std::pair{pair.c, pair.d};
  value.fill(std::numeric_limits<float>::infinity());
  Line line;
  const double stop_c = shares.of(shares.stop(), c, d);
  const double stop_d = shares.of(shares.stop(), d, c);
  for (const Charge& stop : charge.stops)
    if (charge_line(grid, stop_c * stop.c, stop_d * stop.d, 0, value, line)) take_lower(line, value);
  for (std::size_t i = 0; i < pair.repairs.size(); ++i) {
    const CausePairs::Repair& repair = pair.repairs[i];
    if (index / repair.stride % repair.values == 0) continue;
    const double share_c = shares.of(repair.repair, c, d);
    const double share_d = shares.of(repair.repair, d, c);
    if (!charge_line(grid, share_c * charge.repairs[i].c, share_d * charge.repairs[i].d, repair.rest, value,
                     line))
      continue;
    if (!repair.failed.certain)
      add_shifted(grid.padded(this->line(shares, set, at, index - repair.stride)), repair.failed, line);
    take_lower(line, value);
  }
  const std::size_t repairs = space_.layout().repairs.size();
  for (const CausePairs::Slot& slot : pair.slots) {
    if (index / slot.stride % 2 == 0) continue;
    for (const CausePairs::Test& test : slot.tests) {
      const double cost = space_.layout().tests[test.test].cost;
      const double share_c = shares.of(repairs + test.test, c, d);
      const double share_d = shares.of(repairs + test.test, d, c);
      if (!charge_line(grid, share_c * cost, share_d * cost, test.rest, value, line)) continue;
      const OddsGrid::Padded padded = grid.padded(this->line(shares, set, at, index - slot.stride));
      for (const OddsShift& outcome : test.outcomes)
        if (!outcome.certain) add_shifted(padded, outcome, line);
      take_lower(line, value);
    }
  }
}

}  // namespace secondpull::decision
