#include "core/books/year.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

namespace secondpull {

namespace {

constexpr std::array kLines{YearLine::gross_receipts,
                            YearLine::returns,
                            YearLine::opening_inventory,
                            YearLine::purchases,
                            YearLine::withdrawals,
                            YearLine::materials,
                            YearLine::other_costs,
                            YearLine::closing_inventory,
                            YearLine::cost_of_goods_sold,
                            YearLine::gross_profit,
                            YearLine::expenses,
                            YearLine::car_and_truck,
                            YearLine::net_profit,
                            YearLine::self_employment_tax,
                            YearLine::sales_tax_collected,
                            YearLine::sales_tax_owed,
                            YearLine::miles,
                            YearLine::machines_sold,
                            YearLine::hours,
                            YearLine::pay_per_hour};

struct Names {
  std::string_view key;
  std::string_view shown;
};

Names names(YearLine line) {
  switch (line) {
    case YearLine::gross_receipts:
      return {"gross_receipts", "gross receipts"};
    case YearLine::returns:
      return {"returns", "refunds and allowances"};
    case YearLine::opening_inventory:
      return {"opening_inventory", "stock at the start of the year"};
    case YearLine::purchases:
      return {"purchases", "purchases"};
    case YearLine::withdrawals:
      return {"withdrawals", "taken for own use"};
    case YearLine::materials:
      return {"materials", "materials"};
    case YearLine::other_costs:
      return {"other_costs", "outside work"};
    case YearLine::closing_inventory:
      return {"closing_inventory", "stock at the end of the year"};
    case YearLine::cost_of_goods_sold:
      return {"cost_of_goods_sold", "cost of goods sold"};
    case YearLine::gross_profit:
      return {"gross_profit", "gross profit"};
    case YearLine::expenses:
      return {"expenses", "expenses"};
    case YearLine::car_and_truck:
      return {"car_and_truck", "car and truck"};
    case YearLine::net_profit:
      return {"net_profit", "net profit"};
    case YearLine::self_employment_tax:
      return {"self_employment_tax", "self-employment tax, estimated"};
    case YearLine::sales_tax_collected:
      return {"sales_tax_collected", "sales tax collected"};
    case YearLine::sales_tax_owed:
      return {"sales_tax_owed", "sales tax owed"};
    case YearLine::miles:
      return {"miles", "miles"};
    case YearLine::machines_sold:
      return {"machines_sold", "machines sold"};
    case YearLine::hours:
      return {"hours", "hours"};
    case YearLine::pay_per_hour:
      return {"pay_per_hour", "pay per hour"};
  }
  return {};
}

}  // namespace

std::string_view word(YearLine line) {
  return names(line).key;
}

std::string_view shown(YearLine line) {
  return names(line).shown;
}

std::string shown(YearLine line, const std::string& name) {
  if (!has_names(line)) return std::string{shown(line)};
  const bool no_place = name.empty() && line != YearLine::expenses;
  return fmt::format("{} ({})", shown(line), no_place ? "no place said" : name);
}

YearUnit unit_of(YearLine line) {
  switch (line) {
    case YearLine::miles:
      return YearUnit::tenths_of_mile;
    case YearLine::machines_sold:
      return YearUnit::machines;
    case YearLine::hours:
      return YearUnit::minutes;
    default:
      return YearUnit::money;
  }
}

std::string size_text(YearUnit unit, std::int64_t size, const Currency& currency) {
  switch (unit) {
    case YearUnit::money:
      return plain(Money::from_minor(size), currency);
    case YearUnit::minutes:
      return decimal_hours(Minutes{size});
    case YearUnit::tenths_of_mile:
      return fmt::format("{}.{}", size / 10, size % 10);
    case YearUnit::machines:
      return std::to_string(size);
  }
  return {};
}

std::span<const YearLine> all_year_lines() {
  return kLines;
}

std::optional<YearLine> year_line(std::string_view text) {
  const auto found =
      std::find_if(kLines.begin(), kLines.end(), [text](YearLine line) { return word(line) == text; });
  return found == kLines.end() ? std::nullopt : std::optional{*found};
}

Money YearFigures::all_expenses() const {
  Money sum;
  for (const auto& [category, amount] : expenses)
    sum += amount;
  return sum;
}

std::vector<YearSize> sizes(const YearFigures& figures) {
  std::vector<YearSize> all;
  const auto add = [&](YearLine line, std::int64_t size) { all.push_back({line, {}, size}); };
  const auto add_named = [&](YearLine line, const ByName& amounts) {
    for (const auto& [name, amount] : amounts)
      all.push_back({line, name, amount.minor()});
  };
  add(YearLine::gross_receipts, figures.gross_receipts.minor());
  add(YearLine::returns, figures.returns.minor());
  add(YearLine::opening_inventory, figures.opening_inventory.minor());
  add(YearLine::purchases, figures.purchases.minor());
  add(YearLine::withdrawals, figures.withdrawals.minor());
  add(YearLine::materials, figures.materials.minor());
  add(YearLine::other_costs, figures.other_costs.minor());
  add(YearLine::closing_inventory, figures.closing_inventory.minor());
  add(YearLine::cost_of_goods_sold, figures.cost_of_goods_sold.minor());
  add(YearLine::gross_profit, figures.gross_profit.minor());
  add_named(YearLine::expenses, figures.expenses);
  add(YearLine::car_and_truck, figures.car_and_truck.minor());
  add(YearLine::net_profit, figures.net_profit.minor());
  if (figures.self_employment_tax) add(YearLine::self_employment_tax, figures.self_employment_tax->minor());
  add_named(YearLine::sales_tax_collected, figures.sales_tax_collected);
  add_named(YearLine::sales_tax_owed, figures.sales_tax_owed);
  add(YearLine::miles, figures.miles.count);
  add(YearLine::machines_sold, figures.machines_sold);
  add(YearLine::hours, figures.minutes.count);
  if (figures.pay_per_hour) add(YearLine::pay_per_hour, figures.pay_per_hour->minor());
  return all;
}

}  // namespace secondpull
