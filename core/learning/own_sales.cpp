#include "core/learning/own_sales.h"

#include <algorithm>

#include "core/calendar/date.h"
#include "core/learning/units.h"

namespace secondpull::learning {
namespace {

std::optional<SoldAs> sold_as(const ByMachine::Lines& lines, const Sale& sale) {
  if (sale.sold_as) return sale.sold_as;
  std::optional<SoldAs> as;
  for (const Listing* listing : lines.listings)
    if (listing->date <= sale.date) as = listing->sold_as;
  return as;
}

/// Since when it had been offered in that way, before the sale.
std::optional<Date> listed_since(const ByMachine::Lines& lines, const Sale& sale, SoldAs as) {
  Date came{};
  for (const Return* back : lines.returns)
    if (back->date < sale.date) came = back->date;
  for (const Listing* listing : lines.listings)
    if (listing->date >= came && listing->date <= sale.date && listing->sold_as.value_or(as) == as)
      return listing->date;
  return std::nullopt;
}

std::string symptom_at(const ByMachine::Lines& lines, const Sale& sale, const Knowledge& knowledge) {
  std::string said = lines.machine->symptom;
  for (const Fault* fault : lines.faults) {
    const bool mended = fault->how == FaultEnd::mended && fault->ended && *fault->ended <= sale.date;
    if (fault->date <= sale.date && !mended && fault->how != FaultEnd::mistaken) said = fault->symptom;
  }
  const Symptom* const symptom = knowledge.symptom(said);
  return symptom == nullptr ? "" : symptom->id;
}

Date last_day_to_come_back(const Sale& sale) {
  const auto warranty = static_cast<int>(sale.warranty_days.value_or(0));
  return plus_days(sale.date, std::max(kComebackDays, warranty));
}

bool came_back(const ByMachine::Lines& lines, const Sale& sale) {
  // What happens after the machine was sold again belongs to that sale.
  Date until = last_day_to_come_back(sale);
  for (const Sale* next : lines.sales)
    if (next->date > sale.date) until = std::min(until, plus_days(next->date, -1));
  const auto within = [&](const auto* record) { return record->date >= sale.date && record->date <= until; };
  return std::any_of(lines.returns.begin(), lines.returns.end(), within) ||
         std::any_of(lines.allowances.begin(), lines.allowances.end(), within) ||
         std::any_of(lines.labour.begin(), lines.labour.end(),
                     [&](const Labour* labour) { return labour->work == Work::comeback && within(labour); });
}

/// A range of prices as a lognormal can have it: nothing is sold for less than the smallest coin.
PriceBelief belief_of(const MoneyRange& range, const Currency& currency) {
  const auto price = [&](Money amount) {
    return std::max(in_units(amount, currency), 1 / minor_units(currency));
  };
  return price_belief({price(range.low), price(range.typical), price(range.high)});
}

template <class Wanted>
std::vector<double> prices(const std::vector<OwnSale>& own, MachineKind kind, SoldAs as, Wanted wanted) {
  std::vector<double> found;
  for (const OwnSale& sale : own)
    if (sale.kind == kind && sale.as == as && wanted(sale)) found.push_back(sale.price);
  return found;
}

}  // namespace

std::vector<OwnSale> own_sales(const ByMachine& by_machine, const Shop& shop, const Knowledge& knowledge,
                               Date today) {
  std::vector<OwnSale> own;
  const Currency& currency = shop.settings.currency;
  for (const Sale& sale : shop.all<Sale>()) {
    const ByMachine::Lines& lines = by_machine.of(sale.machine);
    const std::optional<SoldAs> as = sold_as(lines, sale);
    if (lines.machine == nullptr || !as) continue;
    own.push_back({.kind = lines.machine->kind,
                   .as = *as,
                   .symptom = *as == SoldAs::as_is ? symptom_at(lines, sale, knowledge) : "",
                   .price = in_units(sale.price, currency),
                   .deducted = in_units(sale.fee + sale.delivery, currency),
                   .date = sale.date,
                   .listed = listed_since(lines, sale, *as),
                   .over = last_day_to_come_back(sale) < today,
                   .came_back = came_back(lines, sale),
                   .sale = sale.id,
                   .machine = sale.machine});
  }
  return own;
}

PriceBelief running_price(const std::vector<OwnSale>& own, const KindFigures& known,
                          const Currency& currency) {
  return shrunk_price(belief_of(known.running_price, currency),
                      prices(own, known.kind, SoldAs::running, [](const OwnSale&) { return true; }));
}

PriceBelief as_is_price(const std::vector<OwnSale>& own, const KindFigures& known, const std::string& symptom,
                        const Currency& currency) {
  const auto with_it = [&](const OwnSale& sale) { return !symptom.empty() && sale.symptom == symptom; };
  const auto without = [&](const OwnSale& sale) { return !with_it(sale); };
  const PriceBelief of_kind =
      shrunk_price(belief_of(known.as_is_price, currency), prices(own, known.kind, SoldAs::as_is, without));
  return shrunk_price(of_kind, prices(own, known.kind, SoldAs::as_is, with_it));
}

double deducted_share(const std::vector<OwnSale>& own, SoldAs as) {
  double price = 0;
  double deducted = 0;
  for (const OwnSale& sale : own)
    if (sale.as == as) {
      price += sale.price;
      deducted += sale.deducted;
    }
  return price > 0 ? std::min(deducted / price, 1.0) : 0;
}

Beta comeback_chance(const std::vector<OwnSale>& own, const Beta& known) {
  Tries seen;  // what "cures" here is that it comes back
  for (const OwnSale& sale : own)
    if (sale.as == SoldAs::running && sale.over) {
      ++seen.tried;
      if (sale.came_back) ++seen.cured;
    }
  return known.updated(seen);
}

diagnosis::Revived revived(const std::vector<OwnSale>& own, const KindFigures& known,
                           const Knowledge& knowledge, const Expected& expected, const Currency& currency) {
  const PriceBelief price = expected.price ? *expected.price : running_price(own, known, currency);
  const double comes_back = comeback_chance(own, knowledge.comes_back).mean();
  const double minutes = known.minutes_to_sell.typical + comes_back * knowledge.minutes_of_comeback.typical;
  return {.price = to_the_cent(price.median, currency),
          .spread = price.spread,
          .fee_rate = deducted_share(own, SoldAs::running),
          .hours = minutes / kMinutesOfHour,
          .days = expected.days,
          .comeback_chance = comes_back,
          .comeback_cost = expected.comeback_cost,
          .known_work = expected.known_work};
}

}  // namespace secondpull::learning
