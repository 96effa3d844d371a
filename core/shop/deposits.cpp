#include "core/shop/deposits.h"

#include <fmt/format.h>

#include "core/shop/checks.h"
#include "core/shop/describe.h"
#include "core/shop/recall.h"

namespace secondpull {
namespace {

std::string with_name(const Offer& offer, std::string_view before_name) {
  return offer.who.empty() ? std::string{} : fmt::format(" {} {}", before_name, offer.who);
}

}  // namespace

Result<Change> take_deposit(const Shop& shop, OfferId id, Date date, Money amount,
                            const std::string& payment) {
  const Offer* const offer = shop.find(id);
  if (offer == nullptr) return problem("That offer is not in the shop's records any more.", "offer");
  if (offer->result)
    return problem(fmt::format("That offer is settled ({}): a deposit goes with one that is open.",
                               word(*offer->result)),
                   "offer", std::string{word(*offer->result)});
  const Currency& currency = shop.settings.currency;
  if (const Objection objection =
          first_of({check_here(shop, offer->machine, date), check_amount(amount, shop, "amount")}))
    return tl::unexpected(*objection);
  if (const Objection recalled = against_recalled(lines_of(shop, offer->machine)))
    return tl::unexpected(*recalled);
  if (amount.is_zero()) return problem("A deposit needs an amount above 0.", "amount", "0");
  if (date < offer->date)
    return problem(fmt::format("The offer was made on {}; its deposit cannot be older.", shown(offer->date)),
                   "date", iso(date));
  if (deposit_left(shop, id) + amount > offer->amount)
    return problem(fmt::format("The deposit would be more than the {} that were offered.",
                               shown_short(offer->amount, currency)),
                   "amount", plain(amount, currency));
  Change change{shop, fmt::format("Deposit of {}{} for {}", shown_short(amount, currency),
                                  with_name(*offer, "by"), called(shop, offer->machine))};
  change.add(Deposit{.offer = id, .date = date, .amount = amount, .payment = payment});
  return change;
}

Result<Change> return_deposit(const Shop& shop, DepositId id, Date date) {
  const Deposit* const deposit = shop.find(id);
  const Offer* const offer = deposit != nullptr ? shop.find(deposit->offer) : nullptr;
  if (offer == nullptr) return problem("That deposit is not in the shop's records any more.", "deposit");
  if (deposit->returned)
    return problem(fmt::format("That deposit went back on {} already.", shown(*deposit->returned)), "deposit",
                   iso(*deposit->returned));
  if (offer->result == OfferResult::taken)
    return problem("The offer was taken, so the deposit is part of the price: give money back on the sale.",
                   "offer", std::string{word(OfferResult::taken)});
  if (const Objection objection = check_day(date, "date")) return tl::unexpected(*objection);
  if (date < deposit->date)
    return problem(fmt::format("The deposit was left on {}: it cannot have gone back on {}.",
                               shown(deposit->date), shown(date)),
                   "date", iso(date));
  Change change{shop, fmt::format("Gave back the deposit of {}{} for {}",
                                  shown_short(deposit->amount, shop.settings.currency),
                                  with_name(*offer, "to"), called(shop, offer->machine))};
  Deposit returned = *deposit;
  returned.returned = date;
  change.replace(std::move(returned));
  return change;
}

Money deposit_left(const Shop& shop, OfferId offer) {
  Money left;
  for (const Deposit& deposit : shop.all<Deposit>())
    if (deposit.offer == offer && !deposit.returned) left += deposit.amount;
  return left;
}

std::vector<const Deposit*> deposits_held(const Shop& shop, MachineId machine) {
  std::vector<const Deposit*> held;
  for (const Deposit& deposit : shop.all<Deposit>()) {
    const Offer* const offer = shop.find(deposit.offer);
    if (offer != nullptr && offer->machine == machine && offer->result != OfferResult::taken &&
        !deposit.returned)
      held.push_back(&deposit);
  }
  return held;
}

}  // namespace secondpull
