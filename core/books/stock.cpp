#include "core/books/stock.h"

#include <algorithm>
#include <numeric>
#include <span>
#include <tuple>

#include <fmt/format.h>

namespace secondpull::bookkeeping {

namespace {

/// The lines of each order in order of entry, as one array cut by order.
struct LinesByOrder {
  std::vector<const OrderLine*> lines;
  std::vector<std::size_t> first;  // by order
};

Result<LinesByOrder> lines_by_order(const Shop& shop) {
  const Positions<Order> orders{shop.all<Order>()};
  const auto rows = in_order_of_entry(shop.all<OrderLine>());
  LinesByOrder sorted;
  sorted.first.assign(orders.size() + 1, 0);
  for (const OrderLine* line : rows) {
    const Position order = orders.of(line->order);
    if (order == nowhere)
      return problem("A line of parts names an order that is not there.", "order",
                     std::to_string(number(line->order)));
    ++sorted.first[order + 1];
  }
  std::partial_sum(sorted.first.begin(), sorted.first.end(), sorted.first.begin());
  sorted.lines.resize(rows.size());
  std::vector<std::size_t> next(sorted.first.begin(), sorted.first.end() - 1);
  for (const OrderLine* line : rows)
    sorted.lines[next[orders.of(line->order)]++] = line;
  return sorted;
}

/// What each line cost with its share of freight and tax, by line value.
std::vector<Money> landed_costs(const Order& order, std::span<const OrderLine* const> lines) {
  std::vector<Money> costs;
  costs.reserve(lines.size());
  for (const OrderLine* line : lines)
    costs.push_back(line->price * line->quantity);
  const Money extra = order.freight + order.tax;
  if (extra.is_zero()) return costs;
  const std::vector<Money> shares = split(extra, costs);
  for (std::size_t i = 0; i < costs.size(); ++i)
    costs[i] += shares[i];
  return costs;
}

}  // namespace

Money cost_of_pieces(Money cost, std::int64_t quantity, std::int64_t first, std::int64_t last) {
  // The equal shares of largest remainder: the left-over units go to the earliest pieces.
  const std::int64_t each = cost.minor() / quantity;
  const std::int64_t left_over = cost.minor() % quantity;
  return Money::from_minor(each * (last - first) + std::min(last, left_over) - std::min(first, left_over));
}

Result<Stock> Stock::of(const Shop& shop) {
  Stock stock{shop};
  if (auto wrong = stock.take_orders()) return tl::unexpected(std::move(*wrong));
  if (auto wrong = stock.take_harvests()) return tl::unexpected(std::move(*wrong));
  stock.put_in_order();
  return stock;
}

std::optional<Problem> Stock::take_orders() {
  const auto sorted = lines_by_order(*shop_);
  if (!sorted) return sorted.error();
  std::size_t place = 0;
  for (const Order& order : shop_->all<Order>()) {
    const auto lines = std::span{sorted->lines}.subspan(sorted->first[place],
                                                        sorted->first[place + 1] - sorted->first[place]);
    ++place;
    if (!order.arrived) continue;
    if (lines.empty())
      return Problem{fmt::format("The order {} of {} has no lines.", order.code, iso(order.date)), "order",
                     order.code};
    const std::vector<Money> costs = landed_costs(order, lines);
    Arrival arrival{&order, Money{}};
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const Position part = parts_.of(lines[i]->part);
      if (part == nowhere || lines[i]->quantity < 1)
        return Problem{fmt::format("A line of the order {} has no part or no quantity.", order.code), "part",
                       std::to_string(number(lines[i]->part))};
      arrival.landed += costs[i];
      receipts_.push_back({.part = part,
                           .received = *order.arrived,
                           .entered = lines[i]->entered,
                           .source = number(order.id),
                           .quantity = lines[i]->quantity,
                           .cost = costs[i]});
    }
    arrivals_.push_back(arrival);
  }
  return std::nullopt;
}

std::optional<Problem> Stock::take_harvests() {
  Position place = 0;
  for (const Harvest& line : shop_->all<Harvest>()) {
    const Position part = parts_.of(line.part);
    if (part == nowhere || line.quantity < 1)
      return Problem{"A harvested line has no part or no quantity.", "part",
                     std::to_string(number(line.part))};
    receipts_.push_back({.part = part,
                         .harvested = true,
                         .received = line.date,
                         .entered = line.entered,
                         .source = number(line.donor),
                         .quantity = line.quantity,
                         .harvest = place++});
  }
  return std::nullopt;
}

void Stock::put_in_order() {
  std::sort(receipts_.begin(), receipts_.end(), [](const Receipt& a, const Receipt& b) {
    return std::tie(a.part, a.received, a.harvested, a.entered) <
           std::tie(b.part, b.received, b.harvested, b.entered);
  });
  first_.assign(parts_.size() + 1, 0);
  of_harvest_.resize(shop_->all<Harvest>().size());
  for (std::size_t i = 0; i < receipts_.size(); ++i) {
    ++first_[receipts_[i].part + 1];
    if (receipts_[i].harvested) of_harvest_[receipts_[i].harvest] = i;
  }
  std::partial_sum(first_.begin(), first_.end(), first_.begin());
  head_.assign(first_.begin(), first_.end() - 1);

  by_source_.resize(receipts_.size());
  std::iota(by_source_.begin(), by_source_.end(), std::size_t{0});
  std::sort(by_source_.begin(), by_source_.end(), [this](std::size_t a, std::size_t b) {
    const Receipt& first = receipts_[a];
    const Receipt& second = receipts_[b];
    return std::tie(first.harvested, first.source, first.part, a) <
           std::tie(second.harvested, second.source, second.part, b);
  });
}

void Stock::set_cost(const Harvest& line, Money cost) {
  Receipt& receipt =
      receipts_[of_harvest_[static_cast<std::size_t>(&line - &*shop_->all<Harvest>().begin())]];
  receipt.cost = cost;
  receipt.parted = true;
}

Problem Stock::too_few(const Use& use, std::int64_t there) const {
  const Part* part = shop_->find(use.part);
  const std::string_view source = use.from_order ? " of that order" : use.from_donor ? " of that donor" : "";
  return {fmt::format("{} of {} {} used on {}, and {}{} in stock on that day.", use.quantity,
                      part == nullptr ? "a part" : part->name, use.quantity == 1 ? "was" : "were",
                      iso(use.day), there == 0 ? "none" : fmt::format("only {}", there),
                      fmt::format("{} {}", source, there == 1 ? "was" : "were")),
          "quantity", std::to_string(use.quantity)};
}

template <class At>
Result<Money> Stock::issue_from(std::size_t first, std::size_t last, At at, const Use& use) {
  std::int64_t there = 0;
  std::size_t end = first;
  while (end < last && there < use.quantity && receipts_[at(end)].received <= use.day) {
    const Receipt& receipt = receipts_[at(end++)];
    there += receipt.quantity - receipt.issued;
  }
  if (there < use.quantity) return tl::unexpected(too_few(use, there));

  Money cost;
  std::int64_t wanted = use.quantity;
  for (std::size_t i = first; i < end; ++i) {
    Receipt& receipt = receipts_[at(i)];
    const std::int64_t taken = std::min(wanted, receipt.quantity - receipt.issued);
    cost += cost_of_pieces(receipt.cost, receipt.quantity, receipt.issued, receipt.issued + taken);
    receipt.issued += taken;
    wanted -= taken;
  }
  return cost;
}

Result<Money> Stock::issue(const Use& use) {
  const Position part = parts_.of(use.part);
  if (part == nowhere || use.quantity < 1) return tl::unexpected(too_few(use, 0));

  if (use.from_order || use.from_donor) {
    const auto key = use.from_order ? std::tuple{false, number(*use.from_order), part}
                                    : std::tuple{true, number(*use.from_donor), part};
    const auto key_of = [this](std::size_t i) {
      return std::tuple{receipts_[i].harvested, receipts_[i].source, receipts_[i].part};
    };
    const auto first = std::partition_point(by_source_.begin(), by_source_.end(),
                                            [&](std::size_t i) { return key_of(i) < key; });
    auto last = first;
    while (last != by_source_.end() && key_of(*last) == key)
      ++last;
    return issue_from(
        static_cast<std::size_t>(first - by_source_.begin()),
        static_cast<std::size_t>(last - by_source_.begin()), [this](std::size_t i) { return by_source_[i]; },
        use);
  }
  std::size_t& head = head_[part];
  const std::size_t last = first_[part + 1];
  while (head < last && receipts_[head].issued == receipts_[head].quantity)
    ++head;
  return issue_from(
      head, last, [](std::size_t i) { return i; }, use);
}

std::vector<StockReceipt> Stock::on_hand(std::optional<Date> at_end_of) const {
  std::vector<StockReceipt> left;
  for (const Receipt& receipt : receipts_) {
    if (receipt.issued == receipt.quantity) continue;
    if (at_end_of && !(receipt.harvested ? receipt.parted : receipt.received <= *at_end_of)) continue;
    StockReceipt& there = left.emplace_back();
    there.part = shop_->all<Part>().begin()[receipt.part].id;
    if (receipt.harvested)
      there.donor = MachineId{receipt.source};
    else
      there.order = OrderId{receipt.source};
    there.received = receipt.received;
    there.quantity = receipt.quantity - receipt.issued;
    there.cost = cost_of_pieces(receipt.cost, receipt.quantity, receipt.issued, receipt.quantity);
  }
  return left;
}

}  // namespace secondpull::bookkeeping
