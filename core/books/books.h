#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/books/posting.h"
#include "core/books/rates.h"
#include "core/books/year.h"
#include "core/result.h"
#include "core/shop/shop.h"
#include "core/shop/stage.h"

namespace secondpull {

namespace bookkeeping {
class Why;
}

/// What one machine cost and earned; the terms of the money model. What is not known yet is absent, never
/// zero.
struct MachineFigures {
  MachineId machine{};
  Stage stage = Stage::in_the_yard;
  Date acquired{};
  std::optional<Date> sold;           ///< the last sale's day, if it is sold now
  Money cost_basis;                   ///< own hours not counted
  std::optional<Money> net_proceeds;  ///< absent while the machine or its hulk is here, and for one kept
  std::optional<Money> gross_profit;  ///< net proceeds - cost basis
  Money running_costs;                ///< trips and the share of overheads
  std::optional<Money> profit;        ///< gross profit - running costs
  Minutes minutes;                    ///< all logged labour on it, shares of its acquisition's included
  std::optional<Money>
      pay_per_hour;  ///< profit / hours from the minutes, half away from zero; absent at 0 minutes
  std::optional<int> days_held;      ///< acquired to gone
  std::optional<int> days_for_sale;  ///< first listing since it last came in, to the sale or to nothing
};

/// What a line of a machine's account is about.
enum class LineKind {
  acquisition,
  pickup,
  part,
  material,
  outside_work,
  donor_share,
  gift,
  price,
  fee,
  delivery,
  refund,
  allowance,
  scrap,
  cost_after,
  trip,
  overhead
};

/// One sum that went into a machine's figures: the answer to "why?". Costs are negative, proceeds positive.
struct FigureLine {
  LineKind kind = LineKind::acquisition;
  Date date{};
  std::optional<AnyId> event;
  std::string what;  ///< "share of lot L1", "carburettor x 1", "fee"
  Money amount;
};

/// Pieces of a part that came in together at one cost and are still on hand.
struct StockReceipt {
  PartId part{};
  std::optional<OrderId> order;  ///< or a donor
  std::optional<MachineId> donor;
  Date received{};
  std::int64_t quantity = 0;  ///< still on hand
  Money cost;                 ///< landed, of what is still on hand
};

/// The books of a shop: every event turned into balanced postings, and the figures summed from them. A value
/// made once for a state of the shop; all questions are then answered without reading the records again.
class Books {
 public:
  /// A problem if a trip (in USD) lies on a day without a published rate, or the records break a rule of the
  /// books.
  static Result<Books> of(std::shared_ptr<const Shop> shop, const MileageRates& rates);
  /// The same, but trips without a published rate are left out; year() then refuses the years they lie in.
  static Result<Books> without_unrated_trips(std::shared_ptr<const Shop> shop, const MileageRates& rates);

  const std::vector<Transaction>& transactions() const;  ///< by day, then by the order of a day
  const std::vector<MachineFigures>& machines() const;   ///< in order of tag (UTF-8 bytes)
  const MachineFigures* machine(MachineId id) const;     ///< nullptr for an unknown id
  /// The lines behind a machine's figures, by day: they add up to its profit (for one still here or kept: to
  /// what sales that were taken back left, less what it cost).
  std::vector<FigureLine> lines(MachineId id) const;
  /// The figures as they would be, sold on `day` at `price` less `fee` and `delivery`, with `selling` more
  /// minutes logged on it that day (which count in its hours and in its share of that year's overheads): to
  /// the cent what the books say once that sale is entered. Absent for a machine that is not here.
  std::optional<MachineFigures> if_sold(MachineId id, Money price, Money fee, Money delivery, Date day,
                                        Minutes selling = {}) const;

  /// The figures of a calendar year; zeros and the stock for one in which nothing happened. A problem naming
  /// the day if a trip in it (in USD) has no published rate.
  Result<YearFigures> year(int year, const SelfEmploymentRates& rates) const;
  /// The postings, records or other figures that a figure of a year is made of. `name` is the category or
  /// place of a line that has them; an empty one is all categories, or the place without a name.
  Result<YearWhy> why(int year, YearLine line, const std::string& name,
                      const SelfEmploymentRates& rates) const;
  /// The same for figures that year() gave, so that many can be asked about without working the year out
  /// again.
  YearWhy why(const YearFigures& figures, YearLine line, const std::string& name,
              const SelfEmploymentRates& rates) const;
  /// Sales tax by place in a year, in order of place; what is not all zero.
  std::vector<TaxOfPlace> sales_tax(int year) const;
  /// The twelve months of a year; a problem as year() has it.
  Result<std::vector<MonthFigures>> months(int year) const;
  /// The first and the last year in which anything is dated; nothing for an empty shop.
  std::optional<std::pair<int, int>> years() const;
  /// Every year in which anything is dated, in order.
  std::vector<int> dated_years() const;

  const std::vector<StockReceipt>& stock() const;  ///< by part, then in the order of issue
  std::int64_t on_hand(PartId part) const;
  /// What the next `quantity` pieces would cost, first in, first out; absent if there are not so many.
  std::optional<Money> cost_of_next(PartId part, std::int64_t quantity) const;

  const ByMachine& by_machine() const;
  const Shop& shop() const;

 private:
  friend class bookkeeping::Why;
  struct Data;
  explicit Books(std::shared_ptr<const Data> data) : data_{std::move(data)} {}
  std::shared_ptr<const Data> data_;
};

/// profit - hours x hour value, rounded once.
Money after_wages(Money profit, Minutes minutes, Money hour_value);

}  // namespace secondpull
