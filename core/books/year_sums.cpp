#include "core/books/year_sums.h"

#include <algorithm>
#include <climits>
#include <tuple>

#include "core/books/earned.h"

namespace secondpull {
namespace {

template <class Record>
std::vector<Record> of_year(const Shop& shop, int year) {
  std::vector<Record> all;
  for (const Record& record : shop.all<Record>())
    if (year_of(record.date) == year) all.push_back(record);
  std::sort(all.begin(), all.end(), [](const Record& a, const Record& b) {
    return std::tie(a.date, a.entered) < std::tie(b.date, b.entered);
  });
  return all;
}

template <class Record>
Money amounts(const std::vector<Record>& records) {
  Money sum;
  for (const Record& record : records)
    sum += record.amount;
  return sum;
}

}  // namespace

ExpensesOfYear expenses_of(const Shop& shop, int year) {
  ExpensesOfYear made{.expenses = of_year<Expense>(shop, year)};
  made.total = amounts(made.expenses);
  return made;
}

TaxHandedOn handed_on_in(const Shop& shop, int year) {
  TaxHandedOn made{.payments = of_year<TaxPaid>(shop, year)};
  made.total = amounts(made.payments);
  return made;
}

MonthFigures together(std::span<const MonthFigures> months) {
  MonthFigures sum{.month = 0};
  for (const MonthFigures& month : months) {
    sum.receipts += month.receipts;
    sum.cost_of_goods += month.cost_of_goods;
    sum.expenses += month.expenses;
    sum.net_profit += month.net_profit;
    sum.machines_sold += month.machines_sold;
    sum.minutes += month.minutes;
  }
  sum.pay_per_hour = per_hour(sum.net_profit, sum.minutes);
  return sum;
}

TaxOfPlace together(std::span<const TaxOfPlace> places) {
  TaxOfPlace sum;
  for (const TaxOfPlace& place : places) {
    sum.owed_before += place.owed_before;
    sum.collected += place.collected;
    sum.handed_on += place.handed_on;
    sum.owed += place.owed;
  }
  return sum;
}

Received together(std::span<const Received> ways) {
  Received sum;
  for (const Received& way : ways) {
    sum.sales += way.sales;
    sum.price += way.price;
    sum.sales_tax += way.sales_tax;
  }
  return sum;
}

std::vector<TiedUpClass> by_age(std::span<const TiedUp> all) {
  constexpr int kLast[] = {30, 90, 180, 365, INT_MAX};
  std::vector<TiedUpClass> classes;
  int from = 0;
  for (const int to : kLast) {
    TiedUpClass& made = classes.emplace_back(TiedUpClass{.from_days = from, .to_days = to});
    for (const TiedUp& each : all) {
      // What comes in on a later day than today counts as new.
      const int days = std::max(each.days, 0);
      if (days < from || days > to) continue;
      ++made.count;
      made.amount += each.amount;
    }
    from = to == INT_MAX ? to : to + 1;
  }
  return classes;
}

TiedUpSum together(std::span<const TiedUp> all) {
  TiedUpSum sum;
  for (const TiedUp& each : all)
    (each.machine ? sum.machines : sum.parts) += each.amount;
  return sum;
}

}  // namespace secondpull
