#pragma once

#include <optional>
#include <vector>

#include "core/books/books.h"
#include "core/books/positions.h"

namespace secondpull::bookkeeping {

/// An order that arrived, and what its parts cost with freight and tax.
struct Arrival {
  const Order* order = nullptr;
  Money landed;
};

/// A wish for pieces of a part, from a receipt pointed at or first in, first out.
struct Use {
  PartId part{};
  std::int64_t quantity = 0;
  Date day{};
  std::optional<OrderId> from_order;
  std::optional<MachineId> from_donor;
};

/// The parts in stock, by the receipts in which they came in. Each line of an order that arrived and each
/// harvested line is a receipt; its cost is split equally over its pieces, and they are issued in turn.
class Stock {
 public:
  /// Every receipt there will ever be; pieces can be issued from the day they came in. What harvested parts
  /// cost is not known before their donor is parted (see set_cost). A problem if an order that arrived has no
  /// lines, or a line names a part or order that is not there.
  static Result<Stock> of(const Shop& shop);

  const std::vector<Arrival>& arrivals() const { return arrivals_; }
  /// Says what a harvested line cost: its share of the donor.
  void set_cost(const Harvest& line, Money cost);
  /// Takes the pieces and returns their cost. A problem, and nothing taken, if there are too few that day.
  Result<Money> issue(const Use& use);
  /// What is left, by part, then in the order of issue. With a day: only what was in stock at its end, where
  /// harvested parts count from the parting of their donor on (call it before anything later is issued).
  std::vector<StockReceipt> on_hand(std::optional<Date> at_end_of = std::nullopt) const;

 private:
  struct Receipt {
    Position part = nowhere;
    bool harvested = false;
    Date received{};
    std::int64_t entered = 0;
    std::int64_t source = 0;  ///< id of the order, or of the donor if harvested
    std::int64_t quantity = 0;
    Money cost;
    std::int64_t issued = 0;
    bool parted = false;         ///< a harvested line whose donor was parted
    Position harvest = nowhere;  ///< place of the harvested line
  };
  explicit Stock(const Shop& shop) : shop_{&shop}, parts_{shop.all<Part>()} {}
  std::optional<Problem> take_orders();
  std::optional<Problem> take_harvests();
  void put_in_order();
  Problem too_few(const Use& use, std::int64_t there) const;
  template <class At>
  Result<Money> issue_from(std::size_t first, std::size_t last, At at, const Use& use);

  const Shop* shop_;
  Positions<Part> parts_;
  std::vector<Arrival> arrivals_;
  std::vector<Receipt> receipts_;        // by part, then in the order of issue
  std::vector<std::size_t> first_;       // by part: its first receipt
  std::vector<std::size_t> head_;        // by part: its first receipt not used up
  std::vector<std::size_t> by_source_;   // receipts by source, then part, then order of issue
  std::vector<std::size_t> of_harvest_;  // receipt of a harvested line
};

/// What the pieces from `first` up to `last` (not included) of a receipt of `quantity` pieces cost together.
Money cost_of_pieces(Money cost, std::int64_t quantity, std::int64_t first, std::int64_t last);

}  // namespace secondpull::bookkeeping
