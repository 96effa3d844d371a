#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/result.h"
#include "core/shop/change.h"
#include "core/shop/intake.h"

namespace secondpull {

/// A machine in a deal. `value` is what it counts for when the price is split; absent: its asking price.
struct DealMachine {
  MachineId machine{};
  std::optional<Money> value;
  std::optional<SoldAs> sold_as;
  std::optional<OfferId> taken;  ///< the offer that the deal takes up
};

/// Pieces of a part in a deal.
struct DealPart {
  PartId part{};
  std::int64_t quantity = 1;
  std::optional<Money> value;  ///< of all of them; needed where they do not go alone
};

/// Several things that one buyer takes for one price.
struct Deal {
  Date date{};
  PersonChoice buyer;
  std::vector<DealMachine> machines;
  std::vector<DealPart> parts;
  Money price;                    ///< of all together, sales tax apart
  Money sales_tax, fee;           ///< of all together
  Money delivery;                 ///< what delivering cost; machines alone bear it
  std::optional<Minutes> labour;  ///< selling them: logged on the machines in equal shares
  std::string payment;
  std::optional<std::int64_t> warranty_days;  ///< on the machines
  std::string place;
};

/// What one thing of a deal has of its price.
struct DealShare {
  Money value;  ///< what it counted for
  Money price, sales_tax, fee, delivery;
};

/// The shares of all machines, then of all parts, in their order. Price, tax and fee are split by the values,
/// delivery by those of the machines, each to the cent by largest remainder (money.h): the shares add up
/// exactly. Values that are all zero mean equal shares. A problem names `machine` (nothing in the deal),
/// `value` (one that is neither said nor asked for, or out of range), `delivery` (for parts alone), `price`,
/// `sales_tax` or `fee`.
Result<std::vector<DealShare>> shares_of(const Shop& shop, const Deal& deal);

/// Sells all of it as one action, each machine a sale of its own and each part too, with the offers it
/// answers settled (settling_offers): "Sold #14, #15 and 2 x spark plug to Ruel for $260". Problems: those of
/// shares_of, sell (selling.h), sell_part (side_trades.h) and settling_offers (offers.h); `machine` if one is
/// in it twice.
Result<Change> sell_together(const Shop& shop, const Deal& deal);

}  // namespace secondpull
