#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/books/books.h"

namespace secondpull {

/// One trip of the mileage log. A record that counts holds date, destination, business purpose and miles.
/// Source: 26 CFR 1.274-5T(b)(6), second hand.
struct LoggedTrip {
  TripId trip{};
  Date date{};
  std::string destination;
  std::string purpose;
  Tenths miles;
  std::string about;          ///< "#14", "lot L1", or empty: the shop
  std::optional<Money> cost;  ///< by the rate of its day; absent without one, and outside the US
  std::string missing;        ///< the element it lacks: "destination", "purpose"; empty: complete
};
struct MileageLog {
  std::vector<LoggedTrip> trips;  ///< by day, then by entry
  Tenths miles;                   ///< of the year
  Money cost;
  std::size_t incomplete = 0;
};
MileageLog mileage_log(const Shop& shop, const MileageRates& rates, int year);

/// Money received in a year by one way of payment: before fees and refunds, sales tax included, as one who
/// handles payments reports it.
struct Received {
  std::string payment;  ///< the words of the sales; empty: not said. Parts sold have none.
  std::int64_t sales = 0;
  Money price;
  Money sales_tax;
  Money total() const { return price + sales_tax; }
};
std::vector<Received> received_by_payment(const Shop& shop, int year);  ///< in order of the words

/// Money that lies in a machine or in parts, and for how long.
struct TiedUp {
  std::optional<MachineId> machine;
  std::optional<StockReceipt> parts;
  Money amount;
  Date since{};
  int days = 0;
};
/// What is here once everything on record has happened: machines and hulks at what they have cost, and every
/// receipt of parts; what came in up to `today`, the longest first.
std::vector<TiedUp> tied_up(const Books& books, Date today);

}  // namespace secondpull
