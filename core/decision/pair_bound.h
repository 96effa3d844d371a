#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "core/decision/cause_pairs.h"
#include "core/decision/cost_shares.h"
#include "core/decision/pair_tables.h"

namespace secondpull::decision {

/// A lower bound on the regret of a state: the regrets of all pairs of its causes, each solved on its own
/// with its shares of the charges, added up. The shares are made for a belief and bound every state with the
/// same causes, best those near that belief; there can be several sets of them.
class PairBound {
 public:
  using Set = std::size_t;
  static constexpr Set root_set = 0;

  /// The bound of a state pair by pair, for bounding what follows from it.
  struct Parts {
    std::vector<double> log_weight;        ///< [cause]
    std::vector<CausePairs::Index> index;  ///< [pair]
    std::vector<double> regret;            ///< [pair]
    double total = 0;
  };

  explicit PairBound(const StateSpace& space);
  /// Makes the first set, for the root of the search: to be called before there is a bound other than 0.
  /// Takes so many rounds unless `go_on`, asked after each, says no.
  void optimise_root(const State& root, std::size_t rounds, const std::function<bool()>& go_on);

  void bound(const State& at, Set set, Parts& parts);
  /// The regret after the step, its own charge left out, is at least this; counting ends once charge and rest
  /// are seen to be above `enough`. `parts` are those of the state.
  double after_step(const State& at, Set set, const Parts& parts, std::size_t step, double charge,
                    double enough);

  /// Shares optimised for the state, starting from those of `set`; none if they are no better there.
  std::optional<Set> improved(const State& at, Set set, std::size_t rounds);
  /// The belief for which a set was made.
  const std::vector<double>& made_for(Set set) const { return sets_[set].belief; }

  /// How often lines were asked for by the search, and by the optimising of shares below the root.
  std::size_t asked() const { return tables_.asked(); }
  std::size_t asked_for_shares() const { return trial_.asked() - asked_at_root_; }
  std::size_t bytes() const;
  std::size_t line_bytes() const { return tables_.bytes(); }
  /// Forgets all lines; they are made again when needed.
  void drop_lines() { tables_.clear(); }

 private:
  struct Shares {
    CostShares shares;
    std::vector<std::size_t> pairs;  ///< those with both causes
    std::vector<char> has;           ///< [pair]
    std::vector<double> belief;      ///< normalised
  };
  Shares shares_for(const State& at, double least);
  double optimise(Shares& set, const State& at, std::size_t rounds, const std::function<bool()>& go_on);
  void add_usage(const CostShares& shares, std::size_t pair, CausePairs::Index index, double w_c, double w_d,
                 double least, std::vector<double>& usage);
  double regret(PairTables& tables, const CostShares& shares, Set set, std::size_t pair,
                CausePairs::Index index, double w_c, double w_d, double log_odds);

  const StateSpace& space_;
  CausePairs pairs_;
  std::vector<std::vector<double>> log_rows_;  ///< [running number of (test, outcome)][cause] log P
  std::vector<std::size_t> first_row_;         ///< [test]
  PairTables tables_;
  PairTables trial_;  ///< for shares that are being optimised
  std::vector<Shares> sets_;
  std::size_t asked_at_root_ = 0;
};

}  // namespace secondpull::decision
