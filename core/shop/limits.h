#pragma once

#include "core/shop/records.h"

namespace secondpull {

// What the cells of a record may hold. Wide enough for any shop, narrow enough that sums stay exact.

inline constexpr std::int64_t kLargestMinutes = 100'000'000;
inline constexpr Tenths kLargestTrip{1'000'000};  ///< 100 000.0 miles
inline constexpr Tenths kLargestDeck{10'000};     ///< 1 000.0 inches
inline constexpr int kLargestYear = 9999;
inline constexpr std::int64_t kLargestWarranty = 100'000;  ///< days
/// Of all amounts of a shop together, in minor units: half of what 64 bits hold, so that no sum of the books
/// can overflow.
inline constexpr std::int64_t kLargestTotal = 4'000'000'000'000'000'000;

constexpr bool amount_in_range(Money amount) {
  return amount.minor() >= 0 && amount.minor() <= kLargestAmount;
}
constexpr bool quantity_in_range(std::int64_t quantity) {
  return quantity >= 1 && quantity <= kLargestQuantity;
}
constexpr bool minutes_in_range(Minutes minutes) {
  return minutes.count >= 0 && minutes.count <= kLargestMinutes;
}
inline bool day_in_range(Date date) {
  return date.ok() && date.year() >= std::chrono::year{1900} &&
         date.year() <= std::chrono::year{kLargestYear};
}

}  // namespace secondpull
