#include "core/shop/checks.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/field_words.h"
#include "core/shop/describe.h"
#include "core/shop/limits.h"
#include "core/shop/stage.h"
#include "core/shop/stock_days.h"
#include "core/shop/turns.h"
#include "core/typed_words.h"

namespace secondpull {
namespace {

Objection object(std::string sentence, std::string_view field, std::string value) {
  return Problem{std::move(sentence), std::string{field}, std::move(value)};
}

/// "sold to Ruel on 3 May 2026".
std::string how_it_left(const Shop& shop, const Turn& turn) {
  if (const auto* const id = std::get_if<SaleId>(&turn.record)) {
    const Sale* const sale = shop.find(*id);
    const Person* const buyer = sale != nullptr && sale->buyer ? shop.find(*sale->buyer) : nullptr;
    return fmt::format("sold{} on {}", buyer != nullptr ? " to " + buyer->name : "", shown(turn.date));
  }
  const auto* const id = std::get_if<DisposalId>(&turn.record);
  const Disposal* const disposal = id != nullptr ? shop.find(*id) : nullptr;
  return fmt::format("{} on {}", disposal != nullptr ? word(disposal->how) : "gone", shown(turn.date));
}

}  // namespace

Objection first_of(std::initializer_list<Objection> objections) {
  for (const Objection& objection : objections)
    if (objection) return objection;
  return std::nullopt;
}

Objection check_amount(Money amount, const Shop& shop, std::string_view field) {
  if (amount_in_range(amount)) return std::nullopt;
  const Currency& currency = shop.settings.currency;
  const std::string text = plain(amount, currency);
  if (amount < Money{})
    return object(fmt::format("The {} {} is below zero: give what was paid, without a minus.",
                              field_words(field, "amount"), text),
                  field, text);
  return object(fmt::format("The {} {} is too large: at most {} can be kept.", field_words(field, "amount"),
                            text, plain(Money::from_minor(kLargestAmount), currency)),
                field, text);
}

Objection check_quantity(std::int64_t quantity) {
  if (quantity_in_range(quantity)) return std::nullopt;
  return object(fmt::format("The quantity {} is not from 1 to {}.", quantity, kLargestQuantity), "quantity",
                std::to_string(quantity));
}

Objection check_minutes(Minutes minutes, std::string_view field) {
  if (minutes_in_range(minutes)) return std::nullopt;
  return object(fmt::format("The {} {} are not from 0 to {}.", field_words(field, "minutes"), minutes.count,
                            kLargestMinutes),
                field, std::to_string(minutes.count));
}

Objection check_miles(Tenths miles) {
  if (miles >= Tenths{} && miles <= kLargestTrip) return std::nullopt;
  return Problem{fmt::format("The miles are not from 0 to {}.", kLargestTrip.count / 10), "miles",
                 std::to_string(miles.count / 10)};
}

Objection check_year(int year) {
  if (year >= 1 && year <= kLargestYear) return std::nullopt;
  return object(fmt::format("The year {} is not from 1 to {}.", year, kLargestYear), "year",
                std::to_string(year));
}

Objection check_day(Date date, std::string_view field) {
  if (day_in_range(date)) return std::nullopt;
  return object(fmt::format("The {} is no day from 1900 to 9999.", field_words(field, "date")), field, "");
}

Objection check_said(std::string_view text, std::string_view field) {
  if (!trimmed(text).empty()) return std::nullopt;
  return object(fmt::format("The {} is empty: say what it is.", field_words(field, "text")), field, "");
}

Objection check_machine(const Shop& shop, MachineId id, Date date) {
  if (const Objection objection = check_day(date, "date")) return objection;
  const Machine* const machine = shop.find(id);
  if (machine == nullptr)
    return object("That machine is not in the shop's records any more: choose another one.", "machine", "");
  const Acquisition* const acquisition = shop.find(machine->acquisition);
  if (acquisition != nullptr && date < acquisition->date)
    return object(fmt::format("{} came in on {}: nothing can have happened to it here on {}.",
                              called(*machine), shown(acquisition->date), shown(date)),
                  "date", iso(date));
  return std::nullopt;
}

Objection check_here(const Shop& shop, MachineId id, Date date) {
  if (const Objection objection = check_machine(shop, id, date)) return objection;
  const auto gone = Turns{shop}.gone_by(id);
  if (!gone) return std::nullopt;
  return object(fmt::format("{} is not here: it was {}.", called(shop, id), how_it_left(shop, *gone)),
                "machine", shop.find(id)->tag);
}

Objection check_turns(const Shop& shop, const Change& change, MachineId id) {
  const auto after = apply(shop, change);
  if (!after) return after.error();
  const Machine* const machine = after->find(id);
  const Acquisition* const acquisition = machine != nullptr ? after->find(machine->acquisition) : nullptr;
  if (acquisition == nullptr) return std::nullopt;
  const Turns turns{*after};
  for (const Allowance& allowance : after->all<Allowance>())
    if (allowance.machine == id && !turns.sold_at_end_of(id, allowance.date))
      return object(
          fmt::format("{} would not be sold on {}, when its buyer got an allowance: look at the date.",
                      called(*machine), shown(allowance.date)),
          "date", iso(allowance.date));
  const auto wrong = turns.out_of_turn(*machine, acquisition->date);
  if (wrong.empty()) return std::nullopt;
  std::string order;
  for (const Turn& turn : turns.of(id)) {
    const std::string_view what = turn.kind == TurnKind::sale       ? "sold"
                                  : turn.kind == TurnKind::comeback ? "brought back"
                                                                    : "gone for good";
    order += fmt::format("{}{} {}", order.empty() ? "" : ", ", what, iso(turn.date));
  }
  return object(fmt::format("{} cannot leave and come back in that order ({}): look at the date.",
                            called(*machine), order),
                "date", iso(wrong.front().date));
}

Objection check_stock(const Shop& shop, const Change& change, PartId part) {
  const auto after = apply(shop, change);
  if (!after) return after.error();
  const auto lacking = shortages(*after, part);
  if (lacking.empty()) return std::nullopt;
  const Part* const wanted = after->find(part);
  const std::string name = wanted != nullptr ? wanted->name : "part";
  const Shortage& first = lacking.front();
  const bool of_this_change = !find_any(shop, first.use);
  if (of_this_change)
    return object(first.in_stock == 0 ? fmt::format("There is no {} in stock on {}.", name, shown(first.date))
                                      : fmt::format("There {} {} x {} in stock on {}, not {}.",
                                                    first.in_stock == 1 ? "is" : "are", first.in_stock, name,
                                                    shown(first.date), first.wanted),
                  "quantity", std::to_string(first.wanted));
  const auto other = find_any(*after, first.use);
  return object(fmt::format("That would leave too few {} for what was used on {}: {}.", name,
                            shown(first.date), other ? described(*after, *other) : name),
                "quantity", std::to_string(first.wanted));
}

void take_off_the_place(const Shop& shop, Change& change, MachineId machine, Date date) {
  for (const Listing& listing : shop.all<Listing>()) {
    if (listing.machine != machine || listing.ended) continue;
    Listing ended = listing;
    ended.ended = std::max(date, listing.date);
    change.replace(ended);
  }
  forget_stage(shop, change, machine);
}

void forget_stage(const Shop& shop, Change& change, MachineId id) {
  const Machine* const machine = shop.find(id);
  if (machine == nullptr || !machine->stage) return;
  Machine plain = *machine;
  plain.stage.reset();
  change.replace(plain);
}

}  // namespace secondpull
