#include "core/shop/selling.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/shop/checks.h"
#include "core/shop/codes.h"
#include "core/shop/describe.h"
#include "core/shop/limits.h"
#include "core/shop/recall.h"
#include "core/shop/safety.h"

namespace secondpull {
namespace {

/// The name of the person chosen, who may have been added by the change.
std::string name_of(const Shop& shop, const PersonChoice& choice) {
  const Person* const known = choice.known ? shop.find(*choice.known) : nullptr;
  return known != nullptr ? known->name : choice.new_name;
}

}  // namespace

Result<Change> list_machine(const Shop& shop, MachineId machine, Date date, const std::string& channel,
                            Money asking, std::optional<SoldAs> sold_as) {
  const ByMachine::Lines lines = lines_of(shop, machine);
  if (const Objection objection =
          first_of({check_here(shop, machine, date), check_amount(asking, shop, "asking"),
                    against_recalled(lines), against_running(lines, sold_as)}))
    return tl::unexpected(*objection);
  Change change{shop, fmt::format("Put {} out front at {}", called(shop, machine),
                                  shown_short(asking, shop.settings.currency))};
  for (const Listing& listing : shop.all<Listing>()) {
    if (listing.machine != machine || listing.ended) continue;
    if (listing.date > date)
      return problem(fmt::format("{} was listed on {}, after {}: look at the date.", called(shop, machine),
                                 shown(listing.date), shown(date)),
                     "date", iso(date));
    Listing ended = listing;
    ended.ended = date;
    change.replace(ended);
  }
  change.add(
      Listing{.machine = machine, .date = date, .channel = channel, .asking = asking, .sold_as = sold_as});
  return change;
}

Result<Change> end_listing(const Shop& shop, ListingId id, Date date) {
  const Listing* const listing = shop.find(id);
  if (listing == nullptr) return problem("That listing is not in the shop's records any more.", "ended");
  if (listing->ended)
    return problem(fmt::format("The listing of {} ended on {} already.", called(shop, listing->machine),
                               shown(*listing->ended)),
                   "ended", iso(date));
  if (const Objection objection = check_day(date, "ended")) return tl::unexpected(*objection);
  if (date < listing->date)
    return problem(fmt::format("{} was listed on {}: the listing cannot have ended on {}.",
                               called(shop, listing->machine), shown(listing->date), shown(date)),
                   "ended", iso(date));
  Change change{shop, fmt::format("Took {} off sale", called(shop, listing->machine))};
  Listing ended = *listing;
  ended.ended = date;
  change.replace(ended);
  return change;
}

Result<Change> sell(const Shop& shop, const NewSale& sale) {
  const ByMachine::Lines lines = lines_of(shop, sale.machine);
  Objection objection =
      first_of({check_here(shop, sale.machine, sale.date), check_amount(sale.price, shop, "price"),
                check_amount(sale.sales_tax, shop, "sales_tax"), check_amount(sale.fee, shop, "fee"),
                check_amount(sale.delivery, shop, "delivery"), against_recalled(lines),
                against_running(lines, sale.sold_as)});
  if (!objection && sale.labour) objection = check_minutes(*sale.labour, "minutes");
  if (!objection && sale.warranty_days && (*sale.warranty_days < 0 || *sale.warranty_days > kLargestWarranty))
    objection = Problem{fmt::format("The warranty is not from 0 to {} days.", kLargestWarranty),
                        "warranty_days", std::to_string(*sale.warranty_days)};
  if (objection) return tl::unexpected(*objection);

  const std::string buyer_name = name_of(shop, sale.buyer);
  Change change{shop, fmt::format("Sold {}{} for {}", called(shop, sale.machine),
                                  buyer_name.empty() ? "" : " to " + buyer_name,
                                  shown_short(sale.price, shop.settings.currency))};
  const auto buyer = choose_person(shop, change, sale.buyer, "buyer");
  if (!buyer) return tl::unexpected(buyer.error());
  change.add(Sale{.machine = sale.machine,
                  .date = sale.date,
                  .buyer = *buyer,
                  .price = sale.price,
                  .sales_tax = sale.sales_tax,
                  .fee = sale.fee,
                  .delivery = sale.delivery,
                  .payment = sale.payment,
                  .sold_as = sale.sold_as,
                  .warranty_days = sale.warranty_days,
                  .place = sale.place});
  take_off_the_place(shop, change, sale.machine, sale.date);
  if (sale.labour && sale.labour->count > 0)
    change.add(
        Labour{.machine = sale.machine, .date = sale.date, .minutes = *sale.labour, .work = Work::sell});
  if (const Objection turns = check_turns(shop, change, sale.machine)) return tl::unexpected(*turns);
  return change;
}

Result<Change> take_back(const Shop& shop, MachineId machine, Date date, Money refunded,
                         const std::string& note) {
  if (const Objection objection =
          first_of({check_machine(shop, machine, date), check_amount(refunded, shop, "refunded")}))
    return tl::unexpected(*objection);
  Change change{shop, fmt::format("Took back {}, {} refunded", called(shop, machine),
                                  shown_short(refunded, shop.settings.currency))};
  change.add(Return{.machine = machine, .date = date, .refunded = refunded, .note = note});
  forget_stage(shop, change, machine);
  if (const Objection turns = check_turns(shop, change, machine)) return tl::unexpected(*turns);
  return change;
}

Result<Change> dispose(const Shop& shop, MachineId machine, Date date, DisposalKind how, Money proceeds) {
  Objection objection = first_of({check_here(shop, machine, date), check_amount(proceeds, shop, "proceeds")});
  if (!objection && how == DisposalKind::parted_out)
    objection = Problem{"A donor is parted out with the parts it gives: use part out.", "how", "parted out"};
  if (!objection && how == DisposalKind::kept && !proceeds.is_zero())
    objection = Problem{"A machine kept for own use brings in no money: leave the proceeds empty.",
                        "proceeds", plain(proceeds, shop.settings.currency)};
  const bool harvested = std::any_of(shop.all<Harvest>().begin(), shop.all<Harvest>().end(),
                                     [&](const Harvest& line) { return line.donor == machine; });
  if (!objection && harvested)
    objection = Problem{
        fmt::format("{} has given parts: it is parted out, not {}.", called(shop, machine), word(how)), "how",
        std::string{word(how)}};
  if (objection) return tl::unexpected(*objection);
  const std::string money = proceeds.is_zero() ? "" : " for " + shown_short(proceeds, shop.settings.currency);
  Change change{shop, fmt::format("{} {}{}", how == DisposalKind::kept ? "Kept" : "Scrapped",
                                  called(shop, machine), money)};
  change.add(Disposal{.machine = machine, .date = date, .how = how, .proceeds = proceeds});
  take_off_the_place(shop, change, machine, date);
  if (const Objection turns = check_turns(shop, change, machine)) return tl::unexpected(*turns);
  return change;
}

}  // namespace secondpull
