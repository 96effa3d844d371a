#pragma once

#include <array>
#include <vector>

#include "core/learning/knowledge.h"
#include "core/learning/own_sales.h"
#include "core/lessons/mean.h"

namespace secondpull::lessons {

/// Running machines in one month, of whatever year.
struct SeasonMonth {
  std::size_t sold = 0;
  /// What those sold in it fetched, as a share of what their kind fetches here at the mean of the year.
  Mean price;
  double usual_price = 1;  ///< the knowledge base's, on average for their days; of the 15th if there are none
  Differs price_differs = Differs::no;
  /// Days to the sale of those that were first listed in it.
  Mean days;
  double usual_slowness = 1;  ///< so many times the days of the best months
};

/// The twelve months, from January. What a kind fetches at the mean of the year is the mean of its own
/// running sales, each divided by the knowledge base's price level on its day. A month's price differs from
/// the usual at 1 - (1 - kSayingLevel) / 12, as twelve are looked at.
std::array<SeasonMonth, 12> seasons(const std::vector<learning::OwnSale>& own,
                                    const learning::Season& season);

/// Days to the sale of running machines of one kind that were listed, beside the knowledge base's.
struct KindDays {
  MachineKind kind = MachineKind::push;
  std::vector<double> own;  ///< of each sale, in order
  Mean days;
  double price = 0;      ///< the median of what they fetched, in whole units of the currency
  std::size_t sold = 0;  ///< running, listed or not
};
/// Each kind of which a running machine was sold, most sold first.
std::vector<KindDays> days_by_kind(const std::vector<learning::OwnSale>& own);

}  // namespace secondpull::lessons
