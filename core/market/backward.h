#pragma once

#include <functional>
#include <vector>

#include "core/result.h"

namespace secondpull::market {

// Selling by a last day, worked out from that day backwards. Of several alike pieces one may be left or more;
// a buyer takes one. In every short step the price is the best one against what waiting is worth:
//
//     V(n, t) = V(n, t') - cost + chance of a sale x (what the buyer pays - (V(n, t') - V(n-1, t')))
//
// with t' a step later, and never less than giving all up at once. V(n, t') - V(n-1, t') is the floor:
// whoever offers less is refused. As the steps get shorter the values go over to those of continuous time.
// Source: G. Gallego, G. van Ryzin, Optimal dynamic pricing of inventories with stochastic demand over finite
// horizons, Management Science 40 (1994); J. J. McCall, Economics of information and job search, Quarterly
// Journal of Economics 84 (1970) (both from memory).

/// The best that can be done in a step.
struct BestPrice {
  double price = 0;  ///< asked
  double rate = 0;   ///< sales a day at it, >= 0
  double paid = 0;   ///< by a buyer, in the mean
};

/// The best price in a step of that length (in days), so many days from now, where waiting is worth `floor`.
using Buyers = std::function<BestPrice(double day, double floor, double step)>;

struct Selling {
  double days = 0;          ///< until the last day, 0 to kLongestDays
  int steps_of_day = 8;     ///< 1 to 10,000
  double holding_cost = 0;  ///< a day while any piece is left, >= 0
  double salvage = 0;       ///< of a piece given up, on the last day or before
  int pieces = 1;           ///< 1 to 100
};
inline constexpr double kLongestDays = 3'660;

struct SellingStep {
  double day = 0;    ///< from now
  double value = 0;  ///< of the pieces still there
  double price = 0;  ///< to ask in this step; the last price where they are given up
  double floor = 0;  ///< what waiting is worth a piece
  double rate = 0;   ///< sales a day at that price; 0 where they are given up
  bool given_up = false;
};

/// For 1 to `pieces` left, the steps from now to the last day, which comes last and has no price. A problem
/// names the field of `Selling` and what stands there.
Result<std::vector<std::vector<SellingStep>>> sell_by_a_last_day(const Selling& selling,
                                                                 const Buyers& buyers);

}  // namespace secondpull::market
