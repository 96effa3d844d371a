#pragma once

#include <optional>
#include <string>

#include "core/result.h"
#include "core/shop/change.h"
#include "core/shop/intake.h"

namespace secondpull {

/// Puts a machine for sale at an asking price; a listing that has not ended is ended the same day (a new
/// price). Refused, naming `recall`: a recalled machine (recall.h); naming `sold_as`: as running after a
/// failed safety check (safety.h).
Result<Change> list_machine(const Shop& shop, MachineId machine, Date date, const std::string& channel,
                            Money asking, std::optional<SoldAs> sold_as);
Result<Change> end_listing(const Shop& shop, ListingId listing, Date date);

struct NewSale {
  MachineId machine{};
  Date date{};
  PersonChoice buyer;
  Money price, sales_tax, fee, delivery;
  std::string payment;
  std::optional<SoldAs> sold_as;
  std::optional<std::int64_t> warranty_days;
  std::string place;
  std::optional<Minutes> labour;  ///< selling it: logged as `sell` in the same action
};
/// Sells a machine that is here; listings that have not ended are ended with it. "Sold #14 to Ruel for $160".
/// Refused as list_machine refuses.
Result<Change> sell(const Shop& shop, const NewSale& sale);
/// The buyer brings it back.
Result<Change> take_back(const Shop& shop, MachineId machine, Date date, Money refunded,
                         const std::string& note);
/// Scrapped or kept for own use. (A donor: part_out.)
Result<Change> dispose(const Shop& shop, MachineId machine, Date date, DisposalKind how, Money proceeds);

}  // namespace secondpull
