#pragma once

#include "core/learning/machine_case.h"
#include "core/market/days_to_sell.h"

namespace secondpull::planning {

/// What a price's distribution comes to as a lognormal one: its median, and the deviation of its logarithm.
learning::PriceBelief price_belief(const market::StudentT& log_price);

/// The mean of the days that a wait takes, as it is in the best months.
double mean_days(const market::MixedWait& law);

/// What a machine will fetch once it runs, and how long it will wait for its buyer, listed on that day at the
/// price suggested. Nothing of the price where nothing is known of one.
learning::SaleForecast sale_forecast(const market::PriceModel& prices,
                                     const std::vector<market::TimeForSale>& times,
                                     const learning::Knowledge& knowledge, const Machine& machine, Date day);

}  // namespace secondpull::planning
