#include "core/decision/cause_pairs.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace secondpull::decision {
namespace {

/// More of a pair's tests than these would make too many tables.
constexpr std::size_t most_slots = 14;
/// A pair with more repairs than these is left out.
constexpr std::size_t most_values = std::size_t{1} << 12U;

double share_at(double log_odds) {
  return 1 / (1 + std::exp(-log_odds));
}

double log_odds_at(double place) {
  return -OddsGrid::span + place * OddsGrid::step;
}

}  // namespace

OddsGrid::OddsGrid() {
  constexpr auto count = static_cast<double>(points);
  for (std::size_t i = 0; i < points; ++i) {
    const auto place = static_cast<double>(i);
    x[i] = share_at(log_odds_at(place));
    y[i] = share_at(-log_odds_at(place));
    x_line[i] = static_cast<float>(x[i]);
    y_line[i] = static_cast<float>(y[i]);
  }
  for (std::size_t i = 0; i < points; ++i) {
    per_width_[i] = i + 1 < points ? 1 / (x[i + 1] - x[i]) : 0;
    const auto place = static_cast<double>(i);
    below_[i] = static_cast<float>(share_at(log_odds_at(place - count)) / x.front());
    above_[i] = static_cast<float>(share_at(-log_odds_at(place + count)) / y.back());
  }
}

OddsGrid::Padded OddsGrid::padded(const Line& line) const {
  Padded all;
  for (std::size_t i = 0; i < points; ++i)
    all[i] = below_[i] * line.front();
  for (std::size_t i = 0; i < points; ++i)
    all[points + i] = line[i];
  for (std::size_t i = 0; i < points; ++i)
    all[2 * points + i] = above_[i] * line.back();
  return all;
}

OddsShift odds_shift(const OddsGrid& grid, double p, double q) {
  OddsShift shift;
  shift.at.fill(0);
  shift.next.fill(0);
  if (p <= 0 || q <= 0) {
    shift.certain = true;
    return shift;
  }
  constexpr auto points = static_cast<double>(OddsGrid::points);
  const double places = std::clamp(std::log(q / p) / OddsGrid::step, -points - 1, points + 1);
  // Beyond the padding the line is straight down to certainty, so any one point of it will do.
  const double whole = std::clamp(std::floor(places), -points, points - 1);
  const bool beyond = places < -points || places >= points;
  shift.from = static_cast<std::size_t>(points + whole);
  for (std::size_t i = 0; i < OddsGrid::points; ++i) {
    const double mass_c = grid.y[i] * p;
    const double mass_d = grid.x[i] * q;
    const double place = static_cast<double>(i) + whole;
    const double left = share_at(log_odds_at(place));
    if (beyond) {
      shift.at[i] = static_cast<float>(whole < 0 ? mass_d / left : mass_c / share_at(-log_odds_at(place)));
      continue;
    }
    const double right = share_at(log_odds_at(place + 1));
    const double upper =
        std::clamp((mass_d - (mass_c + mass_d) * left) / (right - left), 0.0, mass_c + mass_d);
    shift.at[i] = static_cast<float>(mass_c + mass_d - upper);
    shift.next[i] = static_cast<float>(upper);
  }
  return shift;
}

CausePairs::CausePairs(const StateSpace& space)
    : causes_(space.layout().causes()),
      apart_(space.layout().tests.size() * causes_ * causes_, 0),
      touched_(space.layout().steps()) {
  const Layout& layout = space.layout();
  for (std::size_t test = 0; test < layout.tests.size(); ++test)
    for (std::size_t c = 0; c < causes_; ++c)
      for (std::size_t d = 0; d < causes_; ++d) {
        double overlap = 0;
        bool same = true;
        for (const Layout::Outcome& outcome : layout.tests[test].outcomes) {
          overlap += std::min(outcome.row[c], outcome.row[d]);
          same = same && outcome.row[c] == outcome.row[d];
        }
        apart_[(test * causes_ + c) * causes_ + d] = same ? 0 : std::clamp(1 - overlap, 0.0, 1.0);
      }
  for (std::size_t c = 0; c < causes_; ++c)
    for (std::size_t d = c + 1; d < causes_; ++d) {
      Pair pair = pair_of(space, c, d);
      if (pair.factor <= 0) continue;
      for (const Repair& repair : pair.repairs)
        touched_[repair.repair].push_back({pairs_.size(), repair.stride, true});
      for (const Slot& slot : pair.slots)
        for (std::size_t test = 0; test < layout.tests.size(); ++test)
          if (layout.tests[test].slot == slot.slot)
            touched_[layout.repairs.size() + test].push_back(
                {pairs_.size(), slot.stride, apartness(test, c, d) > 0});
      pairs_.push_back(std::move(pair));
    }
}

double CausePairs::apartness(std::size_t test, std::size_t c, std::size_t d) const {
  return apart_[(test * causes_ + c) * causes_ + d];
}

CausePairs::Pair CausePairs::pair_of(const StateSpace& space, std::size_t c, std::size_t d) const {
  const Layout& layout = space.layout();
  Pair pair{c, d, {}, {}, 1};
  Index stride = 1;
  const auto chance = [](const Layout::Repair& repair, std::size_t cause) {
    const auto cure = std::ranges::find(repair.cures, cause, &Layout::Cure::cause);
    return cure == repair.cures.end() ? 0.0 : cure->chance;
  };
  for (std::size_t a = 0; a < layout.repairs.size(); ++a) {
    const double cures_c = chance(layout.repairs[a], c);
    const double cures_d = chance(layout.repairs[a], d);
    if (cures_c <= 0 && cures_d <= 0) continue;
    const Index values = static_cast<Index>(layout.repairs[a].tries) + 1;
    pair.repairs.push_back({a, stride, values, cures_c, cures_d, 1 - std::max(cures_c, cures_d),
                            odds_shift(grid_, 1 - cures_c, 1 - cures_d)});
    stride *= values;
    if (stride > most_values) {
      pair.factor = 0;
      return pair;
    }
  }
  struct Teller {
    std::size_t slot = 0;
    double apart = 0;  ///< of its best test
  };
  std::vector<Teller> tellers;
  for (std::size_t slot = 0; slot < layout.slots; ++slot) {
    Teller teller{slot, 0};
    for (std::size_t test = 0; test < layout.tests.size(); ++test) {
      if (layout.tests[test].slot != slot) continue;
      teller.apart = std::max(teller.apart, apartness(test, c, d));
    }
    if (teller.apart > 0) tellers.push_back(teller);
  }
  std::ranges::stable_sort(tellers, std::greater{}, &Teller::apart);
  for (std::size_t i = most_slots; i < tellers.size(); ++i)
    pair.factor *= 1 - tellers[i].apart;
  tellers.resize(std::min(tellers.size(), most_slots));
  for (const Teller& teller : tellers) {
    Slot slot{teller.slot, stride, {}};
    stride *= 2;
    for (std::size_t test = 0; test < layout.tests.size(); ++test) {
      if (layout.tests[test].slot != teller.slot || apartness(test, c, d) <= 0) continue;
      Test tells{test, 1 - apartness(test, c, d), {}};
      for (const Layout::Outcome& outcome : layout.tests[test].outcomes)
        tells.outcomes.push_back(odds_shift(grid_, outcome.row[c], outcome.row[d]));
      slot.tests.push_back(std::move(tells));
    }
    pair.slots.push_back(std::move(slot));
  }
  return pair;
}

CausePairs::Index CausePairs::index(const Pair& pair, const State& at) const {
  Index index = 0;
  for (const Repair& repair : pair.repairs)
    index += repair.stride * at.left[repair.repair];
  for (const Slot& slot : pair.slots)
    if (at.open[slot.slot] != 0) index += slot.stride;
  return index;
}

}  // namespace secondpull::decision
