#pragma once

#include <map>
#include <mutex>
#include <vector>

#include "core/books/bookkeeper.h"
#include "core/books/figures.h"
#include "core/books/inventory.h"

namespace secondpull {

namespace bookkeeping {

/// The entries that count for each machine, as one array cut by machine.
struct LinesOfMachines {
  std::vector<std::uint32_t> entries;
  std::vector<std::size_t> first;

  LinesOfMachines(std::size_t machines, const Ledger& ledger);
};

}  // namespace bookkeeping

/// What the books keep of a shop, once every event is booked.
struct Books::Data {
  std::shared_ptr<const Shop> shop;
  MileageRates rates;
  ByMachine by_machine;
  bookkeeping::Positions<Machine> places;
  bookkeeping::Lots lots;
  bookkeeping::Ledger ledger;
  std::vector<bookkeeping::UnratedTrip> unrated;      // by day
  std::vector<bookkeeping::Inventory> inventories;    // at the end of each year with events
  std::vector<bookkeeping::MachineAccount> accounts;  // by place
  std::vector<bookkeeping::MachineSums> sums;         // by place
  std::vector<bookkeeping::YearOfWork> work;          // by year, then by tag
  std::map<int, Money> yearly_overheads;
  std::vector<bookkeeping::OverheadShare> overheads;  // by machine, then by year
  bookkeeping::LinesOfMachines lines;
  std::vector<bookkeeping::Position> rank;  // by place: where it stands in `figures`
  std::vector<MachineFigures> figures;      // in order of tag
  std::vector<StockReceipt> stock;

  // Written out when first asked for: the figures do not need them, and they are large.
  mutable std::once_flag written;
  mutable std::vector<Transaction> transactions;

  /// What the machine has cost up to a day, the basis of a gift apart.
  Money spent_until(bookkeeping::Position place, Date day) const;
  /// What more minutes on a day would add to its share of that year's overheads.
  Money more_overheads(bookkeeping::Position place, Date day, Minutes more) const;
  /// The happenings of a year: the first, and one past the last.
  std::pair<std::size_t, std::size_t> happenings_of(int year) const;
  /// What stood in stock at the end of a year; zero before the first.
  Money stock_at_end(int year) const;
};

}  // namespace secondpull
