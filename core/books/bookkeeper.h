#pragma once

#include <vector>

#include "core/books/day_order.h"
#include "core/books/lots.h"
#include "core/books/machine_account.h"
#include "core/books/stock.h"

namespace secondpull::bookkeeping {

/// A trip on a day without a published rate.
struct UnratedTrip {
  Date date{};
  Problem problem;
};

/// Walks through the events of a shop in order and writes the postings of each. One function for each kind of
/// event; they stand in files by subject (acquisition, costs, parts, donors, sales, running costs).
class Bookkeeper {
 public:
  Bookkeeper(const Shop& shop, const MileageRates& rates, Lots lots, Stock stock, const LinesByPlace& lines);

  std::optional<Problem> keep(Turn turn, const Acquisition& acquisition);
  std::optional<Problem> keep(Turn turn, const Arrival& arrival);
  std::optional<Problem> keep(Turn turn, const Material& material);
  std::optional<Problem> keep(Turn turn, const Finding& outside_work);
  std::optional<Problem> keep(Turn turn, const Parting& parting);
  std::optional<Problem> keep(Turn turn, const Fitted& fitted);
  std::optional<Problem> keep(Turn turn, const PartSale& sale);
  std::optional<Problem> keep(Turn turn, const Move& move);
  std::optional<Problem> keep(Turn turn, const Allowance& allowance);
  std::optional<Problem> keep(Turn turn, const Trip& trip);
  std::optional<Problem> keep(Turn turn, const Expense& expense);
  std::optional<Problem> keep(Turn turn, const TaxPaid& paid);

  Ledger& ledger() { return ledger_; }
  const Lots& lots() const { return lots_; }
  const Stock& stock() const { return stock_; }
  const Positions<Machine>& places() const { return places_; }
  std::vector<MachineAccount>& machines() { return machines_; }
  /// Trips that cost something and have no published rate, by day: left out of the books.
  const std::vector<UnratedTrip>& unrated() const { return unrated_; }

 private:
  void move(MachineAccount& machine, Turn turn, const Sale& sale);
  void move(MachineAccount& machine, Turn turn, const Return& back);
  void move(MachineAccount& machine, Turn turn, const Disposal& disposal);
  void move(MachineAccount& machine, Turn turn, HulkGone hulk);
  void receive_gift(const Acquisition& acquisition, Position place);
  Result<MachineAccount*> account(MachineId id);
  const Machine& record(Position place) const { return shop_->all<Machine>().begin()[place]; }

  const Shop* shop_;
  const MileageRates* rates_;
  const LinesByPlace* lines_;
  Lots lots_;
  Stock stock_;
  Positions<Machine> places_;
  std::vector<MachineAccount> machines_;  // by place
  Ledger ledger_;
  std::vector<UnratedTrip> unrated_;
};

/// Do trips cost anything? Only where the mileage rates are published: in US dollars.
bool trips_cost(const Shop& shop);

/// Categories that the program itself books under.
inline constexpr std::string_view kFees = "commissions and fees";
inline constexpr std::string_view kDelivery = "delivery";
inline constexpr std::string_view kCarAndTruck = "car and truck";

}  // namespace secondpull::bookkeeping
