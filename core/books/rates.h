#pragma once

#include <string>
#include <vector>

#include "core/calendar/date.h"
#include "core/money/money.h"
#include "core/result.h"
#include "core/shop/records.h"

namespace secondpull {

/// A standard mileage rate, in force from a day to a day, both included.
struct MileageRate {
  Date from{};
  Date to{};
  std::int64_t tenths_of_cent_a_mile = 0;  ///< 72.5 cents are 725
  std::string source;
};

/// The published standard mileage rates of the United States, by the date of the trip.
class MileageRates {
 public:
  MileageRates() = default;
  /// A problem if two rates overlap, a rate ends before it begins or is negative.
  static Result<MileageRates> make(std::vector<MileageRate> rates);
  /// What a trip costs, rounded half away from zero to cents; a problem naming the day if no rate is
  /// published for it.
  Result<Money> cost(const Trip& trip) const;
  /// The rate in force on a day, or nullptr. Good as long as this lives unchanged.
  const MileageRate* on(Date day) const;
  const std::vector<MileageRate>& rates() const { return rates_; }

 private:
  std::vector<MileageRate> rates_;  // by `from`
};

}  // namespace secondpull
