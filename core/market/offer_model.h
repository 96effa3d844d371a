#pragma once

#include <vector>

#include "core/market/days_to_sell.h"

namespace secondpull::market {

/// What buyers offer for a machine that is for sale, as shares of the price suggested for it. They come at a
/// rate that falls with the price asked:
///
///     offers a day at the price p = rate x (p / suggestion)^-kPriceDeters / slowness of the day
///
/// and each offers a lognormal amount, but no more than is asked. Of those taken some come to nothing.
struct OfferModel {
  double rate = 0;  ///< offers a day at the suggested price in the best months, > 0; and where it may lie,
  Interval rate_range;     ///< with learning::kShownLevel
  double share = 1;        ///< median of an offer as a share of the suggestion, > 0
  double spread = 0;       ///< standard deviation of its logarithm, >= 0
  double shows = 1;        ///< the chance that who has his offer taken comes and pays, (0, 1]
  std::size_t offers = 0;  ///< own offers behind the rate
  double days = 0;         ///< own days for sale behind it, as they would have been in the best months
};

// What is believed beforehand. Common practice, no source: all of these.
inline constexpr double kPriceDeters = 2;    ///< a price a hundredth higher brings so many hundredths fewer
inline constexpr double kOffersOfASale = 3;  ///< that come until a machine is sold
inline constexpr double kUsualShare = 0.9;   ///< median offer, as a share of what it fetches in the end
inline constexpr double kUsualSpread = 0.2;
inline constexpr double kOffersBelieved = 10;  ///< own offers that these two count as
inline constexpr learning::Beta kShows{8, 2};

/// From the shop's own offers. The rate is that of the kind sold so: the Gamma distribution after the offers
/// made, and the sales made without one, in the days for sale, beginning with kListingsBelieved listings that
/// took as long as the knowledge base says and had kOffersOfASale offers each. Share and spread are those of
/// all offers on machines for sale (learning::shrunk_price), that who comes those of all offers settled as
/// taken or as no show. Source: Gelman et al., Bayesian Data Analysis, section 2.6 (from memory).
OfferModel offer_model(const std::vector<TimeForSale>& times, const ByMachine& by_machine, const Shop& shop,
                       const learning::Knowledge& knowledge, const PriceModel& prices, MachineKind kind,
                       SoldAs as);

}  // namespace secondpull::market
