#pragma once

#include <span>

#include "core/decision/plan.h"

namespace secondpull::decision {

/// The distribution of cash to come less cash sunk.
struct Profit {
  double p10 = 0;  ///< with a chance of one in ten it is no more than this
  double p50 = 0;
  double p90 = 0;
  double chance_of_loss = 0;  ///< that it is below 0
};

/// The price of a running machine: lognormal.
struct Price {
  double median = 0;    ///< what the buyer pays, less the share that the fee takes
  double spread = 0;    ///< standard deviation of the logarithm
  double deducted = 0;  ///< from every sale: the fixed fee, known work, the mean cost of a comeback
};

/// Quantiles of the exact mixture over a plan's endings: each stop is one amount, each sale a shifted
/// lognormal. A quantile is the smallest amount that the profit does not exceed with at least that chance.
Profit profit_of(std::span<const Ending> endings, const Price& price, double sunk_cash);

}  // namespace secondpull::decision
