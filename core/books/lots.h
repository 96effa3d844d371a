#pragma once

#include <span>
#include <vector>

#include "core/books/positions.h"
#include "core/money/money.h"
#include "core/result.h"
#include "core/shop/shop.h"

namespace secondpull::bookkeeping {

/// Which machines came in together, and how what was paid, driven and worked for all of them is shared.
class Lots {
 public:
  /// A problem if a machine names no acquisition that is there.
  static Result<Lots> of(const Shop& shop);

  /// The machines of an acquisition, by their places, in the order they were entered.
  std::span<const Position> machines(Position acquisition) const {
    return std::span{members_}.subspan(first_[acquisition], first_[acquisition + 1] - first_[acquisition]);
  }
  /// The acquisition of a machine.
  Position acquisition(Position machine) const { return acquisition_[machine]; }
  const Positions<Acquisition>& acquisitions() const { return positions_; }

  /// Splits a sum over the machines of an acquisition in proportion to the value each had when it came;
  /// equally, if any of them was given none. In the order of machines(); empty for none.
  /// Source: IRS Publication 551, lump-sum purchases.
  std::vector<Money> shares(Position acquisition, Money total) const;

 private:
  explicit Lots(const Shop& shop) : shop_{&shop}, positions_{shop.all<Acquisition>()} {}
  const Shop* shop_;
  Positions<Acquisition> positions_;
  std::vector<Position> acquisition_;  // by machine
  std::vector<Position> members_;      // machines by acquisition, then by entry
  std::vector<std::size_t> first_;     // by acquisition, into members_
};

}  // namespace secondpull::bookkeeping
