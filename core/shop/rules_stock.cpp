#include <unordered_set>

#include <fmt/format.h>

#include "core/shop/limits.h"
#include "core/shop/rule_breaks.h"
#include "core/shop/stock_days.h"

namespace secondpull {
namespace {

void check_shortages(const Shop& shop, RuleBreaks& breaks) {
  for (const Shortage& shortage : shortages(shop)) {
    const Part* const part = shop.find(shortage.part);
    std::visit(
        [&](auto id) {
          breaks.add(
              id, "quantity", std::to_string(shortage.wanted),
              fmt::format("{} x {} {} used on {}, but {} in stock.", shortage.wanted,
                          part != nullptr ? part->name : "part", shortage.wanted == 1 ? "is" : "are",
                          iso(shortage.date),
                          shortage.in_stock == 0 ? "there is none"
                                                 : fmt::format("only {} {}", shortage.in_stock,
                                                               shortage.in_stock == 1 ? "is" : "are")));
        },
        shortage.use);
  }
}

void check_not_empty(const Shop& shop, RuleBreaks& breaks) {
  std::unordered_set<AcquisitionId> with_machines;
  for (const Machine& machine : shop.all<Machine>())
    with_machines.insert(machine.acquisition);
  for (const Acquisition& acquisition : shop.all<Acquisition>())
    if (!with_machines.contains(acquisition.id))
      breaks.add(acquisition.id, "acquisition", acquisition.code,
                 fmt::format("The acquisition {} brought in no machine.", acquisition.code));
  std::unordered_set<OrderId> with_lines;
  for (const OrderLine& line : shop.all<OrderLine>())
    with_lines.insert(line.order);
  for (const Order& order : shop.all<Order>())
    if (!with_lines.contains(order.id))
      breaks.add(order.id, "order", order.code, fmt::format("The order {} has no lines.", order.code));
}

/// The earliest `date` of all tables of the books.
std::optional<Date> first_date(const Shop& shop) {
  std::optional<Date> first;
  shop.each_table([&]<class Record>(const Table<Record>& table) {
    if constexpr (is_of_the_books<Record> && requires(const Record& record) { record.date; })
      for (const Record& record : table)
        if (!first || record.date < *first) first = record.date;
  });
  return first;
}

void check_opening(const Shop& shop, RuleBreaks& breaks) {
  const auto first = first_date(shop);
  if (!first) return;
  const auto sentence = [&](std::string_view what) {
    return fmt::format(
        "{} is marked as in stock when the books begin, but did not come in {}, their first year.", what,
        static_cast<int>(first->year()));
  };
  for (const Acquisition& acquisition : shop.all<Acquisition>())
    if (acquisition.opening && acquisition.date.year() != first->year())
      breaks.add(acquisition.id, "opening", "yes", sentence("The acquisition " + acquisition.code));
  for (const Order& order : shop.all<Order>())
    if (order.opening && (!order.arrived || order.arrived->year() != first->year()))
      breaks.add(order.id, "opening", "yes", sentence("The order " + order.code));
}

/// Adds up all amounts, so that no sum of the books can overflow; tells of the first line that is too much.
class Total {
 public:
  Total(const Shop& shop, RuleBreaks& breaks) : shop_{shop}, breaks_{breaks} {}

  template <class Record>
  void add(const char* column, Money Record::*amount) {
    for (const Record& record : shop_.all<Record>())
      add(record, column, record.*amount, 1);
  }
  template <class Record>
  void add(const Record& record, const char* column, Money amount, std::int64_t times) {
    if (told_ || !amount_in_range(amount) || !quantity_in_range(times)) return;
    // A line above the largest amount is told of by its cells; counting it as the largest keeps the sum
    // exact.
    const std::int64_t line =
        amount.minor() > kLargestAmount / times ? kLargestAmount : amount.minor() * times;
    if (line > kLargestTotal - sum_) {
      told_ = true;
      breaks_.add(record.id, column, plain(amount, shop_.settings.currency),
                  "The amounts of the shop add up to more than can be kept.");
      return;
    }
    sum_ += line;
  }

 private:
  const Shop& shop_;
  RuleBreaks& breaks_;
  std::int64_t sum_ = 0;
  bool told_ = false;
};

void check_total(const Shop& shop, RuleBreaks& breaks) {
  Total total{shop, breaks};
  total.add("price", &Acquisition::price);
  total.add("pickup_cost", &Acquisition::pickup_cost);
  for (const Acquisition& acquisition : shop.all<Acquisition>())
    total.add(acquisition, "giver_basis", acquisition.giver_basis.value_or(Money{}), 1);
  for (const Machine& machine : shop.all<Machine>())
    total.add(machine, "value_then", machine.value_then.value_or(Money{}), 1);
  total.add("cost", &Finding::cost);
  total.add("freight", &Order::freight);
  total.add("tax", &Order::tax);
  for (const OrderLine& line : shop.all<OrderLine>())
    total.add(line, "price", line.price, line.quantity);
  total.add("value", &Harvest::value);
  total.add("cost", &Material::cost);
  total.add("price", &Sale::price);
  total.add("sales_tax", &Sale::sales_tax);
  total.add("fee", &Sale::fee);
  total.add("delivery", &Sale::delivery);
  total.add("refunded", &Return::refunded);
  total.add("amount", &Allowance::amount);
  total.add("sales_tax", &Allowance::sales_tax);
  total.add("price", &PartSale::price);
  total.add("sales_tax", &PartSale::sales_tax);
  total.add("fee", &PartSale::fee);
  total.add("amount", &TaxPaid::amount);
  total.add("proceeds", &Disposal::proceeds);
  for (const Disposal& disposal : shop.all<Disposal>())
    total.add(disposal, "hulk_value", disposal.hulk_value.value_or(Money{}), 1);
  total.add("amount", &Expense::amount);
}

}  // namespace

void check_stock_and_lots(const Shop& shop, RuleBreaks& breaks) {
  check_shortages(shop, breaks);
  check_not_empty(shop, breaks);
  check_opening(shop, breaks);
  check_total(shop, breaks);
}

}  // namespace secondpull
