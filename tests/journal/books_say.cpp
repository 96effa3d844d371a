#include "tests/journal/books_say.h"

#include <algorithm>
#include <initializer_list>
#include <stdexcept>

#include "db/exchange/journal.h"

namespace secondpull::test {

namespace {

int year_of(Date date) {
  return static_cast<int>(date.year());
}

YearFigures figures_of(const Books& books, int year) {
  auto figures = books.year(year, SelfEmploymentRates{});
  if (!figures) throw std::runtime_error(figures.error().sentence);
  return *std::move(figures);
}

Money sum(const ByName& amounts) {
  Money all;
  for (const auto& [name, amount] : amounts)
    all += amount;
  return all;
}

Amounts without_zeros(Amounts amounts) {
  std::erase_if(amounts, [](const auto& one) { return one.second.is_zero(); });
  return amounts;
}

Money scrap_money(const Shop& shop, int year) {
  Money scrap;
  for (const Disposal& disposal : shop.all<Disposal>())
    if (!disposal.hulk_here && year_of(disposal.hulk_gone.value_or(disposal.date)) == year)
      scrap += disposal.proceeds;
  return scrap;
}

/// What was paid for machines, and for parts that arrived.
Money paid_for_stock(const Shop& shop, int year) {
  Money paid;
  for (const Acquisition& in : shop.all<Acquisition>())
    if (!in.opening && year_of(in.date) == year) paid += in.price + in.pickup_cost;
  const auto counts = [year](const Order& order) {
    return !order.opening && order.arrived && year_of(*order.arrived) == year;
  };
  for (const Order& order : shop.all<Order>())
    if (counts(order)) paid += order.freight + order.tax;
  for (const OrderLine& line : shop.all<OrderLine>())
    if (counts(*shop.find(line.order))) paid += line.price * line.quantity;
  return paid;
}

Money handed_on(const Shop& shop, int year) {
  Money paid;
  for (const TaxPaid& tax : shop.all<TaxPaid>())
    if (year_of(tax.date) == year) paid += tax.amount;
  return paid;
}

Money cash_of(const Books& books, int year) {
  const YearFigures figures = figures_of(books, year);
  return figures.gross_receipts - figures.returns + sum(figures.sales_tax_collected) -
         handed_on(books.shop(), year) - figures.all_expenses() - figures.materials - figures.other_costs -
         paid_for_stock(books.shop(), year);
}

Money sum_of(const Books& books, MachineId machine, std::initializer_list<LineKind> kinds) {
  Money all;
  for (const FigureLine& line : books.lines(machine))
    if (std::find(kinds.begin(), kinds.end(), line.kind) != kinds.end()) all += line.amount;
  return all;
}

std::string tag_of(const Books& books, MachineId machine) {
  return db::account_name(books.shop().find(machine)->tag);
}

}  // namespace

Amounts moved_in(const Books& books, int year) {
  const YearFigures figures = figures_of(books, year);
  const Money scrap = scrap_money(books.shop(), year);
  Amounts moved;
  moved["Income:Sales"] = figures.returns - (figures.gross_receipts - scrap);
  moved["Income:Scrap"] = -scrap;
  moved["Expenses:Cost of goods"] = figures.cost_of_goods_sold;
  for (const auto& [category, amount] : figures.expenses)
    moved["Expenses:" + db::account_name(category)] += amount;
  moved["Expenses:car and truck"] += figures.car_and_truck;
  return without_zeros(std::move(moved));
}

Amounts stands_at_end_of(const Books& books, int year) {
  const YearFigures figures = figures_of(books, year);
  Amounts stands;
  for (int past = books.years()->first; past <= year; ++past)
    stands["Assets:Cash"] += cash_of(books, past);
  stands["stock"] = figures.closing_inventory;
  stands["Liabilities:Sales tax"] = -sum(figures.sales_tax_owed);
  return without_zeros(std::move(stands));
}

Amounts sales_tax_at_end_of(const Books& books, int year) {
  Amounts places;
  for (const auto& [place, owed] : figures_of(books, year).sales_tax_owed)
    places[db::account_name(place)] = -owed;
  return places;
}

Amounts proceeds_by_machine(const Books& books) {
  Amounts proceeds;
  for (const MachineFigures& figures : books.machines()) {
    // One that is here may have been sold and taken back before.
    const Money so_far =
        figures.net_proceeds.value_or(sum_of(books, figures.machine,
                                             {LineKind::price, LineKind::fee, LineKind::delivery,
                                              LineKind::refund, LineKind::allowance, LineKind::scrap}));
    proceeds[tag_of(books, figures.machine)] = -so_far;
  }
  return without_zeros(std::move(proceeds));
}

Amounts cost_by_machine(const Books& books) {
  Amounts costs;
  for (const MachineFigures& figures : books.machines())
    if (figures.stage != Stage::kept) costs[tag_of(books, figures.machine)] = figures.cost_basis;
  return without_zeros(std::move(costs));
}

Amounts trips_by_machine(const Books& books) {
  Amounts trips;
  for (const MachineFigures& figures : books.machines())
    trips[tag_of(books, figures.machine)] = -sum_of(books, figures.machine, {LineKind::trip});
  return without_zeros(std::move(trips));
}

}  // namespace secondpull::test
