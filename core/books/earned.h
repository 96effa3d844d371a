#pragma once

#include <optional>
#include <span>
#include <vector>

#include "core/books/books.h"

namespace secondpull {

/// amount / hours, from the minutes, rounded half away from zero, once. Absent at 0 minutes.
std::optional<Money> per_hour(Money amount, Minutes minutes);

/// What several machines earned together. Machines without a profit (still here, or kept) are left out, and
/// their hours with them, so that both sides of pay per hour speak of the same machines.
struct Earned {
  std::size_t machines = 0;  ///< those counted
  Money net_proceeds;
  Money cost_basis;
  Money gross_profit;
  Money running_costs;
  Money profit;
  Minutes minutes;
  std::optional<Money> gross_per_hour;  ///< all gross profit / all hours
  std::optional<Money> pay_per_hour;    ///< all profit / all hours
  friend bool operator==(const Earned&, const Earned&) = default;
};
Earned earned(std::span<const MachineFigures* const> machines);

/// Steps from what a machine brought down to what was left of it, in the order of a waterfall.
enum class StepKind {
  price,
  scrap,
  given_back,  ///< refunds and allowances
  fee,
  delivery,
  acquisition,  ///< its price or share of a lot, pickup, a gift's basis, its share of a donor
  parts,
  materials,
  outside_work,
  cost_after,    ///< spent on it after it had left
  gross_profit,  ///< a level, not a step
  trips,
  overheads,
  profit  ///< the level it ends at
};

struct WaterfallStep {
  StepKind kind = StepKind::price;
  Money amount;  ///< what the step adds (costs are negative); of a level, the level itself
  Money from;    ///< level before the step; 0 for a level
  Money to;      ///< level after it
  bool is_level() const { return kind == StepKind::gross_profit || kind == StepKind::profit; }
};

/// The steps of these lines, of one machine or of several together: kinds without a line are left out, each
/// step starts where the one before ended, and the last is the profit: the sum of all lines. Gross profit
/// stands as a level of its own where trips or overheads follow it.
std::vector<WaterfallStep> waterfall(std::span<const FigureLine> lines);

/// The step that a line is part of.
StepKind step_of(LineKind kind);

}  // namespace secondpull
