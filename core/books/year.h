#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/books/tax_rates.h"
#include "core/shop/shop.h"

namespace secondpull {

/// The lines of a year, in the order in which `books YEAR` gives them.
enum class YearLine {
  gross_receipts,
  returns,
  opening_inventory,
  purchases,
  withdrawals,
  materials,
  other_costs,
  closing_inventory,
  cost_of_goods_sold,
  gross_profit,
  expenses,  ///< by category
  car_and_truck,
  net_profit,
  self_employment_tax,
  sales_tax_collected,  ///< by place
  sales_tax_owed,       ///< by place
  miles,
  machines_sold,
  hours,
  pay_per_hour
};

/// The key of a line in the exchange format: "gross_receipts".
std::string_view word(YearLine);
/// Every line in the order above.
std::span<const YearLine> all_year_lines();
/// The line of an exact word, or nothing.
std::optional<YearLine> year_line(std::string_view word);
/// As a person reads it: "gross receipts", "self-employment tax, estimated".
std::string_view shown(YearLine);
/// The same with the category or place of a line that has them: "expenses (rent)", "sales tax owed (no place
/// said)". Without a name for every other line.
std::string shown(YearLine line, const std::string& name);
constexpr bool has_names(YearLine line) {
  return line == YearLine::expenses || line == YearLine::sales_tax_collected ||
         line == YearLine::sales_tax_owed;
}

/// What the whole numbers that stand for figures count.
enum class YearUnit { money, minutes, tenths_of_mile, machines };
YearUnit unit_of(YearLine line);
/// A figure or a part of one in words of its unit, as the exchange format has it: "189.20", "3.33" hours,
/// "28.0" miles, "1".
std::string size_text(YearUnit unit, std::int64_t size, const Currency& currency);

/// What moved into the cost of goods in a year, added up from the movements and not from the stock.
struct GoodsMoved {
  Money left;         ///< bases of what was sold and scrapped, and of hulks gone
  Money came_back;    ///< bases of what the buyers brought back
  Money spent_after;  ///< spent on machines after they had left
  Money parts;        ///< parts written off and sold by themselves
  Money total() const { return left - came_back + spent_after + parts; }
};

/// Amounts by name (category of expense, place of sales tax): what is not zero, in order of name.
using ByName = std::map<std::string, Money, std::less<>>;

/// The figures of one calendar year, on the cash basis with inventory kept; the terms of the money model.
struct YearFigures {
  int year = 0;
  Money gross_receipts;  ///< machines and parts sold, scrap money; sales tax apart
  Money returns;         ///< refunds and allowances paid in the year, tax apart
  Money opening_inventory;
  Money purchases;    ///< machines, parts that arrived, gifts brought in; withdrawals not yet taken off
  Money withdrawals;  ///< at cost: machines kept, and what was spent on them later
  Money materials;
  Money other_costs;  ///< outside work
  Money closing_inventory;
  Money closing_machines;    ///< of it, money tied up in machines and hulks
  Money closing_parts;       ///< and in parts
  Money cost_of_goods_sold;  ///< opening + purchases - withdrawals + materials + other costs - closing
  Money gross_profit;        ///< receipts - returns - cost of goods sold
  ByName expenses;
  Money car_and_truck;  ///< trips by the rate of their day
  Money net_profit;
  std::optional<Money> self_employment_tax;  ///< absent outside the US and in a year without a known base
  ByName sales_tax_collected;                ///< less what went back
  ByName sales_tax_owed;                     ///< at the year's end
  Tenths miles;
  std::int64_t machines_sold = 0;  ///< sales less returns dated in the year
  Minutes minutes;                 ///< all labour dated in the year, the shop in general included
  std::optional<Money> pay_per_hour;

  GoodsMoved moved;  ///< the other side of the identity
  /// Cost of goods by the stock less cost of goods by the movements: zero, or the books are wrong.
  Money off() const { return cost_of_goods_sold - moved.total(); }
  Money all_expenses() const;  ///< the sum over the categories
};

/// A figure as a whole number, in the unit of its line: minor units, minutes, tenths of a mile, machines.
struct YearSize {
  YearLine line = YearLine::gross_receipts;
  std::string name;  ///< category or place
  std::int64_t size = 0;
};
/// Every figure of the year that there is (no tax where none is given, no pay without hours), in the order of
/// the lines; those by name as many as there are names.
std::vector<YearSize> sizes(const YearFigures& figures);

/// One part of a figure.
struct YearDetail {
  Date date{};
  std::optional<AnyId> event;    ///< the record behind it
  std::optional<YearLine> line;  ///< or another figure of the year
  std::string what;              ///< "sold #14 to Ruel", "opening inventory"
  YearUnit unit = YearUnit::money;
  std::int64_t size = 0;
};

/// How a figure came about: the answer to "why?".
struct YearWhy {
  YearUnit unit = YearUnit::money;
  std::int64_t size = 0;  ///< the figure
  bool given = true;      ///< false for a figure that there is not: `how` says why
  std::string how;        ///< in one sentence
  /// They add up to the figure, but for a quotient or a rate (`adds_up` false), whose terms they are.
  std::vector<YearDetail> details;
  bool adds_up = true;
};

/// Sales tax of one place in one year.
struct TaxOfPlace {
  std::string place;
  Money owed_before;  ///< at the start of the year
  Money collected;    ///< less what went back
  Money handed_on;
  Money owed;  ///< at its end
};

/// What one month of a year brought; the twelve add up to the year's figures.
struct MonthFigures {
  unsigned month = 1;
  Money receipts;       ///< gross receipts less returns
  Money cost_of_goods;  ///< by the movements
  Money expenses;       ///< car and truck included
  Money net_profit;
  std::int64_t machines_sold = 0;
  Minutes minutes;
  std::optional<Money> pay_per_hour;
};

}  // namespace secondpull
