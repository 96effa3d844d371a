#include "app/shelf/stock_rows.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <unordered_map>

#include <QCoreApplication>
#include <QStringList>

namespace secondpull::app {
namespace {

QString say(const char* text) {
  return QCoreApplication::translate("Stock", text);
}

QString nameOf(const Shop& shop, const std::optional<PersonId>& person) {
  const Person* known = person ? shop.find(*person) : nullptr;
  return known != nullptr ? QString::fromStdString(known->name) : QString{};
}

QString tagOf(const Shop& shop, MachineId machine) {
  const Machine* known = shop.find(machine);
  return known != nullptr ? QString::fromStdString(known->tag) : QString{};
}

bool isUnderWay(const Shop& shop, const OrderLine& line) {
  const Order* order = shop.find(line.order);
  return order != nullptr && !order->arrived;
}

QString inWords(const Shop& shop, const std::map<std::optional<MachineId>, std::int64_t>& by_machine) {
  QStringList words;
  for (const auto& [machine, quantity] : by_machine)
    if (machine) words << say("%1 for #%2").arg(quantity).arg(tagOf(shop, *machine));
  if (const auto shelf = by_machine.find(std::nullopt); shelf != by_machine.end())
    words << (words.empty() ? QString{} : say("%1 for the shelf").arg(shelf->second));
  words.removeAll(QString{});
  return words.join(QStringLiteral(", "));
}

QString stateInWords(const StockRow& row) {
  const QString left = row.on_hand == 0 ? say("none left") : say("%1 left").arg(row.on_hand);
  if (row.low) return say("runs low: %1, order at %2").arg(left).arg(*row.reorder_at);
  if (row.on_hand == 0 && row.on_order > 0) return say("none here, %1 on the way").arg(row.on_order);
  if (row.reorder_at && row.on_hand <= *row.reorder_at) return say("%1, more on the way").arg(left);
  return {};
}

std::vector<const OrderLine*> linesOf(const Shop& shop, OrderId order) {
  std::vector<const OrderLine*> lines;
  for (const OrderLine& line : shop.all<OrderLine>())
    if (line.order == order) lines.push_back(&line);
  std::stable_sort(lines.begin(), lines.end(),
                   [](const OrderLine* a, const OrderLine* b) { return a->entered < b->entered; });
  return lines;
}

}  // namespace

std::vector<StockRow> stockRows(const Books& books) {
  const Shop& shop = books.shop();
  std::unordered_map<PartId, std::map<std::optional<MachineId>, std::int64_t>> ordered;
  for (const OrderLine& line : shop.all<OrderLine>())
    if (isUnderWay(shop, line)) ordered[line.part][line.for_machine] += line.quantity;
  std::unordered_map<PartId, QStringList> off;
  std::unordered_map<PartId, Money> worth;
  for (const StockReceipt& receipt : books.stock()) {
    worth[receipt.part] += receipt.cost;
    if (receipt.donor && receipt.quantity > 0)
      off[receipt.part] << say("%1 off #%2").arg(receipt.quantity).arg(tagOf(shop, *receipt.donor));
  }

  std::vector<StockRow> rows;
  rows.reserve(shop.all<Part>().size());
  for (const Part& part : shop.all<Part>()) {
    StockRow row;
    row.part = part.id;
    row.name = QString::fromStdString(part.name);
    row.number = QString::fromStdString(part.number);
    row.supplier = nameOf(shop, part.supplier);
    row.on_hand = books.on_hand(part.id);
    const auto& by_machine = ordered[part.id];
    row.on_order = std::accumulate(by_machine.begin(), by_machine.end(), std::int64_t{0},
                                   [](std::int64_t sum, const auto& entry) { return sum + entry.second; });
    row.ordered_for = inWords(shop, by_machine);
    row.off_donors = off[part.id].join(QStringLiteral(", "));
    row.worth = worth[part.id];
    row.next = books.cost_of_next(part.id, 1);
    row.reorder_at = part.reorder_at;
    row.low = part.reorder_at && row.on_hand + row.on_order <= *part.reorder_at;
    row.says = stateInWords(row);
    rows.push_back(std::move(row));
  }
  std::stable_sort(rows.begin(), rows.end(), [](const StockRow& a, const StockRow& b) {
    return a.name.compare(b.name, Qt::CaseInsensitive) < 0;
  });
  return rows;
}

std::vector<OrderRow> orderRows(const Shop& shop) {
  std::unordered_map<OrderId, std::vector<const OrderLine*>> lines;
  for (const OrderLine& line : shop.all<OrderLine>())
    lines[line.order].push_back(&line);
  std::vector<OrderRow> rows;
  rows.reserve(shop.all<Order>().size());
  for (const Order& order : shop.all<Order>()) {
    OrderRow row{.order = order.id,
                 .date = order.date,
                 .supplier = nameOf(shop, order.supplier),
                 .arrived = order.arrived,
                 .freight = order.freight,
                 .tax = order.tax};
    QStringList parts;
    for (const OrderLine* line : lines[order.id]) {
      const Part* part = shop.find(line->part);
      const QString name = part != nullptr ? QString::fromStdString(part->name) : QString{};
      parts << (line->quantity == 1 ? name : QStringLiteral("%1 × %2").arg(line->quantity).arg(name));
      row.goods += line->price * line->quantity;
    }
    row.parts = parts.join(QStringLiteral(", "));
    row.landed = row.goods + row.freight + row.tax;
    rows.push_back(std::move(row));
  }
  std::stable_sort(rows.begin(), rows.end(), [](const OrderRow& a, const OrderRow& b) {
    if (a.under_way() != b.under_way()) return a.under_way();
    return a.under_way() ? a.date < b.date : *b.arrived < *a.arrived;
  });
  return rows;
}

std::vector<LandedLine> landedLines(const Shop& shop, OrderId order) {
  const Order* known = shop.find(order);
  const std::vector<const OrderLine*> lines = linesOf(shop, order);
  if (known == nullptr || lines.empty()) return {};
  std::vector<Money> values;
  for (const OrderLine* line : lines)
    values.push_back(line->price * line->quantity);
  const std::vector<Money> shares = split(known->freight + known->tax, values);
  std::vector<LandedLine> landed;
  for (std::size_t at = 0; at < lines.size(); ++at)
    landed.push_back({lines[at]->id, lines[at]->part, lines[at]->quantity, lines[at]->price, shares[at],
                      values[at] + shares[at], lines[at]->for_machine});
  return landed;
}

std::vector<MachineId> canGoOnWith(const Shop& shop, OrderId order) {
  std::vector<MachineId> machines;
  for (const OrderLine* line : linesOf(shop, order))
    if (line->for_machine &&
        std::find(machines.begin(), machines.end(), *line->for_machine) == machines.end())
      machines.push_back(*line->for_machine);
  std::erase_if(machines, [&](MachineId machine) {
    return std::any_of(shop.all<OrderLine>().begin(), shop.all<OrderLine>().end(),
                       [&](const OrderLine& line) {
                         return line.order != order && line.for_machine == machine && isUnderWay(shop, line);
                       });
  });
  return machines;
}

}  // namespace secondpull::app
