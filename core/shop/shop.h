#pragma once

#include <cstdint>
#include <tuple>
#include <type_traits>
#include <variant>

#include "core/shop/records.h"
#include "core/shop/table.h"

namespace secondpull {

/// Every record of a shop at one moment: a value, cheap to copy. All that is derived (stage, stock, basis,
/// profit) is a function of it.
class Shop {
 public:
  Settings settings;
  /// The next id to hand out, over all tables. Never goes back, not even when an action is undone.
  std::int64_t next_id = 1;

  template <class Record>
  const Table<Record>& all() const {
    return std::get<Table<Record>>(tables_);
  }
  template <class Record>
  Table<Record>& all() {
    return std::get<Table<Record>>(tables_);
  }
  template <class Id>
  auto find(Id id) const;  ///< pointer to the record of that id, or nullptr

  /// Calls `visit(table)` for each table, in the order of the exchange folder's files.
  template <class Visit>
  void each_table(Visit&& visit) const {
    std::apply([&](const auto&... table) { (visit(table), ...); }, tables_);
  }
  template <class Visit>
  void each_table(Visit&& visit) {
    std::apply([&](auto&... table) { (visit(table), ...); }, tables_);
  }
  /// The same records (settings and the id counter apart)?
  bool same_records(const Shop& other) const { return tables_ == other.tables_; }
  bool empty() const {
    return std::apply([](const auto&... table) { return (table.empty() && ...); }, tables_);
  }

 private:
  std::tuple<Table<Person>, Table<Acquisition>, Table<Machine>, Table<Fault>, Table<Finding>, Table<Labour>,
             Table<Part>, Table<Order>, Table<OrderLine>, Table<Harvest>, Table<Fitted>, Table<Material>,
             Table<Listing>, Table<Offer>, Table<Sale>, Table<Return>, Table<Allowance>, Table<PartSale>,
             Table<TaxPaid>, Table<Disposal>, Table<Trip>, Table<Expense>, Table<Photo>, Table<ClosedYear>,
             Table<KeptFigure>, Table<Find>, Table<FindAnswer>, Table<OwnNumber>, Table<KnowledgeEdit>,
             Table<Forecast>, Table<ForecastCause>, Table<ListingText>, Table<Deposit>>
      tables_;
};

/// Are records of this kind something that happened to the shop, so that their day is one of its books? What
/// was only seen, foretold or written for a listing is not, nor is a deposit before its sale.
template <class Record>
inline constexpr bool is_of_the_books =
    !std::is_same_v<Record, Find> && !std::is_same_v<Record, FindAnswer> &&
    !std::is_same_v<Record, Forecast> && !std::is_same_v<Record, ListingText> &&
    !std::is_same_v<Record, Deposit>;

/// A record of any kind. The order of alternatives is the order of Shop's tables.
using AnyRecord =
    std::variant<Person, Acquisition, Machine, Fault, Finding, Labour, Part, Order, OrderLine, Harvest,
                 Fitted, Material, Listing, Offer, Sale, Return, Allowance, PartSale, TaxPaid, Disposal, Trip,
                 Expense, Photo, ClosedYear, KeptFigure, Find, FindAnswer, OwnNumber, KnowledgeEdit, Forecast,
                 ForecastCause, ListingText, Deposit>;

/// The id of a record of any kind.
using AnyId = std::variant<PersonId, AcquisitionId, MachineId, FaultId, FindingId, LabourId, PartId, OrderId,
                           OrderLineId, HarvestId, FittedId, MaterialId, ListingId, OfferId, SaleId, ReturnId,
                           AllowanceId, PartSaleId, TaxPaidId, DisposalId, TripId, ExpenseId, PhotoId,
                           ClosedYearId, KeptFigureId, FindId, FindAnswerId, OwnNumberId, KnowledgeEditId,
                           ForecastId, ForecastCauseId, ListingTextId, DepositId>;

template <class Id>
auto Shop::find(Id id) const {
  const auto pick = [&]<class... Records>(const std::tuple<Table<Records>...>& tables) {
    return std::get<0>(std::tuple_cat([&]() {
      if constexpr (std::is_same_v<typename Table<Records>::Id, Id>)
        return std::make_tuple(std::get<Table<Records>>(tables).find(id));
      else
        return std::tuple<>{};
    }()...));
  };
  return pick(tables_);
}

}  // namespace secondpull
