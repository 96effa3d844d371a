#include "core/books/tax_rates.h"

#include <algorithm>

namespace secondpull {

namespace {

// Schedule SE in whole numbers: taxed earnings come in ten-thousandths of a cent, rates in thousandths.
constexpr std::int64_t kTaxedPerTenThousand = 9'235;
constexpr std::int64_t kTenThousand = 10'000;
constexpr std::int64_t kLeastTaxedCents = 400'00;
constexpr std::int64_t kOldAgePerThousand = 124;
constexpr std::int64_t kMedicarePerThousand = 29;
constexpr std::int64_t kThousand = 1'000;

__extension__ using Wide = __int128;

}  // namespace

std::optional<Money> SelfEmploymentRates::tax(Money net_profit, int year) const {
  const WageBase* const top = base(year);
  if (top == nullptr) return std::nullopt;
  const Wide earnings = Wide{net_profit.minor()} * kTaxedPerTenThousand;
  if (earnings < Wide{kLeastTaxedCents} * kTenThousand) return Money{};
  const Wide old_age = std::min(earnings, Wide{top->amount.minor()} * kTenThousand) * kOldAgePerThousand;
  const Wide medicare = earnings * kMedicarePerThousand;
  constexpr Wide unit = Wide{kTenThousand} * kThousand;
  return Money::from_minor(static_cast<std::int64_t>((old_age + medicare + unit / 2) / unit));
}

const WageBase* SelfEmploymentRates::base(int year) const {
  const auto found = bases_.find(year);
  return found == bases_.end() ? nullptr : &found->second;
}

const FormOfYears* FormLines::of(int year) const {
  const auto later = std::find_if(forms_.begin(), forms_.end(),
                                  [year](const FormOfYears& form) { return form.from > year; });
  if (later != forms_.begin()) return &*std::prev(later);
  return forms_.empty() ? nullptr : &forms_.front();
}

}  // namespace secondpull
