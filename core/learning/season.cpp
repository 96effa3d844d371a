#include "core/learning/season.h"

namespace secondpull::learning {
namespace {

using std::chrono::day;
using std::chrono::months;

/// The straight line on which a day lies: from the 15th before (or that day itself) to the 15th after.
struct Stretch {
  double from = 0;
  double to = 0;
  double days = 0;     ///< its length
  double days_in = 0;  ///< since its beginning
  double value() const { return from + (to - from) * days_in / days; }
  double slope() const { return (to - from) / days; }
};

Stretch stretch_at(const MonthlyShares& shares, Date date) {
  constexpr day kMiddle{15};
  const auto month = date.year() / date.month();
  const auto first = date.day() >= kMiddle ? month : month - months{1};
  const auto next = first + months{1};
  const auto share = [&](auto of) { return shares[static_cast<unsigned>(of.month()) - 1]; };
  return {share(first), share(next), static_cast<double>(days_between(first / kMiddle, next / kMiddle)),
          static_cast<double>(days_between(first / kMiddle, date))};
}

}  // namespace

double price_level(const Season& season, Date day) {
  return stretch_at(season.price, day).value();
}

double slowness(const Season& season, Date day) {
  return stretch_at(season.days, day).value();
}

double price_slope(const Season& season, Date day) {
  const Stretch stretch = stretch_at(season.price, day);
  return stretch.slope() / stretch.value();
}

double season_cost_of_day(double price, const Season& season, Date today) {
  return -price * price_slope(season, today);
}

double days_to_sell(const std::vector<OwnSale>& own, const KindFigures& known, SoldAs as,
                    const Season& season, Date today) {
  std::vector<double> in_best_months;
  for (const OwnSale& sale : own)
    if (sale.kind == known.kind && sale.as == as && sale.listed)
      in_best_months.push_back(days_between(*sale.listed, sale.date) / slowness(season, *sale.listed));
  return shrunk_mean(known.days_to_sell, in_best_months) * slowness(season, today);
}

}  // namespace secondpull::learning
