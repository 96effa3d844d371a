#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/books/books.h"
#include "core/shop/change.h"

namespace secondpull {

/// One figure of a year that was kept when the year was closed, against what the records say now.
struct KeptAgainstNow {
  YearLine line = YearLine::gross_receipts;
  std::string name;                  ///< category or place
  std::optional<std::int64_t> kept;  ///< in the unit of the line (year.h); absent: there was none
  std::optional<std::int64_t> now;
};

/// "gross receipts from 100.00 to 90.00, hours from 0 min to 30 min and 3 more".
std::string in_words(const std::vector<KeptAgainstNow>& differences, const Currency& currency);

/// Closes a year: keeps its figures with it. Refused, naming `year`: its last day is still to come on
/// `today`, it is closed already, nothing happened in it or before it; naming `date`: a trip in it has no
/// rate.
Result<Change> close_year(const Books& books, const SelfEmploymentRates& rates, int year, Date today);
/// Opens a closed year again. Refused: it is not closed.
Result<Change> reopen_year(const Shop& shop, int year);

const ClosedYear* closed(const Shop& shop, int year);  ///< nullptr if it is open
std::vector<int> closed_years(const Shop& shop);       ///< in order

/// Where the figures that were kept are not those of the records now: empty for a sound shop.
Result<std::vector<KeptAgainstNow>> drift(const Books& books, const SelfEmploymentRates& rates, int year);

/// The problem with a change that would move the figures of a year that is closed before and after it: says
/// which year, which figures, from what to what, and that the year has to be opened first. Computed only if
/// the change touches what can count in such a year. Also the problem with one that keeps other figures with
/// a closed year than those of its records.
std::optional<Problem> moves_closed_year(const std::shared_ptr<const Shop>& before,
                                         const std::shared_ptr<const Shop>& after, const Change& change,
                                         const MileageRates& mileage, const SelfEmploymentRates& rates);

}  // namespace secondpull
