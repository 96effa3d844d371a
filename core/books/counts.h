#pragma once

#include <array>

#include "core/books/ledger.h"
#include "core/books/year.h"
#include "core/shop/shop.h"

namespace secondpull::bookkeeping {

/// How a posting came into the cost of goods.
enum class GoodsMove { left, came_back, spent_after, parts };

/// What a posting adds to a line of its year.
struct Count {
  YearLine line = YearLine::gross_receipts;
  Money amount;
  std::uint32_t name = 0;  ///< category or place, by Ledger::name
};

/// The lines that one posting counts in: none, one, or two (material used on a machine that was kept is
/// material and withdrawal).
class CountList {
 public:
  void add(const Count& count) { counts_.at(size_++) = count; }
  const Count* begin() const { return counts_.data(); }
  const Count* end() const { return counts_.data() + size_; }

 private:
  std::array<Count, 2> counts_{};
  std::size_t size_ = 0;
};

/// Says in which lines of its year a posting counts. Every sum of postings, of a year, of a month or in a
/// "why?", goes through here, so that they cannot differ. (Miles, hours and machines sold count records.)
class Counts {
 public:
  explicit Counts(const Shop& shop) : shop_{&shop} {}
  CountList of(const Ledger::Happening& happening, const Ledger::Entry& entry) const;

 private:
  YearLine bought(const AnyId& event) const;

  const Shop* shop_;
};

/// For a posting to the cost of goods: how it came there.
GoodsMove goods_move(const Ledger::Happening& happening, const Ledger::Entry& entry);

}  // namespace secondpull::bookkeeping
