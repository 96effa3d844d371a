// The figures of a year, summed from the postings, the inventories and the records.

#include <algorithm>
#include <array>
#include <set>
#include <stdexcept>

#include "core/books/books_data.h"
#include "core/books/counts.h"
#include "core/books/earned.h"

namespace secondpull {

using namespace bookkeeping;

namespace {

const std::size_t kYearLines = all_year_lines().size();

/// Sums over the postings of some days.
struct Sums {
  std::vector<Money> lines = std::vector<Money>(kYearLines);
  std::map<std::uint32_t, Money> expenses;
  std::map<std::uint32_t, Money> tax_collected;
  GoodsMoved moved;

  Money of(YearLine line) const { return lines[static_cast<std::size_t>(line)]; }
  void add(const Counts& counts, const Ledger::Happening& happening, const Ledger::Entry& entry) {
    for (const Count& count : counts.of(happening, entry)) {
      lines[static_cast<std::size_t>(count.line)] += count.amount;
      if (count.line == YearLine::expenses) expenses[count.name] += count.amount;
      if (count.line == YearLine::sales_tax_collected) tax_collected[count.name] += count.amount;
    }
    if (entry.account == AccountKind::cost_of_goods) add_goods(happening, entry);
  }

 private:
  void add_goods(const Ledger::Happening& happening, const Ledger::Entry& entry) {
    switch (goods_move(happening, entry)) {
      case GoodsMove::left:
        moved.left += entry.amount;
        break;
      case GoodsMove::came_back:
        moved.came_back -= entry.amount;
        break;
      case GoodsMove::spent_after:
        moved.spent_after += entry.amount;
        break;
      case GoodsMove::parts:
        moved.parts += entry.amount;
        break;
    }
  }
};

ByName by_name(const std::map<std::uint32_t, Money>& amounts, const Ledger& ledger) {
  ByName named;
  for (const auto& [number, amount] : amounts)
    if (!amount.is_zero()) named.emplace(ledger.name(number), amount);
  return named;
}

/// What is owed to each place once a number of happenings are booked.
ByName tax_owed(const Ledger& ledger, std::size_t happenings) {
  std::map<std::uint32_t, Money> owed;
  const std::size_t end = happenings < ledger.happenings().size()
                              ? ledger.happenings()[happenings].first_entry
                              : ledger.entries().size();
  for (std::size_t i = 0; i < end; ++i)
    if (const Ledger::Entry& entry = ledger.entries()[i]; entry.account == AccountKind::sales_tax)
      owed[entry.name] -= entry.amount;
  return by_name(owed, ledger);
}

/// Sales less returns, of the whole shop, by month from 0; lines with a price of zero leave no posting.
std::array<std::int64_t, 12> sold_by_month(const Shop& shop, int year) {
  std::array<std::int64_t, 12> sold{};
  const auto month = [](Date date) { return static_cast<unsigned>(date.month()) - 1; };
  for (const Sale& sale : shop.all<Sale>())
    if (year_of(sale.date) == year) ++sold[month(sale.date)];
  for (const Return& back : shop.all<Return>())
    if (year_of(back.date) == year) --sold[month(back.date)];
  return sold;
}

std::array<Minutes, 12> minutes_by_month(const Shop& shop, int year) {
  std::array<Minutes, 12> worked{};
  for (const Labour& labour : shop.all<Labour>())
    if (year_of(labour.date) == year)
      worked[static_cast<unsigned>(labour.date.month()) - 1] += labour.minutes;
  return worked;
}

Tenths miles_of(const Shop& shop, int year) {
  Tenths miles;
  for (const Trip& trip : shop.all<Trip>())
    if (year_of(trip.date) == year) miles.count += trip.miles.count;
  return miles;
}

const Problem* unrated_in(const std::vector<UnratedTrip>& trips, int year) {
  const auto found = std::find_if(trips.begin(), trips.end(),
                                  [year](const UnratedTrip& trip) { return year_of(trip.date) == year; });
  return found == trips.end() ? nullptr : &found->problem;
}

}  // namespace

std::pair<std::size_t, std::size_t> Books::Data::happenings_of(int year) const {
  const auto& all = ledger.happenings();
  const auto before = [](const Ledger::Happening& happening, int wanted) {
    return year_of(happening.date) < wanted;
  };
  const auto first = std::lower_bound(all.begin(), all.end(), year, before);
  const auto last = std::lower_bound(first, all.end(), year + 1, before);
  return {static_cast<std::size_t>(first - all.begin()), static_cast<std::size_t>(last - all.begin())};
}

Money Books::Data::stock_at_end(int year) const {
  const Inventory* const inventory = inventory_at_end(inventories, year);
  return inventory == nullptr ? Money{} : inventory->total();
}

Result<YearFigures> Books::year(int year, const SelfEmploymentRates& rates) const try {
  const Data& data = *data_;
  if (const Problem* const wrong = unrated_in(data.unrated, year)) return tl::unexpected(*wrong);

  Sums sums;
  const Counts counts{*data.shop};
  const auto [first, last] = data.happenings_of(year);
  for (std::size_t i = first; i < last; ++i) {
    const auto [leg, end] = data.ledger.legs(i);
    for (const Ledger::Entry* entry = leg; entry != end; ++entry)
      sums.add(counts, data.ledger.happenings()[i], *entry);
  }

  YearFigures figures{.year = year};
  figures.gross_receipts = sums.of(YearLine::gross_receipts);
  figures.returns = sums.of(YearLine::returns);
  figures.opening_inventory = data.stock_at_end(year - 1) + sums.of(YearLine::opening_inventory);
  figures.purchases = sums.of(YearLine::purchases);
  figures.withdrawals = sums.of(YearLine::withdrawals);
  figures.materials = sums.of(YearLine::materials);
  figures.other_costs = sums.of(YearLine::other_costs);
  if (const Inventory* const inventory = inventory_at_end(data.inventories, year)) {
    figures.closing_machines = inventory->in_machines;
    figures.closing_parts = inventory->in_parts;
  }
  figures.closing_inventory = figures.closing_machines + figures.closing_parts;
  figures.cost_of_goods_sold = figures.opening_inventory + figures.purchases - figures.withdrawals +
                               figures.materials + figures.other_costs - figures.closing_inventory;
  figures.gross_profit = figures.gross_receipts - figures.returns - figures.cost_of_goods_sold;
  figures.expenses = by_name(sums.expenses, data.ledger);
  figures.car_and_truck = sums.of(YearLine::car_and_truck);
  figures.net_profit = figures.gross_profit - figures.all_expenses() - figures.car_and_truck;
  if (trips_cost(*data.shop)) figures.self_employment_tax = rates.tax(figures.net_profit, year);
  figures.sales_tax_collected = by_name(sums.tax_collected, data.ledger);
  figures.sales_tax_owed = tax_owed(data.ledger, last);
  figures.miles = miles_of(*data.shop, year);
  for (const std::int64_t sold : sold_by_month(*data.shop, year))
    figures.machines_sold += sold;
  for (const Minutes minutes : minutes_by_month(*data.shop, year))
    figures.minutes += minutes;
  figures.pay_per_hour = per_hour(figures.net_profit, figures.minutes);
  figures.moved = sums.moved;
  return figures;
} catch (const std::overflow_error&) {
  return problem("The amounts of this year are too large to be added up.", "amount");
}

Result<std::vector<MonthFigures>> Books::months(int year) const try {
  const Data& data = *data_;
  if (const Problem* const wrong = unrated_in(data.unrated, year)) return tl::unexpected(*wrong);

  constexpr unsigned kMonths = 12;
  std::array<Sums, kMonths> sums;
  const Counts counts{*data.shop};
  const auto [first, last] = data.happenings_of(year);
  for (std::size_t i = first; i < last; ++i) {
    const Ledger::Happening& happening = data.ledger.happenings()[i];
    const auto [leg, end] = data.ledger.legs(i);
    for (const Ledger::Entry* entry = leg; entry != end; ++entry)
      sums[static_cast<unsigned>(happening.date.month()) - 1].add(counts, happening, *entry);
  }
  const auto sold = sold_by_month(*data.shop, year);
  const auto minutes = minutes_by_month(*data.shop, year);
  std::vector<MonthFigures> months;
  for (unsigned i = 0; i < kMonths; ++i) {
    MonthFigures& month = months.emplace_back();
    month.month = i + 1;
    month.receipts = sums[i].of(YearLine::gross_receipts) - sums[i].of(YearLine::returns);
    month.cost_of_goods = sums[i].moved.total();
    month.expenses = sums[i].of(YearLine::expenses) + sums[i].of(YearLine::car_and_truck);
    month.net_profit = month.receipts - month.cost_of_goods - month.expenses;
    month.machines_sold = sold[i];
    month.minutes = minutes[i];
    month.pay_per_hour = per_hour(month.net_profit, month.minutes);
  }
  return months;
} catch (const std::overflow_error&) {
  return problem("The amounts of this year are too large to be added up.", "amount");
}

std::vector<TaxOfPlace> Books::sales_tax(int year) const {
  const Ledger& ledger = data_->ledger;
  std::map<std::string, TaxOfPlace, std::less<>> places;
  for (const Ledger::Entry& entry : ledger.entries()) {
    if (entry.account != AccountKind::sales_tax) continue;
    const Ledger::Happening& happening = ledger.happenings()[entry.happening];
    if (year_of(happening.date) > year) break;  // they stand by day
    TaxOfPlace& place = places[ledger.name(entry.name)];
    place.owed -= entry.amount;
    if (year_of(happening.date) < year)
      place.owed_before -= entry.amount;
    else if (happening.turn == Turn::tax_paid)
      place.handed_on += entry.amount;
    else
      place.collected -= entry.amount;
  }
  std::vector<TaxOfPlace> all;
  for (auto& [name, place] : places) {
    place.place = name;
    if (!place.owed_before.is_zero() || !place.collected.is_zero() || !place.handed_on.is_zero())
      all.push_back(std::move(place));
  }
  return all;
}

std::vector<int> Books::dated_years() const {
  std::set<int> years;
  data_->shop->each_table([&]<class Record>(const Table<Record>& table) {
    if constexpr (!is_of_the_books<Record>) return;
    for (const Record& record : table) {
      if constexpr (requires { record.date; }) years.insert(year_of(record.date));
      if constexpr (requires { record.arrived; })
        if (record.arrived) years.insert(year_of(*record.arrived));
      if constexpr (requires { record.hulk_gone; })
        if (record.hulk_gone) years.insert(year_of(*record.hulk_gone));
    }
  });
  return {years.begin(), years.end()};
}

std::optional<std::pair<int, int>> Books::years() const {
  const std::vector<int> years = dated_years();
  if (years.empty()) return std::nullopt;
  return std::pair{years.front(), years.back()};
}

}  // namespace secondpull
