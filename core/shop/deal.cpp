#include "core/shop/deal.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/shop/checks.h"
#include "core/shop/describe.h"
#include "core/shop/offers.h"
#include "core/shop/recall.h"
#include "core/shop/selling.h"
#include "core/shop/side_trades.h"
#include "core/shop/together.h"
#include "core/typed_words.h"

namespace secondpull {
namespace {

std::optional<Money> asking_price_of(const Shop& shop, MachineId machine) {
  const Listing* latest = nullptr;
  for (const Listing& listing : shop.all<Listing>())
    if (listing.machine == machine && !listing.ended && (latest == nullptr || latest->date <= listing.date))
      latest = &listing;
  return latest != nullptr ? std::optional{latest->asking} : std::nullopt;
}

std::string named(const Shop& shop, const DealPart& line) {
  const Part* const part = shop.find(line.part);
  return fmt::format("{} x {}", line.quantity, part != nullptr ? part->name : "a part");
}

/// What each thing counts for, machines first.
Result<std::vector<Money>> values_of(const Shop& shop, const Deal& deal) {
  std::vector<Money> values;
  const bool alone = deal.machines.size() + deal.parts.size() == 1;
  const auto take = [&](std::optional<Money> value, const std::string& what) -> Objection {
    if (!value && !alone)
      return Problem{fmt::format("Say what {} counts for in this deal: it has no asking price.", what),
                     "value", ""};
    values.push_back(value.value_or(Money{}));
    return check_amount(values.back(), shop, "value");
  };
  for (const DealMachine& line : deal.machines)
    if (const Objection wrong =
            take(line.value ? line.value : asking_price_of(shop, line.machine), called(shop, line.machine)))
      return tl::unexpected(*wrong);
  for (const DealPart& line : deal.parts)
    if (const Objection wrong = take(line.value, named(shop, line))) return tl::unexpected(*wrong);
  return values;
}

std::string title_of(const Shop& shop, const Deal& deal) {
  std::vector<std::string> things;
  for (const DealMachine& line : deal.machines)
    things.push_back(called(shop, line.machine));
  for (const DealPart& line : deal.parts)
    things.push_back(named(shop, line));
  std::string list;
  for (std::size_t i = 0; i < things.size(); ++i)
    list += (i == 0 ? "" : i + 1 == things.size() ? " and " : ", ") + things[i];
  const Person* const known = deal.buyer.known ? shop.find(*deal.buyer.known) : nullptr;
  const std::string buyer = known != nullptr ? known->name : std::string{trimmed(deal.buyer.new_name)};
  return fmt::format("Sold {}{} for {}", list, buyer.empty() ? "" : " to " + buyer,
                     shown_short(deal.price, shop.settings.currency));
}

}  // namespace

Result<std::vector<DealShare>> shares_of(const Shop& shop, const Deal& deal) {
  if (deal.machines.empty() && deal.parts.empty())
    return problem("There is nothing in this deal yet: add a machine or a part.", "machine");
  if (const Objection wrong =
          first_of({check_amount(deal.price, shop, "price"), check_amount(deal.sales_tax, shop, "sales_tax"),
                    check_amount(deal.fee, shop, "fee"), check_amount(deal.delivery, shop, "delivery")}))
    return tl::unexpected(*wrong);
  if (deal.machines.empty() && !deal.delivery.is_zero())
    return problem(
        "Delivering is kept with a machine, and this deal has parts alone: note it as money spent.",
        "delivery", plain(deal.delivery, shop.settings.currency));
  const auto values = values_of(shop, deal);
  if (!values) return tl::unexpected(values.error());

  const std::vector<Money> prices = split(deal.price, *values);
  const std::vector<Money> taxes = split(deal.sales_tax, *values);
  const std::vector<Money> fees = split(deal.fee, *values);
  std::vector<DealShare> shares;
  for (std::size_t i = 0; i < values->size(); ++i)
    shares.push_back({.value = (*values)[i], .price = prices[i], .sales_tax = taxes[i], .fee = fees[i]});
  if (!deal.machines.empty()) {
    const std::vector<Money> of_machines(values->begin(),
                                         values->begin() + static_cast<std::ptrdiff_t>(deal.machines.size()));
    const std::vector<Money> deliveries = split(deal.delivery, of_machines);
    for (std::size_t i = 0; i < deliveries.size(); ++i)
      shares[i].delivery = deliveries[i];
  }
  return shares;
}

Result<Change> sell_together(const Shop& shop, const Deal& deal) {
  for (auto at = deal.machines.begin(); at != deal.machines.end(); ++at)
    if (std::any_of(deal.machines.begin(), at,
                    [&](const DealMachine& other) { return other.machine == at->machine; }))
      return problem(fmt::format("{} is in this deal twice.", called(shop, at->machine)), "machine",
                     called(shop, at->machine));
  for (const DealMachine& line : deal.machines)
    if (const auto recalled = against_recalled(lines_of(shop, line.machine)))
      return tl::unexpected(*recalled);
  const auto shares = shares_of(shop, deal);
  if (!shares) return tl::unexpected(shares.error());
  if (deal.labour)
    if (const Objection wrong = check_minutes(*deal.labour, "minutes")) return tl::unexpected(*wrong);

  // The first of them may add the buyer; the others go to the same person.
  PersonChoice buyer = deal.buyer;
  const auto same_buyer = [&](const Shop& now) {
    if (buyer.known || now.all<Person>().size() == shop.all<Person>().size()) return;
    buyer = {.known = std::prev(now.all<Person>().end())->id, .new_name = {}};
  };
  // Minutes are split as amounts are: whole ones, none lost.
  std::vector<Money> minutes;
  if (deal.labour && !deal.machines.empty())
    minutes = split_evenly(Money::from_minor(deal.labour->count), deal.machines.size());

  Together together{shop};
  for (std::size_t i = 0; i < deal.machines.size(); ++i) {
    const DealMachine& line = deal.machines[i];
    const DealShare& share = (*shares)[i];
    together.add([&](const Shop& now) {
      same_buyer(now);
      NewSale sale{.machine = line.machine,
                   .date = deal.date,
                   .buyer = buyer,
                   .price = share.price,
                   .sales_tax = share.sales_tax,
                   .fee = share.fee,
                   .delivery = share.delivery,
                   .payment = deal.payment,
                   .sold_as = line.sold_as,
                   .warranty_days = deal.warranty_days,
                   .place = deal.place};
      if (!minutes.empty()) sale.labour = Minutes{minutes[i].minor()};
      return sell(now, sale).and_then(
          [&](Change change) { return settling_offers(now, std::move(change), line.machine, line.taken); });
    });
  }
  for (std::size_t i = 0; i < deal.parts.size(); ++i) {
    const DealPart& line = deal.parts[i];
    const DealShare& share = (*shares)[deal.machines.size() + i];
    together.add([&](const Shop& now) {
      same_buyer(now);
      return sell_part(now, {.date = deal.date,
                             .part = line.part,
                             .quantity = line.quantity,
                             .price = share.price,
                             .buyer = buyer,
                             .sales_tax = share.sales_tax,
                             .fee = share.fee,
                             .place = deal.place});
    });
  }
  return std::move(together).result(title_of(shop, deal));
}

}  // namespace secondpull
