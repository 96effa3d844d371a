#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "core/decision/cause_pairs.h"
#include "core/decision/chunks.h"
#include "core/decision/cost_shares.h"

namespace secondpull::decision {

/// The regrets of two-cause problems with shared charges as functions of the belief, a line of the grid for
/// each index of a pair: made when first asked for, with those that they need, and kept until cleared.
class PairTables {
 public:
  using Index = CausePairs::Index;

  PairTables(const StateSpace& space, const CausePairs& pairs)
      : space_(space), pairs_(pairs), charges_(pairs.pairs().size()) {
    clear();
  }

  /// The line for a pair's index. `set` tells apart lines made with different shares.
  const OddsGrid::Line& line(const CostShares& shares, std::size_t set, std::size_t pair, Index index) {
    ++asked_;
    const std::uint64_t key = (static_cast<std::uint64_t>(set * pairs_.pairs().size() + pair) << 32U) | index;
    const Place& place = places_[place_of(key)];
    return place.line != no_line ? lines_[place.line] : make(shares, set, pair, index, key);
  }
  void clear();
  std::size_t asked() const { return asked_; }  ///< how often for a line, since ever
  std::size_t bytes() const { return lines_.bytes() + places_.size() * sizeof(Place); }

  /// What a step or stopping is charged at an index, before it is shared, for either cause.
  struct Charge {
    double c = 0;
    double d = 0;
  };
  struct Charges {
    std::vector<Charge> stops;
    std::vector<Charge> repairs;  ///< as in Pair::repairs; of one with no tries left it means nothing
  };
  const Charges& charges(std::size_t pair, Index index);

 private:
  struct Place {
    std::uint64_t key = 0;
    std::uint32_t line = no_line;
  };
  static constexpr std::uint32_t no_line = static_cast<std::uint32_t>(-1);
  static constexpr std::size_t first_room = std::size_t{1} << 12U;

  std::size_t place_of(std::uint64_t key) const {
    const std::size_t mask = places_.size() - 1;
    std::uint64_t mixed = key * 0x9E3779B97F4A7C15U;
    mixed ^= mixed >> 32U;
    std::size_t place = mixed & mask;
    while (places_[place].line != no_line && places_[place].key != key)
      place = (place + 1) & mask;
    return place;
  }
  const OddsGrid::Line& make(const CostShares& shares, std::size_t set, std::size_t pair, Index index,
                             std::uint64_t key);
  void grow();
  Charges charges_at(const CausePairs::Pair& pair, Index index) const;
  void build(const CostShares& shares, std::size_t set, std::size_t pair, Index index, OddsGrid::Line& value);

  const StateSpace& space_;
  const CausePairs& pairs_;
  Chunks<OddsGrid::Line> lines_;
  std::vector<Place> places_;
  std::size_t asked_ = 0;
  std::vector<std::vector<Charges>> charges_;  ///< [pair][its repairs' part of the index]
};

}  // namespace secondpull::decision
