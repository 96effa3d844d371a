#include "core/market/days_to_sell.h"

#include <algorithm>
#include <cmath>

#include "core/learning/season.h"
#include "core/learning/units.h"

namespace secondpull::market {
namespace {

using Lines = ByMachine::Lines;

/// From when it came in until it went, or today.
struct Stay {
  Date from{};
  Date until{};
  const Sale* sale = nullptr;  ///< with which it ended, if it did
};

std::vector<Stay> stays_of(const Lines& lines, Date today) {
  std::vector<Stay> stays;
  Date from{};
  const auto close = [&](Date until, const Sale* sale) {
    // What happened in between belongs to an earlier stay: it came back on its last return before.
    for (const Return* back : lines.returns)
      if (back->date <= until && back->date > from) from = back->date;
    stays.push_back({from, until, sale});
    from = until;
  };
  for (const Sale* sale : lines.sales)
    if (sale->date <= today) close(sale->date, sale);
  const bool came_back = !lines.sales.empty() && !lines.returns.empty() &&
                         lines.returns.back()->date >= lines.sales.back()->date;
  if (lines.sales.empty() || came_back) {
    Date until = today;
    for (const Disposal* gone : lines.disposals)
      if (gone->date >= from) until = std::min(until, gone->date);
    close(until, nullptr);
  }
  return stays;
}

std::optional<SoldAs> listed_as(const Listing& listing, const Stay& stay) {
  if (listing.sold_as) return listing.sold_as;
  return stay.sale == nullptr ? std::nullopt : stay.sale->sold_as;
}

/// How the stay's sale was made: as it says, else as its last listing does.
std::optional<SoldAs> sold_as(const std::vector<const Listing*>& listings, const Stay& stay) {
  if (stay.sale == nullptr) return std::nullopt;
  std::optional<SoldAs> as = stay.sale->sold_as;
  if (!as)
    for (const Listing* listing : listings)
      as = listing->sold_as ? listing->sold_as : as;
  return as;
}

std::optional<PriceBand> band_of(const Listing& listing, const Machine& machine, SoldAs as,
                                 const PriceModel& prices, const Currency& currency) {
  const auto suggested = log_price(prices, machine, as, listing.date);
  const double asked = learning::in_units(listing.asking, currency);
  if (!suggested || !(asked > 0)) return std::nullopt;
  return price_band(asked, std::exp(suggested->location));
}

std::optional<TimeForSale> time_of(const std::vector<const Listing*>& listings, const Stay& stay, SoldAs as) {
  TimeForSale time{.as = as};
  std::optional<Date> ended;
  bool first = true;
  bool open = false;
  for (const Listing* listing : listings) {
    if (listed_as(*listing, stay) != as) continue;
    if (first) time.listed = listing->date;
    first = false;
    if (!listing->ended || *listing->ended > stay.until)
      open = true;
    else
      ended = std::max(ended.value_or(*listing->ended), *listing->ended);
  }
  if (first) return std::nullopt;
  time.sold = sold_as(listings, stay) == as;
  const Date until = time.sold || open ? stay.until : *ended;
  time.days = std::max(days_between(time.listed, until), 0);
  return time;
}

}  // namespace

std::string_view word(PriceBand band) {
  switch (band) {
    case PriceBand::below:
      return "below";
    case PriceBand::about:
      return "about";
    case PriceBand::above:
      return "above";
  }
  return "";
}

PriceBand price_band(double asked, double suggested) {
  if (asked < kBelow * suggested) return PriceBand::below;
  return asked > kAbove * suggested ? PriceBand::above : PriceBand::about;
}

std::vector<TimeForSale> times_for_sale(const ByMachine& by_machine, const Shop& shop,
                                        const PriceModel& prices, Date today) {
  std::vector<TimeForSale> times;
  for (const Machine& machine : shop.all<Machine>()) {
    const Lines& lines = by_machine.of(machine.id);
    if (lines.listings.empty()) continue;
    for (const Stay& stay : stays_of(lines, today)) {
      std::vector<const Listing*> listings;
      for (const Listing* listing : lines.listings)
        if (listing->date >= stay.from && listing->date <= stay.until) listings.push_back(listing);
      for (const SoldAs as : all_words<SoldAs>())
        if (auto time = time_of(listings, stay, as)) {
          time->machine = machine.id;
          time->kind = machine.kind;
          for (const Listing* listing : listings)
            if (listed_as(*listing, stay) == as && listing->date == time->listed && !time->band)
              time->band = band_of(*listing, machine, as, prices, shop.settings.currency);
          times.push_back(*time);
        }
    }
  }
  return times;
}

double DaysToSell::chance_by(double days) const {
  return 1 - law.still(days / slowness);
}

DaysToSell days_to_sell(const std::vector<TimeForSale>& own, const learning::Knowledge& knowledge,
                        MachineKind kind, SoldAs as, std::optional<PriceBand> band, Date listed) {
  std::vector<Wait> waits;
  std::vector<Wait> in_best_months;
  std::size_t sold = 0;
  for (const TimeForSale& time : own) {
    if (time.kind != kind || time.as != as || (band && time.band != band)) continue;
    waits.push_back({static_cast<double>(time.days), time.sold});
    in_best_months.push_back({time.days / learning::slowness(knowledge.season, time.listed), time.sold});
    if (time.sold) ++sold;
  }
  const learning::KindFigures* const figures = knowledge.figures(kind);
  learning::Range known =
      figures != nullptr && figures->days_to_sell.typical > 0 ? figures->days_to_sell : kDaysOfUnknown;
  const double takes = band ? kBandTakes[static_cast<std::size_t>(*band)] : 1;
  known = {known.low * takes, known.typical * takes, known.high * takes};
  MixedWait law{KnownWait{known}, kListingsBelieved, in_best_months};
  const double slow = learning::slowness(knowledge.season, listed);
  const Interval median = law.quantile_interval(0.5, learning::kShownLevel);
  return {.median = law.quantile(0.5) * slow,
          .median_interval = {median.low * slow, median.high * slow},
          .p10 = law.quantile(0.1) * slow,
          .p90 = law.quantile(0.9) * slow,
          .listings = waits.size(),
          .sold = sold,
          .law = law,
          .slowness = slow,
          .own = kaplan_meier(waits, learning::kShownLevel).value()};
}

}  // namespace secondpull::market
