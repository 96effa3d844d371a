#include "core/market/offer_model.h"

#include <algorithm>
#include <cmath>

#include <boost/math/distributions/gamma.hpp>

#include "core/learning/season.h"
#include "core/learning/units.h"

namespace secondpull::market {
namespace {

// A machine sold on the day that it was listed was for sale for a while. Common practice, no source.
constexpr double kShortestDay = 0.5;

/// The offers on that machine during that time, and whether one of them became its sale.
struct OffersOf {
  std::vector<const Offer*> offers;
  bool taken = false;
};

OffersOf offers_during(const TimeForSale& time, const ByMachine& by_machine) {
  OffersOf found;
  const Date until = plus_days(time.listed, time.days);
  for (const Offer* offer : by_machine.of(time.machine).offers)
    if (offer->date >= time.listed && offer->date <= until) {
      found.offers.push_back(offer);
      found.taken = found.taken || offer->result == OfferResult::taken;
    }
  return found;
}

}  // namespace

OfferModel offer_model(const std::vector<TimeForSale>& times, const ByMachine& by_machine, const Shop& shop,
                       const learning::Knowledge& knowledge, const PriceModel& prices, MachineKind kind,
                       SoldAs as) {
  OfferModel model;
  std::vector<double> shares;
  learning::Tries shown;
  for (const TimeForSale& time : times) {
    const OffersOf during = offers_during(time, by_machine);
    for (const Offer* offer : during.offers) {
      const Machine* const machine = by_machine.of(time.machine).machine;
      const auto suggested = log_price(prices, *machine, time.as, offer->date);
      if (suggested && offer->amount > Money{})
        shares.push_back(learning::in_units(offer->amount, shop.settings.currency) /
                         std::exp(suggested->location));
      if (offer->result != OfferResult::taken && offer->result != OfferResult::no_show) continue;
      ++shown.tried;
      if (offer->result == OfferResult::taken) ++shown.cured;
    }
    if (time.kind != kind || time.as != as) continue;
    model.offers += during.offers.size() + (time.sold && !during.taken ? 1 : 0);
    model.days +=
        std::max<double>(time.days, kShortestDay) / learning::slowness(knowledge.season, time.listed);
  }
  const learning::KindFigures* const figures = knowledge.figures(kind);
  const double typical = figures != nullptr && figures->days_to_sell.typical > 0
                             ? figures->days_to_sell.typical
                             : kDaysOfUnknown.typical;
  // Half are sold after `typical` days, so that the mean at a steady pace is longer.
  const double days = kListingsBelieved * typical / std::log(2.0) + model.days;
  const double count = kListingsBelieved * kOffersOfASale + static_cast<double>(model.offers);
  const boost::math::gamma_distribution<double> rate{count, 1 / days};
  constexpr double kTail = (1 - learning::kShownLevel) / 2;
  model.rate = count / days;
  model.rate_range = {boost::math::quantile(rate, kTail), boost::math::quantile(rate, 1 - kTail)};
  const learning::PriceBelief share =
      learning::shrunk_price({kUsualShare, kUsualSpread}, shares, kOffersBelieved);
  model.share = share.median;
  model.spread = share.spread;
  model.shows = kShows.updated(shown).mean();
  return model;
}

}  // namespace secondpull::market
