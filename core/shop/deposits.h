#pragma once

#include <string>
#include <vector>

#include "core/result.h"
#include "core/shop/change.h"

namespace secondpull {

// A deposit is no income: it is part of the price once its offer is taken, and is given back otherwise.

/// Writes down money that somebody who made an offer left so that the machine is kept for them: "Deposit of
/// $20 by Ruel for #14". A problem names `offer` (unknown, or settled already), `machine` (it is not here),
/// `date` (before the offer) or `amount` (0 or less, or more than was offered with what they left before).
Result<Change> take_deposit(const Shop& shop, OfferId offer, Date date, Money amount,
                            const std::string& payment);

/// The money goes back: "Gave back the deposit of $20 to Ruel for #14". A problem names `deposit` (unknown,
/// or given back already), `offer` (it was taken: the deposit is part of its price) or `date` (before the
/// deposit).
Result<Change> return_deposit(const Shop& shop, DepositId deposit, Date date);

/// What was left with an offer and not given back; also of one that was taken, as part of its price.
Money deposit_left(const Shop& shop, OfferId offer);

/// The deposits for a machine that would have to go back if it went to somebody else: not given back, their
/// offer not taken. In the order entered.
std::vector<const Deposit*> deposits_held(const Shop& shop, MachineId machine);

}  // namespace secondpull
