#include <algorithm>

#include <fmt/format.h>

#include "core/shop/stage.h"

namespace secondpull {
namespace {

using Lines = ByMachine::Lines;

/// The median of the days that orders of the same supplier took to arrive; nothing without one that arrived.
std::optional<int> usual_days(const Shop& shop, std::optional<PersonId> supplier) {
  std::vector<int> days;
  for (const Order& order : shop.all<Order>())
    if (order.arrived && order.supplier == supplier && !order.opening)
      days.push_back(days_between(order.date, *order.arrived));
  if (days.empty()) return std::nullopt;
  const auto middle = days.begin() + std::ssize(days) / 2;
  std::nth_element(days.begin(), middle, days.end());
  return *middle;
}

std::string day_in_words(Date date, Date today) {
  return fmt::format("{} {}", weekday_short(date), shown_short(date, today));
}

/// "short 2 parts, due about Fri 6 Mar". When parts come nobody knows: it is guessed from how long orders of
/// that supplier took, and then said to be about that day.
std::string waiting(const Shop& shop, const Lines& lines, Date today) {
  const Date since = here_since(lines);
  std::int64_t missing = 0;
  std::optional<Date> due;
  std::optional<Date> last_in;
  bool guessed = false;
  bool due_known = true;
  for (const OrderLine* line : lines.ordered) {
    const Order* const order = shop.find(line->order);
    if (order == nullptr) continue;
    if (order->arrived && *order->arrived <= today) {
      if (*order->arrived >= since && (!last_in || *order->arrived > *last_in)) last_in = order->arrived;
      continue;
    }
    missing += line->quantity;
    std::optional<Date> expected = order->arrived;
    if (!expected) {
      if (const auto days = usual_days(shop, order->supplier)) expected = plus_days(order->date, *days);
      guessed = true;
    }
    if (!expected)
      due_known = false;
    else if (!due || *expected > *due)
      due = expected;
  }
  if (missing == 0)
    return last_in ? fmt::format("parts in since {}", shown_short(*last_in, today)) : "waiting on parts";
  const std::string count = fmt::format("short {} {}", missing, missing == 1 ? "part" : "parts");
  if (!due || !due_known) return count + ", on order";
  if (*due < today)
    return fmt::format("{}, overdue since {}{}", count, guessed ? "about " : "", shown_short(*due, today));
  return fmt::format("{}, due {}{}", count, guessed ? "about " : "", day_in_words(*due, today));
}

/// "out front since 3 May at $195": since the first of the listings that followed each other without a gap.
std::string out_front(const Shop& shop, const Lines& lines, Date today) {
  const Date came = here_since(lines);
  const Listing* current = nullptr;
  for (const Listing* listing : lines.listings)
    if (!listing->ended && listing->date >= came) current = listing;
  if (current == nullptr) return "out front";
  Date since = current->date;
  for (auto before = lines.listings.rbegin(); before != lines.listings.rend(); ++before)
    if ((*before)->ended && *(*before)->ended >= since && (*before)->date >= came)
      since = std::min(since, (*before)->date);
  return fmt::format("out front since {} at {}", shown_short(since, today),
                     shown_short(current->asking, shop.settings.currency));
}

std::string sold(const Shop& shop, const Sale& sale) {
  const Person* const buyer = sale.buyer ? shop.find(*sale.buyer) : nullptr;
  return fmt::format("sold{} for {}", buyer != nullptr ? " to " + buyer->name : "",
                     shown_short(sale.price, shop.settings.currency));
}

std::string parted_out(const Disposal& disposal, Date today) {
  const bool hulk_here = disposal.hulk_here || (disposal.hulk_gone && *disposal.hulk_gone > today);
  return fmt::format("parted out {}{}", shown_short(disposal.date, today),
                     hulk_here ? ", hulk still here" : "");
}

}  // namespace

std::string standing(const Shop& shop, const ByMachine::Lines& lines, Date today) {
  const std::string since = " since " + shown_short(here_since(lines), today);
  switch (stage_of(lines)) {
    case Stage::in_the_yard:
      return "in the yard" + since;
    case Stage::on_the_bench:
      if (const auto first = bench_since(lines)) return "on the bench since " + shown_short(*first, today);
      return "on the bench";
    case Stage::waiting_on_parts:
      return waiting(shop, lines, today);
    case Stage::test_run:
      return "in its test run";
    case Stage::for_sale:
      return out_front(shop, lines, today);
    case Stage::sold:
      return sold(shop, *lines.sales.back());
    case Stage::scrapped:
      return "scrapped " + shown_short(lines.disposals.back()->date, today);
    case Stage::parted_out:
      return parted_out(*lines.disposals.back(), today);
    case Stage::kept:
      return "kept since " + shown_short(lines.disposals.back()->date, today);
  }
  return {};
}

}  // namespace secondpull
