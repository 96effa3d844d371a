#include "core/books/rates.h"

#include <algorithm>

#include <fmt/format.h>

namespace secondpull {

namespace {

// Miles come in tenths and rates in tenths of a cent, so a product of the two is hundredths of a cent.
constexpr std::int64_t kHundredthsOfCent = 100;

}  // namespace

Result<MileageRates> MileageRates::make(std::vector<MileageRate> rates) {
  std::sort(rates.begin(), rates.end(),
            [](const MileageRate& a, const MileageRate& b) { return a.from < b.from; });
  for (std::size_t i = 0; i < rates.size(); ++i) {
    const MileageRate& rate = rates[i];
    if (rate.to < rate.from)
      return problem(
          fmt::format("The mileage rate from {} ends before it begins, on {}.", iso(rate.from), iso(rate.to)),
          "to", iso(rate.to));
    if (rate.tenths_of_cent_a_mile < 0)
      return problem(fmt::format("The mileage rate from {} is negative.", iso(rate.from)), "rate",
                     std::to_string(rate.tenths_of_cent_a_mile));
    if (i > 0 && rate.from <= rates[i - 1].to)
      return problem(fmt::format("The mileage rates from {} and from {} overlap.", iso(rates[i - 1].from),
                                 iso(rate.from)),
                     "from", iso(rate.from));
  }
  MileageRates made;
  made.rates_ = std::move(rates);
  return made;
}

const MileageRate* MileageRates::on(Date day) const {
  const auto later = std::upper_bound(rates_.begin(), rates_.end(), day,
                                      [](Date date, const MileageRate& rate) { return date < rate.from; });
  return later == rates_.begin() || std::prev(later)->to < day ? nullptr : &*std::prev(later);
}

Result<Money> MileageRates::cost(const Trip& trip) const {
  const MileageRate* const rate = on(trip.date);
  if (rate == nullptr)
    return problem(fmt::format("No mileage rate is published for {}, the day of a trip of {}.{} miles.",
                               iso(trip.date), trip.miles.count / 10, trip.miles.count % 10),
                   "date", iso(trip.date));
  return scale(Money::from_minor(trip.miles.count), rate->tenths_of_cent_a_mile, kHundredthsOfCent);
}

}  // namespace secondpull
