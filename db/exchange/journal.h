#pragma once

#include <string>

#include "core/books/books.h"

namespace secondpull::db {

/// The postings of a shop as a plain-text double-entry journal that hledger and ledger read. Accounts are
/// Assets:Machines:<tag>, Assets:Parts, Assets:Cash, Income:Sales, Income:Scrap, Expenses:Cost of goods,
/// Expenses:<category>, Liabilities:Sales tax and Equity:Owner. Each transaction names its event, and the
/// machine if it is about one; so does each posting that counts for a machine (`tag:`), and each posting of
/// sales tax its place (`place:`). Bytes of a name that the format would read as its own (a colon, a second
/// space...) are written as % and two hex digits.
std::string journal(const Books& books);

/// A name as a part of an account's name.
std::string account_name(const std::string& name);

}  // namespace secondpull::db
