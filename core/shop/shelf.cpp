#include "core/shop/shelf.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/shop/checks.h"
#include "core/shop/codes.h"
#include "core/shop/describe.h"
#include "core/shop/limits.h"
#include "core/typed_words.h"

namespace secondpull {
namespace {

std::int64_t pieces_of(const Shop& shop, OrderId order) {
  std::int64_t pieces = 0;
  for (const OrderLine& line : shop.all<OrderLine>())
    if (line.order == order) pieces += line.quantity;
  return pieces;
}

Objection arrived_too_early(Date ordered, Date arrived) {
  if (arrived >= ordered) return std::nullopt;
  return Problem{
      fmt::format("It was ordered on {}: it cannot have arrived on {}.", shown(ordered), shown(arrived)),
      "arrived", iso(arrived)};
}

const Disposal* disposal_of(const Shop& shop, MachineId machine) {
  const auto& all = shop.all<Disposal>();
  const auto at = std::find_if(all.begin(), all.end(),
                               [&](const Disposal& disposal) { return disposal.machine == machine; });
  return at == all.end() ? nullptr : &*at;
}

/// The hulk as the form gives it.
struct Hulk {
  std::optional<Money> value;
  Money scrap_money;
  std::optional<Date> gone;
  bool here = false;
};

Objection check_hulk(const Shop& shop, Date date, const Hulk& hulk) {
  if (const Objection objection =
          first_of({check_amount(hulk.scrap_money, shop, "proceeds"),
                    hulk.value ? check_amount(*hulk.value, shop, "hulk_value") : std::nullopt}))
    return objection;
  if (hulk.here && hulk.gone)
    return Problem{"The hulk is either here or gone: give a day or say that it is here.", "hulk_gone",
                   iso(*hulk.gone)};
  if (hulk.here && !hulk.scrap_money.is_zero())
    return Problem{"The hulk is still here: its scrap money is yet to come.", "proceeds",
                   plain(hulk.scrap_money, shop.settings.currency)};
  if (hulk.gone && *hulk.gone < date)
    return Problem{fmt::format("It was parted out on {}: the hulk cannot have gone on {}.", shown(date),
                               shown(*hulk.gone)),
                   "hulk_gone", iso(*hulk.gone)};
  return std::nullopt;
}

}  // namespace

Result<Change> place_order(const Shop& shop, const NewOrder& order) {
  Objection objection = first_of({check_day(order.date, "date"), check_amount(order.freight, shop, "freight"),
                                  check_amount(order.tax, shop, "tax")});
  if (!objection && order.arrived)
    objection =
        first_of({check_day(*order.arrived, "arrived"), arrived_too_early(order.date, *order.arrived)});
  if (!objection && order.opening && !order.arrived)
    objection = Problem{"Parts in stock when the books begin have arrived: give the day.", "arrived", ""};
  if (!objection && order.lines.empty())
    objection = Problem{"The order has no lines: name a part.", "order", ""};
  for (const NewOrderLine& line : order.lines) {
    if (!objection)
      objection = first_of({check_quantity(line.quantity), check_amount(line.price, shop, "price")});
    if (!objection && line.price.minor() > kLargestAmount / line.quantity)
      objection = Problem{"The price times the quantity is too large to be kept.", "price",
                          plain(line.price, shop.settings.currency)};
    if (!objection && line.for_machine && shop.find(*line.for_machine) == nullptr)
      objection =
          Problem{"That machine is not in the shop's records any more: choose another one.", "for", ""};
  }
  if (objection) return tl::unexpected(*objection);

  Change change{shop, ""};
  const auto supplier = choose_person(shop, change, order.supplier, "supplier");
  if (!supplier) return tl::unexpected(supplier.error());
  const OrderId id = change.add(Order{.code = next_order_code(shop),
                                      .date = order.date,
                                      .supplier = *supplier,
                                      .arrived = order.arrived,
                                      .freight = order.freight,
                                      .tax = order.tax,
                                      .opening = order.opening});
  PartChooser parts{shop, change};
  std::int64_t pieces = 0;
  for (const NewOrderLine& line : order.lines) {
    const auto part = parts.choose(line.part);
    if (!part) return tl::unexpected(part.error());
    change.add(OrderLine{.order = id,
                         .part = *part,
                         .quantity = line.quantity,
                         .price = line.price,
                         .for_machine = line.for_machine});
    pieces += line.quantity;
  }
  const Person* const known = order.supplier.known ? shop.find(*order.supplier.known) : nullptr;
  const std::string from = known != nullptr ? known->name : std::string{trimmed(order.supplier.new_name)};
  change.set_title(fmt::format("{} {}{}",
                               order.opening   ? "Entered"
                               : order.arrived ? "Bought"
                                               : "Ordered",
                               counted(pieces, "part", "parts"), from.empty() ? "" : " from " + from));
  return change;
}

Result<Change> receive_order(const Shop& shop, OrderId id, Date arrived, std::optional<Money> freight,
                             std::optional<Money> tax) {
  const Order* const order = shop.find(id);
  if (order == nullptr) return problem("That order is not in the shop's records any more.", "order");
  if (order->arrived)
    return problem(fmt::format("Order {} arrived on {} already.", order->code, shown(*order->arrived)),
                   "arrived", iso(arrived));
  if (const Objection objection =
          first_of({check_day(arrived, "arrived"), arrived_too_early(order->date, arrived),
                    freight ? check_amount(*freight, shop, "freight") : std::nullopt,
                    tax ? check_amount(*tax, shop, "tax") : std::nullopt}))
    return tl::unexpected(*objection);
  Change change{
      shop, fmt::format("Received order {}: {}", order->code, counted(pieces_of(shop, id), "part", "parts"))};
  Order received = *order;
  received.arrived = arrived;
  received.freight = freight.value_or(order->freight);
  received.tax = tax.value_or(order->tax);
  change.replace(received);
  return change;
}

Result<Change> edit_part(const Shop& shop, const Part& changed) {
  const Part* const before = shop.find(changed.id);
  if (before == nullptr) return problem("That part is not in the shop's records any more.", "part");
  Part after = changed;
  after.entered = before->entered;
  after.code = trimmed(after.code);
  after.name = trimmed(after.name);
  Objection objection = first_of({check_said(after.code, "part"), check_said(after.name, "name")});
  if (!objection && after.reorder_at && (*after.reorder_at < 0 || *after.reorder_at > kLargestQuantity))
    objection = Problem{fmt::format("The number to reorder at is not from 0 to {}.", kLargestQuantity),
                        "reorder_at", std::to_string(*after.reorder_at)};
  if (!objection && after.supplier && shop.find(*after.supplier) == nullptr)
    objection =
        Problem{"That person is not in the shop's records any more: choose somebody else.", "supplier", ""};
  for (const Part& other : shop.all<Part>())
    if (!objection && other.id != after.id && other.code == after.code)
      objection =
          Problem{fmt::format("{} is the code of another part already: take another one.", after.code),
                  "part", after.code};
  if (objection) return tl::unexpected(*objection);
  Change change{shop, "Changed part " + before->name};
  if (after != *before) change.replace(after);
  return change;
}

Result<Change> part_out(const Shop& shop, MachineId donor, Date date, const std::vector<HarvestLine>& lines,
                        std::optional<Money> hulk_value, Money scrap_money, std::optional<Date> hulk_gone,
                        bool hulk_here) {
  const Hulk hulk{hulk_value, scrap_money, hulk_gone, hulk_here};
  const Disposal* const before = disposal_of(shop, donor);
  const bool parted_already = before != nullptr && before->how == DisposalKind::parted_out;
  Objection objection =
      first_of({parted_already ? check_machine(shop, donor, date) : check_here(shop, donor, date),
                check_hulk(shop, date, hulk)});
  for (const HarvestLine& line : lines)
    if (!objection)
      objection = first_of({check_quantity(line.quantity), check_amount(line.value, shop, "value")});
  if (!objection && parted_already && lines.empty())
    objection = Problem{
        fmt::format("{} is parted out already: name a part that it gave.", called(shop, donor)), "part", ""};
  if (!objection && parted_already && (hulk_value || !scrap_money.is_zero() || hulk_gone))
    objection =
        Problem{fmt::format("{} is parted out already: change what became of its hulk where that stands.",
                            called(shop, donor)),
                hulk_value  ? "hulk_value"
                : hulk_gone ? "hulk_gone"
                            : "proceeds",
                ""};
  if (objection) return tl::unexpected(*objection);

  Change change{shop, ""};
  if (!parted_already) {
    change.add(Disposal{.machine = donor,
                        .date = date,
                        .how = DisposalKind::parted_out,
                        .proceeds = scrap_money,
                        .hulk_value = hulk_value,
                        .hulk_gone = hulk_gone,
                        .hulk_here = hulk_here});
    take_off_the_place(shop, change, donor, date);
  }
  PartChooser parts{shop, change};
  std::int64_t pieces = 0;
  for (const HarvestLine& line : lines) {
    const auto part = parts.choose(line.part);
    if (!part) return tl::unexpected(part.error());
    change.add(
        Harvest{.donor = donor, .date = date, .part = *part, .quantity = line.quantity, .value = line.value});
    pieces += line.quantity;
  }
  change.set_title(
      parted_already
          ? fmt::format("Took {} more from {}", counted(pieces, "part", "parts"), called(shop, donor))
          : fmt::format("Parted out {}: {}", called(shop, donor), counted(pieces, "part", "parts")));
  if (const Objection turns = check_turns(shop, change, donor)) return tl::unexpected(*turns);
  return change;
}

Result<Change> add_expense(const Shop& shop, Date date, const std::string& category, Money amount,
                           const std::string& note) {
  if (const Objection objection = first_of(
          {check_day(date, "date"), check_said(category, "category"), check_amount(amount, shop, "amount")}))
    return tl::unexpected(*objection);
  const Expense expense{
      .date = date, .category = std::string{trimmed(category)}, .amount = amount, .note = note};
  Change change{shop,
                fmt::format("Spent {}: {}", shown_short(amount, shop.settings.currency), expense.category)};
  change.add(expense);
  return change;
}

Result<Change> add_trip(const Shop& shop, const Trip& trip) {
  Objection objection = first_of({check_day(trip.date, "date"), check_said(trip.purpose, "purpose")});
  if (!objection && (trip.miles <= Tenths{} || trip.miles > kLargestTrip))
    objection = Problem{fmt::format("The miles are not from 0.1 to {}.", kLargestTrip.count / 10), "miles",
                        fmt::format("{}.{}", trip.miles.count / 10, trip.miles.count % 10)};
  if (!objection && trip.machine && trip.acquisition)
    objection = Problem{"A trip is for a machine or for an acquisition, not for both.", "acquisition", ""};
  if (!objection && trip.machine) objection = check_machine(shop, *trip.machine, trip.date);
  if (!objection && trip.acquisition) {
    const Acquisition* const acquisition = shop.find(*trip.acquisition);
    if (acquisition == nullptr)
      objection = Problem{"That acquisition is not in the shop's records any more.", "acquisition", ""};
    else if (trip.date < acquisition->date)
      objection = Problem{fmt::format("Acquisition {} came in on {}: give that day or a later one.",
                                      acquisition->code, shown(acquisition->date)),
                          "date", iso(trip.date)};
  }
  if (objection) return tl::unexpected(*objection);
  Change change{shop, fmt::format("Drove {}.{} miles: {}", trip.miles.count / 10, trip.miles.count % 10,
                                  trimmed(trip.purpose))};
  change.add(trip);
  return change;
}

}  // namespace secondpull
