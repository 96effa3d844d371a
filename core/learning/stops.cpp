#include "core/learning/stops.h"

#include <map>

#include "core/learning/units.h"

namespace secondpull::learning {

diagnosis::Stop sell_as_is(const PriceBelief& price, double deducted_share, double hours, double days,
                           const Currency& currency) {
  return {.id = kSellAsIs,
          .value = to_the_cent(price.mean() * (1 - deducted_share), currency),
          .hours = hours,
          .days = days};
}

diagnosis::Stop part_out(const std::vector<PartWorth>& parts, double hulk_value, double hour_value,
                         const Currency& currency) {
  double value = hulk_value;
  double minutes = 0;
  std::map<std::string, double> change;  // of the value, by cause
  for (const PartWorth& part : parts) {
    const double worth = part.price * part.chance;
    const double work = hour_value * part.minutes / kMinutesOfHour;
    if (worth <= work) continue;
    for (const std::string& cause : part.only_under)
      change[cause] += worth - work;
    if (!part.only_under.empty()) continue;
    value += worth;
    minutes += part.minutes;
    for (const std::string& cause : part.spoiled_by)
      change[cause] -= worth;
  }
  diagnosis::Stop stop{
      .id = kPartOut, .value = to_the_cent(value, currency), .hours = minutes / kMinutesOfHour};
  for (const auto& [cause, by] : change)
    stop.value_by_cause.emplace_back(cause, to_the_cent(value + by, currency));
  return stop;
}

diagnosis::Stop scrap(double pounds, double price_per_pound, const Haul& haul, const Currency& currency) {
  return {.id = kScrap,
          .value = to_the_cent(pounds * price_per_pound - haul.cost / haul.machines, currency),
          .hours = haul.hours / haul.machines};
}

}  // namespace secondpull::learning
