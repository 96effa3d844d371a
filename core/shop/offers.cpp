#include "core/shop/offers.h"

#include <fmt/format.h>

#include "core/shop/stage.h"

namespace secondpull {
namespace {

std::string in_words(const Shop& shop, const Machine& machine, const Offer& offer) {
  const std::string by = offer.who.empty() ? std::string{} : fmt::format(" by {}", offer.who);
  return fmt::format("offer of {} for #{}{}", shown_short(offer.amount, shop.settings.currency), machine.tag,
                     by);
}

std::string_view done(OfferResult result) {
  switch (result) {
    case OfferResult::taken:
      return "Took the";
    case OfferResult::refused:
      return "Refused the";
    case OfferResult::gone:
      return "Machine was gone at the";
    case OfferResult::no_show:
      return "Nobody came for the";
  }
  return "Settled the";
}

}  // namespace

Result<Change> record_offer(const Shop& shop, const NewOffer& offer) {
  const Machine* machine = shop.find(offer.machine);
  if (machine == nullptr) return problem("There is no such machine in the shop.", "machine");
  if (offer.amount <= Money{}) return problem("An offer needs an amount above 0.", "amount");
  const ByMachine by_machine{shop};
  const ByMachine::Lines& lines = by_machine.of(offer.machine);
  if (!is_here(stage_of(lines)))
    return problem(fmt::format("#{} is not here any more, so it can take no offers.", machine->tag), "date",
                   iso(offer.date));
  const Date since = here_since(lines);
  if (offer.date < since)
    return problem(
        fmt::format("#{} came in on {}; an offer for it cannot be older.", machine->tag, shown(since)),
        "date", iso(offer.date));
  if (offer.comes && *offer.comes < offer.date)
    return problem("They cannot come on a day before they made the offer.", "comes", iso(*offer.comes));

  const Offer added{.machine = offer.machine,
                    .date = offer.date,
                    .amount = offer.amount,
                    .who = offer.who,
                    .comes = offer.comes};
  std::string title = in_words(shop, *machine, added);
  title.front() = 'O';
  Change change{shop, std::move(title)};
  change.add(added);
  return change;
}

Result<Change> settle_offer(const Shop& shop, OfferId offer, OfferResult result) {
  const Offer* found = shop.find(offer);
  if (found == nullptr) return problem("There is no such offer in the shop.", "offer");
  const Machine* machine = shop.find(found->machine);
  if (machine == nullptr) return problem("The machine of this offer is not in the shop.", "machine");
  Change change{shop, fmt::format("{} {}", done(result), in_words(shop, *machine, *found))};
  Offer settled = *found;
  settled.result = result;
  change.replace(std::move(settled));
  return change;
}

Result<Change> settling_offers(const Shop& shop, Change sale, MachineId machine,
                               std::optional<OfferId> taken) {
  if (taken) {
    const Offer* offer = shop.find(*taken);
    if (offer == nullptr || offer->machine != machine)
      return problem("The offer taken is not one for this machine.", "offer");
  }
  for (const Offer& offer : shop.all<Offer>()) {
    const bool is_taken = taken && offer.id == *taken;
    if (offer.machine != machine || (offer.result && !is_taken)) continue;
    Offer settled = offer;
    settled.result = is_taken ? OfferResult::taken : OfferResult::gone;
    sale.replace(std::move(settled));
  }
  return sale;
}

}  // namespace secondpull
