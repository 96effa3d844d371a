#include "core/planning/forecast.h"

#include <algorithm>

namespace secondpull::planning {

Promise promise_of(const diagnosis::Case& of, const decision::Answer& answer) {
  Promise promise;
  // Sums of chances may be a rounding off their range. Profit is money to come less what was spent.
  const decision::Profit profit = decision::profit_of(answer, of);
  promise.figures = {.chance_revived = std::clamp(answer.expected.revived, 0.0, 1.0),
                     .cash = answer.expected.cash,
                     .low = profit.p10 + of.sunk.cash,
                     .high = profit.p90 + of.sunk.cash,
                     .hours = answer.expected.hours,
                     .days = answer.expected.days,
                     .price = of.revived.price,
                     .sunk_cash = of.sunk.cash,
                     .sunk_hours = of.sunk.hours};
  for (std::size_t c = 0; c < of.causes.size(); ++c)
    promise.causes.emplace_back(of.causes[c].id, std::clamp(answer.posterior[c], 0.0, 1.0));
  return promise;
}

}  // namespace secondpull::planning
