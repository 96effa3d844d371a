// How a figure of a year came about.

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/books/books_data.h"
#include "core/books/counts.h"
#include "core/books/describe.h"
#include "core/shop/describe.h"

namespace secondpull {

using namespace bookkeeping;

namespace {

Date last_day(int year) {
  return std::chrono::year{year} / std::chrono::December / 31;
}

/// A figure of the year as a term of another.
struct Term {
  YearLine line;
  Money amount;
};

/// Is a posting, or a figure, under the name that was asked for? Sales tax of no named place is a place too.
bool is_asked(YearLine line, const std::string& asked, const std::string& name) {
  const bool by_place = line == YearLine::sales_tax_collected || line == YearLine::sales_tax_owed;
  return asked == name || (asked.empty() && !by_place);
}

}  // namespace

namespace bookkeeping {

/// Gathers what one figure is made of.
class Why {
 public:
  Why(const Books::Data& data, const YearFigures& figures, const SelfEmploymentRates& rates,
      const std::string& name)
      : data_{data}, figures_{figures}, rates_{rates}, name_{name} {}

  YearWhy of(YearLine line);

 private:
  std::string sum(Money amount) const { return plain(amount, data_.shop->settings.currency); }

  /// Every event whose postings count in the line, with what it adds.
  void add_events(YearLine line);
  std::string what(const Ledger::Happening& happening, YearLine line) const;
  std::string trip_at_its_rate(const Trip& trip) const;
  std::string rates_used() const;
  void add_stock(int year);
  void add_tax_owed();
  void add_terms(std::initializer_list<Term> terms);
  void add_trips();
  void add_labour();
  void add_sales();
  void add(Date date, const AnyId& event, std::string what, std::int64_t size) {
    why_.details.push_back({date, event, std::nullopt, std::move(what), why_.unit, size});
  }
  void by_day() {
    std::stable_sort(why_.details.begin(), why_.details.end(),
                     [](const YearDetail& a, const YearDetail& b) { return a.date < b.date; });
  }
  void explain_self_employment_tax();
  void explain_pay_per_hour();
  void explain_car_and_truck();

  const Books::Data& data_;
  const YearFigures& figures_;
  const SelfEmploymentRates& rates_;
  const std::string& name_;
  YearWhy why_;
};

void Why::add_events(YearLine line) {
  const Counts counts{*data_.shop};
  const auto [first, last] = data_.happenings_of(figures_.year);
  for (std::size_t i = first; i < last; ++i) {
    const Ledger::Happening& happening = data_.ledger.happenings()[i];
    Money added;
    bool counted = false;
    const auto [leg, end] = data_.ledger.legs(i);
    for (const Ledger::Entry* entry = leg; entry != end; ++entry)
      for (const Count& count : counts.of(happening, *entry)) {
        if (count.line != line || !is_asked(line, name_, data_.ledger.name(count.name))) continue;
        added += count.amount;
        counted = true;
      }
    if (counted) add(happening.date, happening.event, what(happening, line), added.minor());
  }
}

std::string Why::what(const Ledger::Happening& happening, YearLine line) const {
  const Shop& shop = *data_.shop;
  if (const auto* const id = std::get_if<TripId>(&happening.event)) return trip_at_its_rate(*shop.find(*id));
  // What the owner brings in for a gift, or takes back, counts on the day that it is settled.
  const bool settled =
      line == YearLine::purchases && happening.turn != Turn::acquisition && happening.turn != Turn::arrival;
  return settled ? fmt::format("basis of a gift, settled: {}", what_happened(shop, happening))
                 : what_happened(shop, happening);
}

std::string Why::trip_at_its_rate(const Trip& trip) const {
  const MileageRate* const rate = data_.rates.on(trip.date);
  std::string words =
      fmt::format("{}, {} miles", trip.purpose, size_text(YearUnit::tenths_of_mile, trip.miles.count, {}));
  if (rate != nullptr)
    words +=
        fmt::format(" at {}.{} cents", rate->tenths_of_cent_a_mile / 10, rate->tenths_of_cent_a_mile % 10);
  return words;
}

/// Where the rates of the year's trips come from.
std::string Why::rates_used() const {
  std::set<std::string> sources;
  for (const Trip& trip : data_.shop->all<Trip>())
    if (const MileageRate* const rate = data_.rates.on(trip.date);
        rate != nullptr && year_of(trip.date) == figures_.year)
      sources.insert(rate->source);
  std::string words;
  for (const std::string& source : sources)
    words += fmt::format("{}{}", words.empty() ? "" : "; ", source);
  return words;
}

void Why::add_stock(int year) {
  const Inventory* const inventory = inventory_at_end(data_.inventories, year);
  if (inventory == nullptr) return;
  const Shop& shop = *data_.shop;
  for (const auto& [place, amount] : inventory->machines) {
    const Machine& machine = shop.all<Machine>().begin()[place];
    add(last_day(year), machine.id, fmt::format("{} in stock", called(machine)), amount.minor());
  }
  for (const StockReceipt& receipt : inventory->parts) {
    if (receipt.cost.is_zero()) continue;
    const Part* const part = shop.find(receipt.part);
    const Order* const order = receipt.order ? shop.find(*receipt.order) : nullptr;
    const std::string from = order != nullptr ? "order " + order->code : called(shop, *receipt.donor);
    add(last_day(year), receipt.order ? AnyId{*receipt.order} : AnyId{*receipt.donor},
        fmt::format("{} x {} from {}", receipt.quantity, part->name, from), receipt.cost.minor());
  }
}

void Why::add_tax_owed() {
  const auto [first, last] = data_.happenings_of(figures_.year);
  const auto& happenings = data_.ledger.happenings();
  Money before;
  for (std::size_t i = 0; i < last; ++i) {
    Money owed;
    const auto [leg, end] = data_.ledger.legs(i);
    for (const Ledger::Entry* entry = leg; entry != end; ++entry)
      if (entry->account == AccountKind::sales_tax &&
          is_asked(YearLine::sales_tax_owed, name_, data_.ledger.name(entry->name)))
        owed -= entry->amount;
    if (i < first)
      before += owed;
    else if (!owed.is_zero())
      add(happenings[i].date, happenings[i].event, what_happened(*data_.shop, happenings[i]), owed.minor());
  }
  if (!before.is_zero())
    why_.details.insert(why_.details.begin(),
                        {std::chrono::year{figures_.year} / 1 / 1, std::nullopt, std::nullopt,
                         "owed from the years before", YearUnit::money, before.minor()});
}

void Why::add_terms(std::initializer_list<Term> terms) {
  for (const Term& term : terms)
    why_.details.push_back({last_day(figures_.year), std::nullopt, term.line, std::string{shown(term.line)},
                            YearUnit::money, term.amount.minor()});
}

void Why::add_trips() {
  for (const Trip& trip : data_.shop->all<Trip>())
    if (year_of(trip.date) == figures_.year)
      add(trip.date, trip.id,
          fmt::format("{}{}", trip.purpose, trip.destination.empty() ? "" : ", " + trip.destination),
          trip.miles.count);
  by_day();
}

void Why::add_labour() {
  for (const Labour& labour : data_.shop->all<Labour>())
    if (year_of(labour.date) == figures_.year)
      add(labour.date, labour.id, described(*data_.shop, labour), labour.minutes.count);
  by_day();
}

void Why::add_sales() {
  for (const Sale& sale : data_.shop->all<Sale>())
    if (year_of(sale.date) == figures_.year)
      add(sale.date, sale.id, fmt::format("sold {}", called(*data_.shop, sale.machine)), 1);
  for (const Return& back : data_.shop->all<Return>())
    if (year_of(back.date) == figures_.year)
      add(back.date, back.id, fmt::format("took back {}", called(*data_.shop, back.machine)), -1);
  by_day();
}

void Why::explain_self_employment_tax() {
  why_.adds_up = false;
  why_.given = figures_.self_employment_tax.has_value();
  add_terms({{YearLine::net_profit, figures_.net_profit}});
  const WageBase* const base = rates_.base(figures_.year);
  if (!why_.given)
    why_.how = trips_cost(*data_.shop) ? "Not given: the wage base of this year is not known to the program."
                                       : "Not given: the estimate is that of the United States.";
  else
    why_.how = fmt::format(
        "92.35 % of the net profit is taxed, at 12.4 % up to {} (the wage base of {}: {}, {}) and at 2.9 % "
        "on "
        "all; nothing if that is under 400. An estimate; no tax advice.",
        sum(base->amount), figures_.year, base->source, base->sure);
}

void Why::explain_pay_per_hour() {
  why_.adds_up = false;
  why_.given = figures_.pay_per_hour.has_value();
  why_.how = why_.given ? "Net profit over all hours logged in the year, from the minutes, rounded once."
                        : "Not given: no hours are logged in this year.";
  add_terms({{YearLine::net_profit, figures_.net_profit}});
  why_.details.push_back({last_day(figures_.year), std::nullopt, YearLine::hours,
                          std::string{shown(YearLine::hours)}, YearUnit::minutes, figures_.minutes.count});
}

void Why::explain_car_and_truck() {
  if (!trips_cost(*data_.shop)) {
    why_.how = "Trips cost nothing: the mileage rate is that of the United States.";
    return;
  }
  why_.how = "Trips by the standard mileage rate of their day, rounded trip by trip.";
  if (const std::string sources = rates_used(); !sources.empty())
    why_.how += fmt::format(" Rates: {}.", sources);
  add_events(YearLine::car_and_truck);
}

YearWhy Why::of(YearLine line) {
  const YearFigures& year = figures_;
  why_.unit = unit_of(line);
  switch (line) {
    case YearLine::gross_receipts:
      why_.how = "Prices of machines and parts sold and scrap money, sales tax apart.";
      add_events(line);
      break;
    case YearLine::returns:
      why_.how = "What was given back to buyers in the year, sales tax apart.";
      add_events(line);
      break;
    case YearLine::opening_inventory:
      why_.how = "The stock at the end of the year before, and what was here when the books begin.";
      add_stock(year.year - 1);
      add_events(line);
      break;
    case YearLine::purchases:
      why_.how =
          "Paid for machines and for parts that arrived, with freight, tax and pickup, and what the "
          "owner brought in for gifts.";
      add_events(line);
      break;
    case YearLine::withdrawals:
      why_.how = "Machines kept for own use, at cost, and what was spent on them later.";
      add_events(line);
      break;
    case YearLine::materials:
      why_.how = "Materials used on machines.";
      add_events(line);
      break;
    case YearLine::other_costs:
      why_.how = "Work that others were paid for.";
      add_events(line);
      break;
    case YearLine::closing_inventory:
      why_.how = "Every machine, hulk and part in stock when the year ended, at cost.";
      add_stock(year.year);
      break;
    case YearLine::cost_of_goods_sold:
      why_.how = fmt::format(
          "Stock at the start, purchases, materials and outside work, less withdrawals and the stock at the "
          "end. By the movements: what left {}, less what came back {}, spent on machines that had left {}, "
          "parts written off and sold {}: {}.",
          sum(year.moved.left), sum(year.moved.came_back), sum(year.moved.spent_after), sum(year.moved.parts),
          sum(year.moved.total()));
      add_terms({{YearLine::opening_inventory, year.opening_inventory},
                 {YearLine::purchases, year.purchases},
                 {YearLine::withdrawals, -year.withdrawals},
                 {YearLine::materials, year.materials},
                 {YearLine::other_costs, year.other_costs},
                 {YearLine::closing_inventory, -year.closing_inventory}});
      break;
    case YearLine::gross_profit:
      why_.how = "Receipts less refunds and allowances, less the cost of goods sold.";
      add_terms({{YearLine::gross_receipts, year.gross_receipts},
                 {YearLine::returns, -year.returns},
                 {YearLine::cost_of_goods_sold, -year.cost_of_goods_sold}});
      break;
    case YearLine::expenses:
      why_.how = "Costs of the shop, selling fees and delivery.";
      add_events(line);
      break;
    case YearLine::car_and_truck:
      explain_car_and_truck();
      break;
    case YearLine::net_profit:
      why_.how = "Gross profit less expenses, car and truck.";
      add_terms({{YearLine::gross_profit, year.gross_profit},
                 {YearLine::expenses, -year.all_expenses()},
                 {YearLine::car_and_truck, -year.car_and_truck}});
      break;
    case YearLine::self_employment_tax:
      explain_self_employment_tax();
      break;
    case YearLine::sales_tax_collected:
      why_.how = "Sales tax of the year's sales, less what went back with refunds and allowances.";
      add_events(line);
      break;
    case YearLine::sales_tax_owed:
      why_.how = "What was owed before, and collected in the year, less what was handed on.";
      add_tax_owed();
      break;
    case YearLine::miles:
      why_.how = "Miles of every trip of the year.";
      add_trips();
      break;
    case YearLine::machines_sold:
      why_.how = "Sales less returns dated in the year.";
      add_sales();
      break;
    case YearLine::hours:
      why_.how = "All labour dated in the year, the shop in general included.";
      add_labour();
      break;
    case YearLine::pay_per_hour:
      explain_pay_per_hour();
      break;
  }
  return std::move(why_);
}

}  // namespace bookkeeping

YearWhy Books::why(const YearFigures& figures, YearLine line, const std::string& name,
                   const SelfEmploymentRates& rates) const {
  YearWhy why = Why{*data_, figures, rates, name}.of(line);
  for (const YearSize& one : sizes(figures))
    if (one.line == line && is_asked(line, name, one.name)) why.size += one.size;
  return why;
}

Result<YearWhy> Books::why(int year, YearLine line, const std::string& name,
                           const SelfEmploymentRates& rates) const {
  const auto figures = this->year(year, rates);
  if (!figures) return tl::unexpected(figures.error());
  return why(*figures, line, name, rates);
}

}  // namespace secondpull
