#pragma once

#include <string>
#include <vector>

#include "core/diagnosis/case.h"
#include "core/learning/shrink.h"
#include "core/money/money.h"

namespace secondpull::learning {

// The endings of a machine that is not revived. Amounts in whole units of the currency.

inline constexpr const char* kSellAsIs = "sell-as-is";
inline constexpr const char* kPartOut = "part-out";
inline constexpr const char* kScrap = "scrap";

/// Sold as it is: the mean of the price (not its median, since money adds up) less what selling takes of it.
diagnosis::Stop sell_as_is(const PriceBelief& price, double deducted_share, double hours, double days,
                           const Currency& currency);

/// A part that could be taken off.
struct PartWorth {
  double price = 0;                     ///< sold, or not having to buy one
  double chance = 1;                    ///< that it is sold or used within a year, [0, 1]
  double minutes = 0;                   ///< to pull, clean and sell it
  std::vector<std::string> spoiled_by;  ///< causes that make it worthless
  std::vector<std::string> only_under;  ///< causes under which alone it is taken; empty: any
};

/// Parted out: the parts whose expected price is above their minutes at the hour value, and the hulk. What a
/// cause spoils is missing under it; the minutes stay, as that shows when the part is off. A part that is
/// taken under some causes alone adds to the value under those, its minutes taken off at the hour value,
/// since the hours of a stop are the same whatever the cause.
diagnosis::Stop part_out(const std::vector<PartWorth>& parts, double hulk_value, double hour_value,
                         const Currency& currency);

/// A way to the scrap yard.
struct Haul {
  double cost = 0;   ///< in money, the whole way
  double hours = 0;  ///< likewise
  int machines = 1;  ///< that go along, this one included; >= 1
};

/// Scrapped: its pounds at the local price less its share of the haul; negative if it costs to be rid of it.
diagnosis::Stop scrap(double pounds, double price_per_pound, const Haul& haul, const Currency& currency);

}  // namespace secondpull::learning
