#pragma once

#include "core/calendar/date.h"
#include "core/learning/knowledge.h"
#include "core/learning/own_sales.h"

namespace secondpull::learning {

// The time of the year. Figures of a month hold on its 15th; between two of them goes a straight line.

/// What a running machine fetches on that day, as a share of the mean of the year.
double price_level(const Season& season, Date day);
/// How many times as long as in the best months selling takes that is begun on that day.
double slowness(const Season& season, Date day);

/// How fast the price rises on that day, as a share of itself per day; below 0 while it falls.
double price_slope(const Season& season, Date day);

/// What the season takes from a machine of that price each day that it waits, as of today, in the price's
/// unit; below 0 while prices rise.
double season_cost_of_day(double price, const Season& season, Date today);

/// Days from the first listing to the sale of a machine of that kind listed today: own ones, each as long as
/// it would have been in the best months, drawn towards the knowledge's, which does not tell running machines
/// from others; times the slowness of today.
double days_to_sell(const std::vector<OwnSale>& own, const KindFigures& known, SoldAs as,
                    const Season& season, Date today);

}  // namespace secondpull::learning
