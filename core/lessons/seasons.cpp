#include "core/lessons/seasons.h"

#include <algorithm>
#include <map>

#include "core/learning/season.h"

namespace secondpull::lessons {
namespace {

using learning::OwnSale;

std::size_t month_of(Date date) {
  return unsigned{date.month()} - 1;
}

/// What each kind fetches at the mean of the year.
std::map<MachineKind, double> yearly_price(const std::vector<OwnSale>& running,
                                           const learning::Season& season) {
  std::map<MachineKind, std::vector<double>> prices;
  for (const OwnSale& sale : running)
    prices[sale.kind].push_back(sale.price / learning::price_level(season, sale.date));
  std::map<MachineKind, double> yearly;
  for (const auto& [kind, all] : prices)
    yearly[kind] = mean_of(all).mean;
  return yearly;
}

}  // namespace

std::array<SeasonMonth, 12> seasons(const std::vector<OwnSale>& own, const learning::Season& season) {
  std::vector<OwnSale> running;
  for (const OwnSale& sale : own)
    if (sale.as == SoldAs::running && sale.price > 0) running.push_back(sale);
  const auto yearly = yearly_price(running, season);

  std::array<std::vector<double>, 12> prices, usual, days;
  for (const OwnSale& sale : running) {
    prices[month_of(sale.date)].push_back(sale.price / yearly.at(sale.kind));
    usual[month_of(sale.date)].push_back(learning::price_level(season, sale.date));
    if (sale.listed)
      days[month_of(*sale.listed)].push_back(static_cast<double>(days_between(*sale.listed, sale.date)));
  }
  std::array<SeasonMonth, 12> months;
  for (std::size_t at = 0; at < months.size(); ++at) {
    SeasonMonth& month = months[at];
    month.sold = prices[at].size();
    month.price = mean_of(prices[at]);
    month.usual_price = usual[at].empty() ? season.price[at] : mean_of(usual[at]).mean;
    month.price_differs =
        differs(month.price, month.usual_price, 1 - (1 - kSayingLevel) / static_cast<double>(months.size()));
    month.days = mean_of(days[at]);
    month.usual_slowness = season.days[at];
  }
  return months;
}

std::vector<KindDays> days_by_kind(const std::vector<OwnSale>& own) {
  std::map<MachineKind, KindDays> kinds;
  std::map<MachineKind, std::vector<double>> prices;
  for (const OwnSale& sale : own) {
    if (sale.as != SoldAs::running) continue;
    KindDays& kind = kinds[sale.kind];
    kind.kind = sale.kind;
    ++kind.sold;
    prices[sale.kind].push_back(sale.price);
    if (sale.listed) kind.own.push_back(static_cast<double>(days_between(*sale.listed, sale.date)));
  }
  constexpr double kHalf = 0.5;
  std::vector<KindDays> all;
  for (auto& [each, kind] : kinds) {
    kind.days = mean_of(kind.own);
    kind.price = *quantile_of(prices[each], kHalf);
    all.push_back(std::move(kind));
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const KindDays& a, const KindDays& b) { return a.sold > b.sold; });
  return all;
}

}  // namespace secondpull::lessons
