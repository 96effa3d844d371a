#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "core/decision/model.h"
#include "core/decision/position.h"

namespace secondpull::decision {

/// A position in two words, for the tables of a search. Every answer and every failed try adds its own token.
/// Where two words hold all digits of a position, the sum is the position itself; in larger models the tokens
/// are scattered numbers, and two positions have the same sum with a chance of about 1 in 2^128.
struct Key {
  std::uint64_t first = 0;
  std::uint64_t second = 0;
  friend bool operator==(const Key&, const Key&) = default;
  Key& operator+=(const Key& token) {
    first += token.first;
    second += token.second;
    return *this;
  }
  friend Key operator+(Key key, const Key& token) { return key += token; }
  /// Spread over all 64 bits.
  std::uint64_t hash() const {
    std::uint64_t mixed = (first ^ (second * 0x9E3779B97F4A7C15U)) * 0xD6E8FEB86659FD93U;
    mixed = (mixed ^ (mixed >> 32U)) * 0xD6E8FEB86659FD93U;
    return mixed ^ (mixed >> 29U);
  }
};

/// A model laid out for the searches: sparse cures, full costs, tokens of the keys. A *step* is a repair or a
/// test; steps are numbered repairs first, each kind in the model's order, which is the order in which equal
/// moves are preferred.
struct Layout {
  struct Cure {
    std::size_t cause = 0;
    double chance = 0;  ///< > 0
  };
  struct Repair {
    double cost = 0;
    int tries = 1;
    Key token;
    std::vector<Cure> cures;  ///< the causes it can cure
  };
  struct Outcome {
    Key token;
    std::vector<double> row;  ///< [cause] P(outcome | cause)
  };
  struct Test {
    double cost = 0;
    std::size_t slot = 0;
    std::vector<Outcome> outcomes;  ///< as in the model
  };
  struct Stop {
    bool by_cause = false;
    std::vector<double> worth;  ///< [cause]
  };

  explicit Layout(const Model& model);

  std::size_t causes() const { return prior.size(); }
  std::size_t steps() const { return repairs.size() + tests.size(); }
  bool is_repair(std::size_t step) const { return step < repairs.size(); }
  const Test& test_of(std::size_t step) const { return tests[step - repairs.size()]; }
  double cost_of(std::size_t step) const { return is_repair(step) ? repairs[step].cost : test_of(step).cost; }

  std::vector<double> prior;  ///< [cause]
  std::vector<Repair> repairs;
  std::vector<Test> tests;
  std::vector<Stop> stops;
  std::size_t slots = 0;
  std::size_t depth = 0;  ///< the most steps that can follow each other
  double running = 0;     ///< worth of a running machine
  double scale = 1;  ///< the largest amount of money in the model, at least 1: what rounding errors go by
};

/// Differences of unnormalised values up to this times Layout::scale times the chance of being there are
/// rounding errors.
inline constexpr double rounding = 3e-15;

}  // namespace secondpull::decision
