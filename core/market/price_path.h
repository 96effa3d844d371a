#pragma once

#include <functional>
#include <vector>

#include "core/market/backward.h"
#include "core/market/offer_model.h"

namespace secondpull::market {

/// A machine that is to be sold. Amounts are in whole units of the currency, what the seller keeps of them.
struct ToSell {
  double suggestion = 0;  ///< what it fetches today (AskingPrice::median), > 0
  OfferModel offers;      ///< of its kind sold so
  SoldAs as = SoldAs::running;
  double holding_cost = 0;  ///< money for a day that it stands there, >= 0
  double salvage = 0;       ///< what it brings at once: sold for parts, scrapped
  int days = 60;            ///< until it is given up, 0 to kLongestDays
  int steps_of_day = 4;     ///< of the computation; more is more exact and slower
};

struct PathDay {
  Date date{};
  double asking = 0;     ///< the price that is best to ask on that day
  double floor = 0;      ///< refuse what is below: waiting is worth more
  double value = 0;      ///< of having it for sale still
  double sold_by = 0;    ///< chance that it is sold before that day, [0, 1)
  bool give_up = false;  ///< take what it brings at once; asking then says nothing
};

struct PricePath {
  double value = 0;           ///< expected, holding cost taken off
  double asking = 0;          ///< today
  double floor = 0;           ///< today
  double chance_sold = 0;     ///< by the last day
  std::vector<PathDay> days;  ///< from today to the last
};

/// What to ask from today on, and below what to refuse, at the most expected value. Each day buyers come and
/// offer as the OfferModel says; of a running machine the value moves with the price level of the season, and
/// the pace of both with its slowness. A problem names `suggestion`, `rate`, `share`, `spread`, `shows`,
/// `holding_cost`, `salvage`, `days` or `steps_of_day`.
Result<PricePath> price_path(const ToSell& machine, const learning::Season& season, Date today);

/// The floor of one who may wait for ever: the price v at which what a further day brings pays for it,
/// rate x E[amount over v] = cost a day. `excess(v)` is E[max(offer - v, 0)], falling from above cost / rate
/// at `low` to below it at `high`; else that end. A problem names `rate` (> 0) or `holding_cost` (>= 0).
Result<double> standing_floor(const std::function<double(double)>& excess, double rate, double holding_cost,
                              double low, double high);

/// Selling now beside keeping it unoffered and listing it on a later day, with as many days to sell from then
/// on.
struct HoldOrSell {
  double sell_now = 0;     ///< expected value of listing it today
  double hold = 0;         ///< of listing it then, the cost of the days until then taken off
  double gained = 0;       ///< hold - sell_now: above 0 it is worth holding
  double asking_then = 0;  ///< the price to ask on that day
};

/// A problem is one of `price_path`, or names `until` (before today, or more than kLongestDays away).
Result<HoldOrSell> hold_or_sell(const ToSell& machine, const learning::Season& season, Date today,
                                Date until);

}  // namespace secondpull::market
