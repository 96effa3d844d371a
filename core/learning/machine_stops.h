#pragma once

#include <string>
#include <vector>

#include "core/learning/own_sales.h"
#include "core/learning/stops.h"

namespace secondpull::learning {

/// What one trip to the scrap yard takes, and for how many machines. Common practice, no source.
inline constexpr double kHaulHours = 2;
inline constexpr int kMachinesAHaul = 6;

/// What is left of a machine's weight when its parts are off. Common practice, no source.
inline constexpr double kHulkOfWeight = 0.7;

/// The parts that are worth taking off a machine of that kind, in the knowledge base's order. One that goes
/// with another is taken only under the causes that spoil that one and not itself, and is left out if there
/// are none.
std::vector<PartWorth> parts_worth(const Knowledge& knowledge, MachineKind kind, const Currency& currency);

/// How a machine of that kind with that symptom (id) can end other than revived: sold as it is, parted out
/// (if the knowledge base names parts for it), scrapped. Own as-is sales count; one sold as it is waits for
/// its buyer `days`. Which parts pay their minutes depends on the hour value.
std::vector<diagnosis::Stop> stops_of(const KindFigures& figures, const std::string& symptom,
                                      const Knowledge& knowledge, const std::vector<OwnSale>& sales,
                                      double hour_value, double days, const Currency& currency);

}  // namespace secondpull::learning
