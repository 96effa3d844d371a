#pragma once

#include <optional>
#include <vector>

#include <QString>

#include "core/books/books.h"

namespace secondpull::app {

/// One part of the shelf, ready to be shown.
struct StockRow {
  PartId part{};
  QString name;
  QString number;
  QString supplier;
  std::int64_t on_hand = 0;
  std::int64_t on_order = 0;
  QString ordered_for;  ///< "2 for #14, 1 for the shelf"
  QString off_donors;   ///< "1 off #12"
  Money worth;          ///< landed cost of what is on hand
  std::optional<Money> next;
  std::optional<std::int64_t> reorder_at;
  /// On hand and on order together are at most `reorder_at`.
  bool low = false;
  QString
      says;  ///< "runs low: 1 left, order at 2", "none left, 2 on order"; empty if there is nothing to say
};

/// Every part of the shop, in order of name.
std::vector<StockRow> stockRows(const Books& books);

/// One order, ready to be shown.
struct OrderRow {
  OrderId order{};
  Date date{};
  QString supplier;
  std::optional<Date> arrived;
  QString parts;  ///< "2 × spark plug, air filter"
  Money goods, freight, tax, landed;
  bool under_way() const { return !arrived.has_value(); }
};

/// Every order: those under way first, oldest first; then those that arrived, newest first.
std::vector<OrderRow> orderRows(const Shop& shop);

/// One line of an order with what it cost in all.
struct LandedLine {
  OrderLineId line{};
  PartId part{};
  std::int64_t quantity = 1;
  Money price;  ///< each
  Money extra;  ///< its share of freight and tax, by the value of the lines
  Money landed;
  std::optional<MachineId> for_machine;
};

/// The lines of an order in the order entered; the shares add up to freight and tax exactly.
std::vector<LandedLine> landedLines(const Shop& shop, OrderId order);

/// The machines that an order brings parts for and that wait for no other order: once it has arrived they
/// can go on. In the order of its lines.
std::vector<MachineId> canGoOnWith(const Shop& shop, OrderId order);

}  // namespace secondpull::app
