#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "core/learning/knowledge_base.h"
#include "core/market/price_path.h"

namespace secondpull::planning {

/// So many days a machine is tried to be sold before it is given up. Common practice, no source.
inline constexpr int kDaysTried = 90;

/// A machine is kept until spring only where that is at least, and at most, so many days away. Common
/// practice, no source.
inline constexpr int kLeastHold = 30;
inline constexpr int kMostHold = 200;

/// From that day on the price to ask, as sellers write it, if nobody has bought by then.
struct PriceStep {
  Date date{};
  double asking = 0;
};

/// What to say of a machine that is here to whoever sells it. Amounts are in whole units of the currency.
struct SaleOutlook {
  SoldAs as = SoldAs::running;
  market::AskingPrice price;  ///< what it fetches, and why
  double ask = 0;             ///< the best price to ask today, as sellers write it
  bool give_up = false;       ///< asking brings less than scrapping it today: `ask` and `floor` say nothing
  double floor = 0;           ///< refuse what is below: waiting is worth more
  market::DaysToSell days;    ///< at about what it fetches
  market::PricePath path;     ///< from today on; its values are what the seller keeps
  double fee_share = 0;       ///< of the price, that goes to fees and delivery; [0, 1)
  std::vector<PriceStep> drops;    ///< of it, those in which the price to ask falls, in their order
  market::OfferModel offers;       ///< what is believed of the offers that come
  double holding_cost = 0;         ///< a day
  double salvage = 0;              ///< as scrap
  std::optional<Date> hold_until;  ///< the next first of April; absent where keeping it is not considered,
                                   ///< and for one sold as is, whose price is taken to know no season
  market::HoldOrSell hold;         ///< until then
};

/// What a machine is to be offered as where nobody said: as running if no fault of it is open, no safety
/// check failed, and since it came in a fault was mended or a test run went through; else as is.
SoldAs usual_way(const ByMachine::Lines& lines);

/// The outlook of a machine that is here, offered so. The holding cost is the one of the shop's settings (0
/// where the owner said none). A problem names `machine` (not in the shop) or is one of market::asking_price
/// and market::price_path. Takes some hundredths of a second.
Result<SaleOutlook> sale_outlook(const ByMachine& by_machine, const Shop& shop,
                                 const learning::Knowledge& knowledge, MachineId machine, SoldAs as,
                                 Date today);

}  // namespace secondpull::planning
