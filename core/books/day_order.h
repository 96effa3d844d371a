#pragma once

#include <vector>

#include "core/books/moves.h"
#include "core/books/stock.h"
#include "core/shop/stage.h"

namespace secondpull::bookkeeping {

/// A donor that is parted: on the day of its first harvest or of its disposal, the earlier.
struct Parting {
  Position machine = nowhere;
  Date date{};
  const Disposal* disposal = nullptr;
  std::vector<const Harvest*> lines;  ///< all there are, the later ones too, in order of entry
};

/// Everything in the shop that moves money or stock, and the order in which it happened.
class DayOrder {
 public:
  /// A problem if a machine is sold, taken back or disposed of out of turn, or parts were harvested from one
  /// that was never parted out.
  static Result<DayOrder> of(const Shop& shop, const LinesByPlace& lines,
                             const std::vector<Arrival>& arrivals);

  /// Calls `visit(turn, row)` for each event by day, in the order of a day, then by line. `row` is the
  /// record, or an Arrival, Parting or Move; `visit` returns std::optional<Problem>, and the first
  /// problem ends the walk. `year_over(year)` is called after the last event of each year that has any.
  template <class Visit, class YearOver>
  std::optional<Problem> each(Visit&& visit, YearOver&& year_over) const;
  std::size_t size() const { return keys_.size(); }

 private:
  void add(Date date, Turn turn, std::size_t row);
  static Date day_of(std::uint64_t key);
  /// The first key that a later year can have.
  static std::uint64_t end_of_year(std::uint64_t key);
  template <class Record>
  void add_all(Turn turn, const std::vector<const Record*>& rows);
  std::optional<Problem> add_machines(const Shop& shop, const LinesByPlace& machines);

  std::vector<const Acquisition*> acquisitions_;
  std::vector<Arrival> arrivals_;
  std::vector<const Material*> materials_;
  std::vector<const Finding*> findings_;
  std::vector<Parting> partings_;
  std::vector<const Fitted*> fitted_;
  std::vector<const PartSale*> part_sales_;
  std::vector<Move> moves_;
  std::vector<const Allowance*> allowances_;
  std::vector<const Trip*> trips_;
  std::vector<const Expense*> expenses_;
  std::vector<const TaxPaid*> taxes_paid_;
  std::vector<std::uint64_t> keys_;  // day, turn and row of each event, sorted
};

template <class Visit, class YearOver>
std::optional<Problem> DayOrder::each(Visit&& visit, YearOver&& year_over) const {
  std::uint64_t end = keys_.empty() ? 0 : end_of_year(keys_.front());
  int year = keys_.empty() ? 0 : year_of(day_of(keys_.front()));
  for (const std::uint64_t key : keys_) {
    if (key >= end) {
      year_over(year);
      end = end_of_year(key);
      year = year_of(day_of(key));
    }
    const auto turn = static_cast<Turn>((key >> 32U) & 0xFFU);
    const std::size_t row = key & 0xFFFFFFFFU;
    const auto go = [&]() -> std::optional<Problem> {
      switch (turn) {
        case Turn::acquisition:
          return visit(turn, *acquisitions_[row]);
        case Turn::arrival:
          return visit(turn, arrivals_[row]);
        case Turn::material:
          return visit(turn, *materials_[row]);
        case Turn::outside_work:
          return visit(turn, *findings_[row]);
        case Turn::parting:
          return visit(turn, partings_[row]);
        case Turn::fitting:
          return visit(turn, *fitted_[row]);
        case Turn::part_sale:
          return visit(turn, *part_sales_[row]);
        case Turn::comes_back:
        case Turn::move:
          return visit(turn, moves_[row]);
        case Turn::allowance:
          return visit(turn, *allowances_[row]);
        case Turn::trip:
          return visit(turn, *trips_[row]);
        case Turn::expense:
          return visit(turn, *expenses_[row]);
        case Turn::tax_paid:
          return visit(turn, *taxes_paid_[row]);
      }
      return std::nullopt;
    };
    if (auto wrong = go()) return wrong;
  }
  if (!keys_.empty()) year_over(year);
  return std::nullopt;
}

}  // namespace secondpull::bookkeeping
