#pragma once

#include <map>
#include <span>
#include <vector>

#include "core/books/ledger.h"
#include "core/books/lots.h"

namespace secondpull::bookkeeping {

/// Minutes worked on a machine in a calendar year.
struct YearOfWork {
  int year = 0;
  Position rank = nowhere;  ///< of the machine in order of tag
  Position machine = nowhere;
  Minutes minutes;
};

/// What a machine bears of a year's overheads.
struct OverheadShare {
  Position machine = nowhere;
  int year = 0;
  Money amount;
};

/// The minutes logged on each machine in each year, by year, then in order of tag; those of an acquisition
/// are split over its machines line by line, as its price is. Minutes of the shop in general are left out.
/// A problem if a line names a machine or acquisition that is not there.
/// @param rank  by machine: its place in the order of tag
Result<std::vector<YearOfWork>> work_by_year(const Shop& shop, const Lots& lots,
                                             const Positions<Machine>& places,
                                             std::span<const Position> rank);

/// Each year's overheads: its expenses, and its trips that belong to no machine or acquisition; one sum.
std::map<int, Money> overheads_by_year(const Ledger& ledger);

/// Splits each year's overheads over the machines by their minutes in that year. A year without minutes
/// leaves them with the shop. By machine, then by year.
/// @param work  as work_by_year gives it
std::vector<OverheadShare> overhead_shares(const std::map<int, Money>& overheads,
                                           std::span<const YearOfWork> work);

/// What a machine would bear of a year's overheads with `more` minutes logged on it that year.
Money overhead_share_with(const std::map<int, Money>& overheads, std::span<const YearOfWork> work, int year,
                          Position machine, Position rank, Minutes more);

}  // namespace secondpull::bookkeeping
