#include "core/decision/pair_bound.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace secondpull::decision {
namespace {

/// Lines are kept in single precision; what rounding may have added to one is taken off.
constexpr double less_rounding = 1 - 6e-6;
/// Pairs with less of the belief than this in one cause are left out.
constexpr double least_share = 1e-6;
/// Causes with less than this, against the likeliest, get no share of their own when shares are improved.
constexpr double least_cause = 2e-5;
/// What a new set of shares takes from the rules of thumb.
constexpr double fresh_part = 0.05;
constexpr double first_rate = 0.5;
constexpr double rate_fall = 1.0 / 6;  ///< by round
/// Optimising ends when so many rounds did not make the bound larger by this factor.
constexpr std::size_t rounds_between_looks = 4;
constexpr double enough_gain = 1.01;
/// A pair's plan is followed down to this part of the belief.
constexpr double least_usage = 1e-5;

}  // namespace

PairBound::PairBound(const StateSpace& space)
    : space_(space), pairs_(space), tables_(space, pairs_), trial_(space, pairs_) {
  for (const Layout::Test& test : space.layout().tests) {
    first_row_.push_back(log_rows_.size());
    for (const Layout::Outcome& outcome : test.outcomes) {
      std::vector<double> row;
      for (const double chance : outcome.row)
        row.push_back(std::log(chance));
      log_rows_.push_back(std::move(row));
    }
  }
}

void PairBound::optimise_root(const State& root, std::size_t rounds, const std::function<bool()>& go_on) {
  sets_.push_back(shares_for(root, 0));
  optimise(sets_.back(), root, rounds, go_on);
  asked_at_root_ = trial_.asked();
}

PairBound::Shares PairBound::shares_for(const State& at, double least) {
  std::vector<std::size_t> causes;
  const double most = std::ranges::max(at.weight);
  for (std::size_t cause = 0; cause < at.weight.size(); ++cause)
    if (at.weight[cause] > least * most) causes.push_back(cause);
  std::vector<double> belief = at.weight;
  for (double& share : belief)
    share /= at.mass;
  CostShares shares(space_, pairs_, std::move(causes), belief);
  Shares set{std::move(shares), {}, std::vector<char>(pairs_.pairs().size(), 0), std::move(belief)};
  for (std::size_t pair = 0; pair < pairs_.pairs().size(); ++pair)
    if (set.shares.has(pairs_.pairs()[pair].c) && set.shares.has(pairs_.pairs()[pair].d)) {
      set.pairs.push_back(pair);
      set.has[pair] = 1;
    }
  return set;
}

double PairBound::regret(PairTables& tables, const CostShares& shares, Set set, std::size_t pair,
                         CausePairs::Index index, double w_c, double w_d, double log_odds) {
  return pairs_.pairs()[pair].factor * less_rounding *
         pairs_.grid().between(tables.line(shares, set, pair, index), w_c, w_d, log_odds);
}

void PairBound::bound(const State& at, Set set, Parts& parts) {
  if (sets_.empty()) {
    parts.total = 0;
    return;
  }
  const Shares& with = sets_[set];
  parts.log_weight.resize(at.weight.size());
  for (std::size_t cause = 0; cause < at.weight.size(); ++cause)
    parts.log_weight[cause] = std::log(at.weight[cause]);
  parts.index.resize(pairs_.pairs().size());
  parts.regret.assign(pairs_.pairs().size(), 0);
  parts.total = 0;
  const double least = least_share * at.mass;
  for (const std::size_t i : with.pairs) {
    const CausePairs::Pair& pair = pairs_.pairs()[i];
    const double w_c = at.weight[pair.c];
    const double w_d = at.weight[pair.d];
    if (w_c <= least || w_d <= least) continue;
    parts.index[i] = pairs_.index(pair, at);
    parts.regret[i] = regret(tables_, with.shares, set, i, parts.index[i], w_c, w_d,
                             parts.log_weight[pair.d] - parts.log_weight[pair.c]);
    parts.total += parts.regret[i];
  }
}

double PairBound::after_step(const State& at, Set set, const Parts& parts, std::size_t step, double charge,
                             double enough) {
  const Shares& with = sets_[set];
  const Layout& layout = space_.layout();
  const double least = least_share * at.mass;
  double total = parts.total;
  for (const CausePairs::Touched& touched : pairs_.touched(step)) {
    // A pair's regret is at most its share of the charge and what is left of it afterwards.
    if (total > enough) return total - charge;
    if (with.has[touched.pair] == 0) continue;
    const CausePairs::Pair& pair = pairs_.pairs()[touched.pair];
    const double w_c = at.weight[pair.c];
    const double w_d = at.weight[pair.d];
    if (w_c <= least || w_d <= least) continue;
    const double log_odds = parts.log_weight[pair.d] - parts.log_weight[pair.c];
    const OddsGrid::Line& line =
        tables_.line(with.shares, set, touched.pair, parts.index[touched.pair] - touched.stride);
    double after = 0;
    if (layout.is_repair(step)) {
      const auto repair = std::ranges::find(pair.repairs, step, &CausePairs::Repair::repair);
      const double keep_c = w_c * (1 - repair->cures_c);
      const double keep_d = w_d * (1 - repair->cures_d);
      if (keep_c > 0 && keep_d > 0)
        after = pairs_.grid().between(line, keep_c, keep_d, std::log(keep_d / keep_c));
    } else if (!touched.apart) {
      after = pairs_.grid().between(line, w_c, w_d, log_odds);
    } else {
      const std::size_t test = step - layout.repairs.size();
      const auto& outcomes = layout.tests[test].outcomes;
      for (std::size_t o = 0; o < outcomes.size(); ++o) {
        const double seen_c = w_c * outcomes[o].row[pair.c];
        const double seen_d = w_d * outcomes[o].row[pair.d];
        const auto& logs = log_rows_[first_row_[test] + o];
        if (seen_c > 0 && seen_d > 0)
          after += pairs_.grid().between(line, seen_c, seen_d, log_odds + logs[pair.d] - logs[pair.c]);
      }
    }
    total += pair.factor * less_rounding * after - parts.regret[touched.pair];
  }
  return total;
}

/// Follows the pair's best plan and adds up what it spends on each step.
void PairBound::add_usage(const CostShares& shares, std::size_t at, CausePairs::Index index, double w_c,
                          double w_d, double least, std::vector<double>& usage) {
  if (w_c <= 0 || w_d <= 0 || w_c + w_d < least) return;
  const CausePairs::Pair& pair = pairs_.pairs()[at];
  const Layout& layout = space_.layout();
  const std::size_t c = pair.c;
  const std::size_t d = pair.d;
  const PairTables::Charges& charges = trial_.charges(at, index);
  struct Best {
    double regret = std::numeric_limits<double>::infinity();
    std::size_t step = 0;
    PairTables::Charge charge;
    const CausePairs::Repair* repair = nullptr;
    const CausePairs::Slot* slot = nullptr;
    const CausePairs::Test* test = nullptr;
  } best;
  const auto shared = [&](std::size_t step, const PairTables::Charge& charge) {
    return shares.of(step, c, d) * charge.c * w_c + shares.of(step, d, c) * charge.d * w_d;
  };
  const auto rest = [&](CausePairs::Index after, double p, double q) {
    if (p <= 0 || q <= 0) return 0.0;
    return pairs_.grid().between(trial_.line(shares, 0, at, after), w_c * p, w_d * q,
                                 std::log(w_d * q / (w_c * p)));
  };
  for (const PairTables::Charge& stop : charges.stops)
    if (const double regret = shared(shares.stop(), stop); regret < best.regret)
      best = {regret, shares.stop(), stop};
  for (std::size_t i = 0; i < pair.repairs.size(); ++i) {
    const CausePairs::Repair& repair = pair.repairs[i];
    if (index / repair.stride % repair.values == 0) continue;
    double regret = shared(repair.repair, charges.repairs[i]);
    if (regret >= best.regret) continue;
    regret += rest(index - repair.stride, 1 - repair.cures_c, 1 - repair.cures_d);
    if (regret < best.regret) best = {regret, repair.repair, charges.repairs[i], &repair};
  }
  for (const CausePairs::Slot& slot : pair.slots) {
    if (index / slot.stride % 2 == 0) continue;
    for (const CausePairs::Test& test : slot.tests) {
      const double cost = layout.tests[test.test].cost;
      const std::size_t step = layout.repairs.size() + test.test;
      double regret = shared(step, {cost, cost});
      for (const Layout::Outcome& outcome : layout.tests[test.test].outcomes) {
        if (regret >= best.regret) break;
        regret += rest(index - slot.stride, outcome.row[c], outcome.row[d]);
      }
      if (regret < best.regret) best = {regret, step, {cost, cost}, nullptr, &slot, &test};
    }
  }
  usage[shares.at(best.step, c, d)] += best.charge.c * w_c;
  usage[shares.at(best.step, d, c)] += best.charge.d * w_d;
  if (best.repair != nullptr) {
    add_usage(shares, at, index - best.repair->stride, w_c * (1 - best.repair->cures_c),
              w_d * (1 - best.repair->cures_d), least, usage);
  } else if (best.test != nullptr) {
    for (const Layout::Outcome& outcome : layout.tests[best.test->test].outcomes)
      add_usage(shares, at, index - best.slot->stride, w_c * outcome.row[c], w_d * outcome.row[d], least,
                usage);
  }
}

/// Ascends the bound, which is concave in the shares, along supergradients; keeps the best shares seen.
/// @return the bound
double PairBound::optimise(Shares& set, const State& at, std::size_t rounds,
                           const std::function<bool()>& go_on) {
  CostShares now = set.shares;
  double best = -1;
  double looked_back = 0;
  std::vector<double> usage(now.size());
  for (std::size_t round = 0; round <= rounds; ++round) {
    trial_.clear();
    double total = 0;
    for (const std::size_t i : set.pairs) {
      const CausePairs::Pair& pair = pairs_.pairs()[i];
      const double w_c = at.weight[pair.c];
      const double w_d = at.weight[pair.d];
      if (w_c > 0 && w_d > 0)
        total += regret(trial_, now, 0, i, pairs_.index(pair, at), w_c, w_d, std::log(w_d / w_c));
    }
    if (total > best) {
      best = total;
      set.shares = now;
    }
    if (round == rounds || (go_on && !go_on())) break;
    if (round % rounds_between_looks == 0) {
      if (best < looked_back * enough_gain) break;
      looked_back = best;
    }
    std::ranges::fill(usage, 0);
    for (const std::size_t i : set.pairs) {
      const CausePairs::Pair& pair = pairs_.pairs()[i];
      add_usage(now, i, pairs_.index(pair, at), at.weight[pair.c], at.weight[pair.d], least_usage * at.mass,
                usage);
    }
    now.improve(usage, first_rate / std::sqrt(1 + rate_fall * static_cast<double>(round)));
  }
  trial_.clear();
  return best;
}

std::optional<PairBound::Set> PairBound::improved(const State& at, Set set, std::size_t rounds) {
  Parts parts;
  bound(at, set, parts);
  Shares better = shares_for(at, least_cause);
  better.shares.start_from(sets_[set].shares, fresh_part);
  if (optimise(better, at, rounds, {}) <= parts.total) return std::nullopt;
  sets_.push_back(std::move(better));
  return sets_.size() - 1;
}

std::size_t PairBound::bytes() const {
  std::size_t total = tables_.bytes() + trial_.bytes();
  for (const Shares& set : sets_)
    total += set.shares.bytes() + set.has.size() + set.pairs.size() * sizeof(std::size_t) +
             set.belief.size() * sizeof(double);
  return total;
}

}  // namespace secondpull::decision
