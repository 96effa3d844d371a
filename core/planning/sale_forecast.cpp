#include "core/planning/sale_forecast.h"

#include <cmath>

namespace secondpull::planning {
namespace {

/// Who has not found a buyer after so many days of the best months never does, for the mean. Common
/// practice, no source.
constexpr int kNever = 3 * 365;

/// Below so many degrees of freedom the tails have no width that means anything, and the scale is taken for
/// the deviation. Common practice, no source.
constexpr double kFewDegrees = 3;

}  // namespace

learning::PriceBelief price_belief(const market::StudentT& log_price) {
  const double widening =
      log_price.degrees > kFewDegrees ? std::sqrt(log_price.degrees / (log_price.degrees - 2)) : 1;
  return {std::exp(log_price.location), log_price.scale * widening};
}

double mean_days(const market::MixedWait& law) {
  // The area under what is still waiting, a day at a time.
  double days = 0;
  double left = 1;
  for (int day = 1; day <= kNever && left > 0; ++day) {
    const double next = law.still(day);
    days += (left + next) / 2;
    left = next;
  }
  return days;
}

learning::SaleForecast sale_forecast(const market::PriceModel& prices,
                                     const std::vector<market::TimeForSale>& times,
                                     const learning::Knowledge& knowledge, const Machine& machine, Date day) {
  learning::SaleForecast out;
  if (const auto price = market::log_price(prices, machine, SoldAs::running, day))
    out.price = price_belief(*price);
  const auto days = [&](SoldAs as) {
    const market::DaysToSell wait = market::days_to_sell(times, knowledge, machine.kind, as, {}, day);
    return mean_days(wait.law) * wait.slowness;
  };
  out.days = days(SoldAs::running);
  out.days_as_is = days(SoldAs::as_is);
  return out;
}

}  // namespace secondpull::planning
