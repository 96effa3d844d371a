#pragma once

#include <span>
#include <vector>

#include "core/books/year_papers.h"

namespace secondpull {

// What stands under the tables of a year, and lists of its records.

/// The costs of the shop that were written down in a year, by day, then by entry. (What sales cost, fees and
/// delivery, is not among them.)
struct ExpensesOfYear {
  std::vector<Expense> expenses;
  Money total;
};
ExpensesOfYear expenses_of(const Shop& shop, int year);

/// Sales tax handed on in a year, by day, then by entry.
struct TaxHandedOn {
  std::vector<TaxPaid> payments;
  Money total;
};
TaxHandedOn handed_on_in(const Shop& shop, int year);

/// The months together; pay per hour over all their hours. `month` is 0.
MonthFigures together(std::span<const MonthFigures> months);
/// All places together, under no name.
TaxOfPlace together(std::span<const TaxOfPlace> places);
/// All ways of payment together, under no name.
Received together(std::span<const Received> ways);

/// What lies no longer than `to_days` and longer than the class before.
struct TiedUpClass {
  int from_days = 0;
  int to_days = 0;  ///< of the last class: INT_MAX
  std::size_t count = 0;
  Money amount;
};
/// The classes up to 30, 90, 180 and 365 days and beyond, empty ones too; they hold everything once.
std::vector<TiedUpClass> by_age(std::span<const TiedUp> all);
/// All of it, and what of it is machines and parts.
struct TiedUpSum {
  Money machines, parts;
  Money total() const { return machines + parts; }
};
TiedUpSum together(std::span<const TiedUp> all);

}  // namespace secondpull
