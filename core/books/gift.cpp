#include "core/books/gift.h"

#include <algorithm>

namespace secondpull::bookkeeping {

GiftBasis given(Money giver_share, const Money* value_then) {
  const Money lower = value_then == nullptr ? giver_share : std::min(giver_share, *value_then);
  return {giver_share, lower, lower};
}

Money settled_basis(const GiftBasis& gift, Money rest, Money net) {
  return std::clamp(net - rest, gift.lower, gift.giver);
}

}  // namespace secondpull::bookkeeping
