#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "core/decision/cause_pairs.h"

namespace secondpull::decision {

/// How the charge of each step, and of stopping, is shared out among the pairs: what a step is charged while
/// the cause is c is borne by the pairs (c, d) in shares that add up to 1 at most. Then the regrets of all
/// pairs, each solved on its own with its shares, add up to a lower bound of the whole regret. (Cost
/// partitioning as in classical planning: Katz and Domshlak 2010.) Only some causes take part; pairs with
/// others have no share.
class CostShares {
 public:
  static constexpr std::size_t not_there = static_cast<std::size_t>(-1);

  /// Shares by rules of thumb for a belief: tests go where they tell most, repairs to the causes that they
  /// cure, each more to the likelier ones. `causes` take part, rising.
  CostShares(const StateSpace& space, const CausePairs& pairs, std::vector<std::size_t> causes,
             std::span<const double> weight);

  const std::vector<std::size_t>& causes() const { return causes_; }
  bool has(std::size_t cause) const { return place_[cause] != not_there; }
  /// Share of the step's (or the stop's) charge while the cause is c that the pair (c, d) bears.
  double of(std::size_t step, std::size_t c, std::size_t d) const {
    return static_cast<double>(shares_[at(step, c, d)]);
  }
  std::size_t stop() const { return steps_; }
  std::size_t rows() const { return steps_ + 1; }

  /// A mixture: these shares as far as `other` has the causes too, and `part` of the present ones.
  void start_from(const CostShares& other, double part);
  /// Moves shares to the pairs whose plans use them more. `usage` is what a pair's plan spends on a step
  /// while the cause is c, in the order of the shares; `rate` how far to go.
  void improve(std::span<const double> usage, double rate);
  std::size_t at(std::size_t step, std::size_t c, std::size_t d) const {
    return (step * causes_.size() + place_[c]) * causes_.size() + place_[d];
  }
  std::size_t size() const { return shares_.size(); }
  std::size_t bytes() const { return shares_.size() * sizeof(float) + place_.size() * sizeof(std::size_t); }

 private:
  void even_out();

  std::size_t steps_ = 0;
  std::vector<std::size_t> causes_;
  std::vector<std::size_t> place_;  ///< [cause]
  std::vector<float> shares_;
};

}  // namespace secondpull::decision
