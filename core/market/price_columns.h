#pragma once

#include <cstddef>
#include <vector>

#include "core/market/asking_price.h"

namespace secondpull::market {

/// Where the coefficients of a price model stand.
struct Columns {
  static constexpr std::size_t kMonthsOfYear = 12;
  static constexpr std::size_t kAge = 14;  ///< after the kinds, each sold in two ways
  static constexpr std::size_t kDeck = kAge + 1;
  static constexpr std::size_t kMonth = kDeck + 1;
  static constexpr std::size_t kLooksFrom = kMonth + kMonthsOfYear;
  static constexpr std::size_t kMakes = kLooksFrom + 4;
  static constexpr std::size_t of_kind(MachineKind kind, SoldAs as) {
    return 2 * static_cast<std::size_t>(kind) + static_cast<std::size_t>(as);
  }
};

/// What each coefficient is multiplied with for such a machine: a number for each of the model.
std::vector<double> columns_of(const PriceModel& model, const Features& features);

/// The logarithm of the season's price level by the knowledge base; 0 for a machine sold as is, of which it
/// says nothing.
double season_of(const PriceModel& model, const Features& features);

/// The own sales of that kind sold so, nearest first, at most `count`. `here` is filled in, too.
std::vector<NearSale> nearest_sales(const PriceModel& model, const Features& features, std::size_t count);

}  // namespace secondpull::market
