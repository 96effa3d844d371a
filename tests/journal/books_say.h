#pragma once

#include "core/books/books.h"
#include "tests/journal/readers.h"

namespace secondpull::test {

// What must stand in the accounts of the journal, taken from the figures that the program shows and from the
// records, not from the postings that the journal is written from.

/// Income and expenses of a year, by account.
Amounts moved_in(const Books& books, int year);
/// Cash, stock ("stock") and sales tax at the end of a year.
Amounts stands_at_end_of(const Books& books, int year);
/// Sales tax at the end of a year by place, as it stands in the account: owed is negative.
Amounts sales_tax_at_end_of(const Books& books, int year);

// By tag, as an account is named after it.

/// What each machine brought in: less than zero, as income is.
Amounts proceeds_by_machine(const Books& books);
/// The cost basis of each machine, but for those that were kept: theirs went to the owner.
Amounts cost_by_machine(const Books& books);
Amounts trips_by_machine(const Books& books);

}  // namespace secondpull::test
