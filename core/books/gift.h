#pragma once

#include "core/money/money.h"

namespace secondpull::bookkeeping {

/// The basis of a machine that was a gift, apart from what was spent on it.
struct GiftBasis {
  Money giver;    ///< its share of what the giver had in it
  Money lower;    ///< that, or its value when given if that was less
  Money carried;  ///< what the books carry it at now
};

/// A gift as it comes in: carried at the lower sum.
GiftBasis given(Money giver_share, const Money* value_then);

/// What the basis of a gift comes to when it is sold: the giver's for a gain, the lower one for a loss, and
/// in between what leaves neither.
/// @param rest  the rest of its cost basis on that day
/// @param net   price less fee and delivery
/// Source: IRS Publication 551, property received as a gift; 26 USC 1015.
Money settled_basis(const GiftBasis& gift, Money rest, Money net);

}  // namespace secondpull::bookkeeping
