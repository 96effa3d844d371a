#pragma once

#include <string>
#include <vector>

#include "core/books/books.h"

namespace secondpull {

/// What is worth a look before a year is closed.
enum class Unfinished {
  year_not_over,      ///< on `today`
  trips_no_rate,      ///< no published rate on their day: the year cannot be closed
  trips_lacking,      ///< without a destination or purpose: they may not count
  sales_unpaid_word,  ///< no word on how they were paid
  orders_under_way,   ///< ordered in the year and not in at its end: in neither purchases nor stock
  tax_owed,           ///< sales tax not handed on at the year's end
  hulks_here          ///< hulks of the year's donors that have not gone: their cost is still stock
};

struct UnfinishedItem {
  Unfinished what = Unfinished::year_not_over;
  std::string sentence;        ///< "3 trips have no destination or purpose: ..."
  std::vector<AnyId> records;  ///< that it is about, in order of entry
  bool blocks = false;         ///< the year cannot be closed before
};

/// What there is, in the order above. `rates` as the books were made with.
std::vector<UnfinishedItem> unfinished(const Books& books, const MileageRates& rates, int year, Date today);

}  // namespace secondpull
