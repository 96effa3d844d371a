#include "core/planning/sale_outlook.h"

#include <algorithm>

#include "core/learning/own_sales.h"
#include "core/learning/units.h"
#include "core/shop/safety.h"
#include "core/shop/steps.h"
#include "core/typed_words.h"

namespace secondpull::planning {
namespace {

/// No fee takes more of a price than this, whatever a few odd sales say. Common practice, no source.
constexpr double kMostFee = 0.9;

/// What its pounds bring at the local price; going there is not counted, as that is shared with others.
double scrap_money(const learning::Knowledge& knowledge, MachineKind kind, const Currency& currency) {
  const auto found = std::find_if(knowledge.kinds.begin(), knowledge.kinds.end(),
                                  [kind](const learning::KindFigures& each) { return each.kind == kind; });
  if (found == knowledge.kinds.end()) return 0;
  return found->weight.typical * learning::in_units(knowledge.scrap_per_pound.typical, currency);
}

Date next_spring(Date today) {
  const Date this_year = today.year() / std::chrono::April / 1;
  return today < this_year ? this_year : (today.year() + std::chrono::years{1}) / std::chrono::April / 1;
}

std::vector<PriceStep> drops_of(const market::PricePath& path, double ask) {
  std::vector<PriceStep> drops;
  double last = ask;
  for (const market::PathDay& day : path.days) {
    if (day.give_up || !(day.asking > 0) || &day == &path.days.back()) continue;
    const double asking = market::as_sellers_write(day.asking);
    if (asking >= last) continue;
    drops.push_back({day.date, asking});
    last = asking;
  }
  return drops;
}

}  // namespace

SoldAs usual_way(const ByMachine::Lines& lines) {
  if (failed_safety_check(lines) != nullptr) return SoldAs::as_is;
  if (std::any_of(lines.faults.begin(), lines.faults.end(),
                  [](const Fault* fault) { return !fault->ended.has_value(); }))
    return SoldAs::as_is;
  const Finding* const run = latest_of(lines, kTestRun);
  const bool ran = run != nullptr && same_word(run->outcome, kRanThrough);
  return ran || last_mended(lines) != nullptr ? SoldAs::running : SoldAs::as_is;
}

Result<SaleOutlook> sale_outlook(const ByMachine& by_machine, const Shop& shop,
                                 const learning::Knowledge& knowledge, MachineId id, SoldAs as, Date today) {
  const Machine* const machine = shop.find(id);
  if (machine == nullptr) return problem("That machine is not in the shop's records any more.", "machine");
  const market::PriceModel prices = market::price_model(by_machine, shop, knowledge, today);
  const auto price = market::asking_price(prices, *machine, as, today);
  if (!price) return tl::unexpected(price.error());
  const auto times = market::times_for_sale(by_machine, shop, prices, today);

  SaleOutlook outlook{
      .as = as,
      .price = *price,
      .days = market::days_to_sell(times, knowledge, machine->kind, as, market::PriceBand::about, today),
      .offers = market::offer_model(times, by_machine, shop, knowledge, prices, machine->kind, as)};
  const Currency& currency = shop.settings.currency;
  outlook.holding_cost = shop.settings.day_cost ? learning::in_units(*shop.settings.day_cost, currency) : 0;
  outlook.salvage = scrap_money(knowledge, machine->kind, currency);
  outlook.fee_share = std::min(
      kMostFee, learning::deducted_share(learning::own_sales(by_machine, shop, knowledge, today), as));
  // In terms of the price, of which the seller keeps a part: days and scrap are kept whole.
  const double kept = 1 - outlook.fee_share;
  const market::ToSell to_sell{.suggestion = price->median,
                               .offers = outlook.offers,
                               .as = as,
                               .holding_cost = outlook.holding_cost / kept,
                               .salvage = outlook.salvage / kept,
                               .days = kDaysTried};
  auto path = market::price_path(to_sell, knowledge.season, today);
  if (!path) return tl::unexpected(path.error());
  outlook.path = *std::move(path);
  outlook.path.value *= kept;
  for (market::PathDay& each : outlook.path.days)
    each.value *= kept;
  outlook.give_up = !outlook.path.days.empty() && outlook.path.days.front().give_up;
  outlook.ask = market::as_sellers_write(outlook.path.asking);
  outlook.floor = outlook.path.floor;
  outlook.drops = drops_of(outlook.path, outlook.ask);
  const Date spring = next_spring(today);
  const int away = days_between(today, spring);
  if (as == SoldAs::running && away >= kLeastHold && away <= kMostHold) {
    const auto hold = market::hold_or_sell(to_sell, knowledge.season, today, spring);
    if (!hold) return tl::unexpected(hold.error());
    outlook.hold_until = spring;
    outlook.hold = *hold;
    for (double* each : {&outlook.hold.sell_now, &outlook.hold.hold, &outlook.hold.gained})
      *each *= kept;
  }
  return outlook;
}

}  // namespace secondpull::planning
