#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "core/decision/layout.h"
#include "core/decision/perfect_information.h"

namespace secondpull::decision {

/// A position as the searches walk over it. Weights are not normalised: they add up to the chance of being
/// here.
struct State {
  Key key;
  double mass = 0;                           ///< sum of the weights
  std::vector<double> weight;                ///< [cause]
  std::vector<PerfectInformation::Run> run;  ///< [cause]
  std::vector<std::uint8_t> open;            ///< [slot] whether none of its tests was made
  std::vector<std::uint8_t> left;            ///< [repair] tries left
};

/// Where the moves of a model lead, and what they cost in *regret*: what a plan is worth less than knowing
/// the cause at once would be, never negative. Every step is charged to the causes present: a test its cost,
/// a repair what it falls short of the best course for that cause, a stop likewise. All are unnormalised.
class StateSpace {
 public:
  explicit StateSpace(const Model& model);

  const Layout& layout() const { return layout_; }
  const PerfectInformation& perfect() const { return perfect_; }

  State start() const;
  State at(const Position& position) const;
  /// `to` is overwritten; it may be a state of another place, whose room is used again.
  void answer(const State& from, std::size_t test, std::size_t outcome, State& to) const;
  void failure(const State& from, std::size_t repair, State& to) const;

  bool is_possible(const State& at, std::size_t step) const {
    return layout_.is_repair(step) ? at.left[step] > 0 : at.open[layout_.test_of(step).slot] != 0;
  }

  /// The worth if the cause became known for nothing: an upper bound.
  double perfect_worth(const State& at) const;
  double stop_worth(const State& at, std::size_t stop) const;
  double best_stop_worth(const State& at) const;
  /// What a repair is charged while the cause is `cause`, per unit of weight; >= 0.
  double repair_charge(const State& at, std::size_t repair, std::size_t cause) const;
  /// What the step is charged; what follows comes on top. >= 0.
  double charge(const State& at, std::size_t step) const;

 private:
  Layout layout_;
  PerfectInformation perfect_;
};

}  // namespace secondpull::decision
