#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "core/market/asking_price.h"
#include "core/market/survival.h"

namespace secondpull::market {

/// The price asked beside the one suggested.
enum class PriceBand { below, about, above };
std::string_view word(PriceBand);  ///< "below", "about", "above"

/// From nine to eleven tenths of the suggestion is about it. Common practice, no source.
inline constexpr double kBelow = 0.9;
inline constexpr double kAbove = 1.1;
PriceBand price_band(double asked, double suggested);  ///< both > 0

/// A machine's time for sale in one way, since it last came in: from its first listing on. It ends with the
/// sale. Otherwise it is cut off: on the day its last listing ended; else when it was sold in another way or
/// went; else today.
struct TimeForSale {
  MachineId machine{};
  MachineKind kind = MachineKind::push;
  SoldAs as = SoldAs::running;
  Date listed{};
  int days = 0;  ///< >= 0
  bool sold = false;
  std::optional<PriceBand> band;  ///< of the first price asked, if there was one
};

/// All of them, in order of machine and day. A listing that does not say how it is sold counts as what the
/// sale says, if that one does; else it is left out.
std::vector<TimeForSale> times_for_sale(const ByMachine& by_machine, const Shop& shop,
                                        const PriceModel& prices, Date today);

/// Listings that the knowledge base's days count as. Common practice, no source.
inline constexpr double kListingsBelieved = 5;

/// How many times as long as usual it takes beforehand, by PriceBand. Common practice, no source.
inline constexpr double kBandTakes[] = {0.6, 1, 1.8};

/// Of a kind that the knowledge base has no days of. Common practice, no source.
inline constexpr learning::Range kDaysOfUnknown{3, 10, 30};

struct DaysToSell {
  double median = 0;         ///< days; half of such machines are sold by then
  Interval median_interval;  ///< in which it lies with learning::kShownLevel
  double p10 = 0;            ///< days after which one in ten is sold
  double p90 = 0;            ///< days after which nine in ten are sold
  std::size_t listings = 0;  ///< own ones behind it
  std::size_t sold = 0;      ///< of them
  MixedWait law;             ///< in days of the best months
  double slowness = 1;       ///< days of now for each of those
  Survival own;              ///< what the own listings alone say, in days as they were

  double chance_by(double days) const;  ///< that it is sold by then
};

/// How long a machine of that kind, listed so on that day, takes to sell: own listings of the kind (and of
/// the band, if one is given), each as long as it would have been in the best months, mixed with the
/// knowledge base's (survival.h), times the slowness of the day.
DaysToSell days_to_sell(const std::vector<TimeForSale>& own, const learning::Knowledge& knowledge,
                        MachineKind kind, SoldAs as, std::optional<PriceBand> band, Date listed);

}  // namespace secondpull::market
