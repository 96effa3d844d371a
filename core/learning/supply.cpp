#include "core/learning/supply.h"

#include <algorithm>

#include "core/calendar/date.h"
#include "core/learning/units.h"

namespace secondpull::learning {
namespace {

/// The latest line that ordered the part: by the order's day, then as entered.
const OrderLine* last_line(const Shop& shop, PartId part) {
  const OrderLine* last = nullptr;
  Date day{};
  for (const OrderLine& line : shop.all<OrderLine>()) {
    const Order* const order = shop.find(line.order);
    if (line.part != part || order == nullptr) continue;
    if (last == nullptr || order->date > day || (order->date == day && line.entered > last->entered)) {
      last = &line;
      day = order->date;
    }
  }
  return last;
}

/// The price of a piece with freight and tax in proportion to the prices of the order's lines.
double landed(const Shop& shop, const OrderLine& line) {
  const Order& order = *shop.find(line.order);
  double goods = 0;
  for (const OrderLine& other : shop.all<OrderLine>())
    if (other.order == line.order)
      goods += static_cast<double>(other.quantity) * in_units(other.price, shop.settings.currency);
  const double price = in_units(line.price, shop.settings.currency);
  const double extra = in_units(order.freight + order.tax, shop.settings.currency);
  return goods > 0 ? price * (1 + extra / goods) : price;
}

struct Mean {
  double sum = 0;
  double count = 0;
  std::optional<double> value() const { return count > 0 ? std::optional{sum / count} : std::nullopt; }
};

}  // namespace

PartPrices own_prices(const Shop& shop, PartId part) {
  PartPrices prices;
  if (const OrderLine* const line = last_line(shop, part)) prices.replaced = landed(shop, *line);
  Mean fetched;
  for (const PartSale& sale : shop.all<PartSale>())
    if (sale.part == part) {
      fetched.sum += in_units(sale.price - sale.fee, shop.settings.currency);
      fetched.count += static_cast<double>(sale.quantity);
    }
  prices.fetched = fetched.value();
  return prices;
}

std::optional<Supply> from_shelf(const Shop& shop, PartId id, std::int64_t quantity) {
  const Part* const part = shop.find(id);
  if (part == nullptr) return std::nullopt;
  const PartPrices prices = own_prices(shop, id);
  const std::optional<double> each = part->reorder_at ? (prices.replaced ? prices.replaced : prices.fetched)
                                                      : (prices.fetched ? prices.fetched : prices.replaced);
  if (!each) return std::nullopt;
  return Supply{.cost = static_cast<double>(quantity) * std::max(*each, 0.0)};
}

std::optional<double> days_to_arrive(const Shop& shop, std::optional<PersonId> supplier) {
  Mean of_supplier, of_all;
  for (const Order& order : shop.all<Order>()) {
    if (!order.arrived || order.opening) continue;
    const double days = days_between(order.date, *order.arrived);
    of_all.sum += days;
    ++of_all.count;
    if (supplier && order.supplier == supplier) {
      of_supplier.sum += days;
      ++of_supplier.count;
    }
  }
  return of_supplier.count > 0 ? of_supplier.value() : of_all.value();
}

}  // namespace secondpull::learning
