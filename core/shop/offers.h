#pragma once

#include <optional>
#include <string>

#include "core/result.h"
#include "core/shop/change.h"

namespace secondpull {

/// What somebody said they would pay.
struct NewOffer {
  MachineId machine{};
  Date date{};
  Money amount;
  std::string who;            ///< as they gave it; an offer needs no person of the shop
  std::optional<Date> comes;  ///< the day they said they would come
};

/// Writes down an offer for a machine that is here: "Offer of $150 for #14 by Ruel". A problem names
/// `amount` (not above 0), `date` (the machine was not here) or `comes` (a day before the offer).
Result<Change> record_offer(const Shop& shop, const NewOffer& offer);

/// What came of it. An offer settled wrongly is settled again.
Result<Change> settle_offer(const Shop& shop, OfferId offer, OfferResult result);

/// The sale with the offers it answers: in the same action the one that was taken, if any, is settled as
/// taken, and those for that machine that are still open as gone.
Result<Change> settling_offers(const Shop& shop, Change sale, MachineId machine,
                               std::optional<OfferId> taken);

}  // namespace secondpull
