#include "core/learning/machine_stops.h"

#include <algorithm>

#include "core/learning/units.h"

namespace secondpull::learning {
namespace {

bool holds(const std::vector<std::string>& causes, const std::string& cause) {
  return std::find(causes.begin(), causes.end(), cause) != causes.end();
}

/// The causes under which a part that goes with another is taken alone.
std::vector<std::string> alone_under(const PartToPull& part, const Knowledge& knowledge) {
  std::vector<std::string> causes;
  for (const PartToPull& whole : knowledge.parts_to_pull)
    if (whole.id == part.goes_with)
      std::copy_if(whole.spoiled_by.begin(), whole.spoiled_by.end(), std::back_inserter(causes),
                   [&](const std::string& cause) { return !holds(part.spoiled_by, cause); });
  return causes;
}

diagnosis::Stop scrap_of(double pounds, const Knowledge& knowledge, const Currency& currency) {
  return scrap(pounds, in_units(knowledge.scrap_per_pound.typical, currency),
               {.hours = kHaulHours, .machines = kMachinesAHaul}, currency);
}

}  // namespace

std::vector<PartWorth> parts_worth(const Knowledge& knowledge, MachineKind kind, const Currency& currency) {
  std::vector<PartWorth> all;
  for (const PartToPull& part : knowledge.parts_to_pull) {
    if (!fits(part.kinds, kind)) continue;
    PartWorth worth{.price = in_units(part.price.typical, currency),
                    .chance = part.chance,
                    .minutes = part.minutes.typical,
                    .spoiled_by = part.spoiled_by};
    if (!part.goes_with.empty()) {
      worth.only_under = alone_under(part, knowledge);
      if (worth.only_under.empty()) continue;
    }
    all.push_back(std::move(worth));
  }
  return all;
}

std::vector<diagnosis::Stop> stops_of(const KindFigures& figures, const std::string& symptom,
                                      const Knowledge& knowledge, const std::vector<OwnSale>& sales,
                                      double hour_value, double days, const Currency& currency) {
  std::vector<diagnosis::Stop> stops{
      sell_as_is(as_is_price(sales, figures, symptom, currency), deducted_share(sales, SoldAs::as_is),
                 figures.minutes_to_sell.typical / kMinutesOfHour, days, currency)};
  if (const auto parts = parts_worth(knowledge, figures.kind, currency); !parts.empty()) {
    const diagnosis::Stop hulk = scrap_of(kHulkOfWeight * figures.weight.typical, knowledge, currency);
    stops.push_back(part_out(parts, hulk.value, hour_value, currency));
    stops.back().hours += hulk.hours;
  }
  stops.push_back(scrap_of(figures.weight.typical, knowledge, currency));
  return stops;
}

}  // namespace secondpull::learning
