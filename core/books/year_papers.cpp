#include "core/books/year_papers.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "core/books/bookkeeper.h"
#include "core/shop/describe.h"

namespace secondpull {

namespace {

std::string about(const Shop& shop, const Trip& trip) {
  if (trip.machine) return called(shop, *trip.machine);
  const Acquisition* const lot = trip.acquisition ? shop.find(*trip.acquisition) : nullptr;
  return lot == nullptr ? std::string{} : "lot " + lot->code;
}

}  // namespace

MileageLog mileage_log(const Shop& shop, const MileageRates& rates, int year) {
  std::vector<const Trip*> trips;
  for (const Trip& trip : shop.all<Trip>())
    if (year_of(trip.date) == year) trips.push_back(&trip);
  std::sort(trips.begin(), trips.end(), [](const Trip* a, const Trip* b) {
    return std::tie(a->date, a->entered) < std::tie(b->date, b->entered);
  });

  MileageLog log;
  const bool priced = bookkeeping::trips_cost(shop);
  for (const Trip* trip : trips) {
    LoggedTrip& line = log.trips.emplace_back(LoggedTrip{.trip = trip->id,
                                                         .date = trip->date,
                                                         .destination = trip->destination,
                                                         .purpose = trip->purpose,
                                                         .miles = trip->miles,
                                                         .about = about(shop, *trip)});
    if (const auto cost = rates.cost(*trip); priced && cost) {
      line.cost = *cost;
      log.cost += *cost;
    }
    if (trip->destination.empty())
      line.missing = "destination";
    else if (trip->purpose.empty())
      line.missing = "purpose";
    if (!line.missing.empty()) ++log.incomplete;
    log.miles.count += trip->miles.count;
  }
  return log;
}

std::vector<Received> received_by_payment(const Shop& shop, int year) {
  std::map<std::string, Received, std::less<>> ways;
  const auto receive = [&](const std::string& payment, Money price, Money sales_tax) {
    Received& way = ways[payment];
    way.payment = payment;
    ++way.sales;
    way.price += price;
    way.sales_tax += sales_tax;
  };
  for (const Sale& sale : shop.all<Sale>())
    if (year_of(sale.date) == year) receive(sale.payment, sale.price, sale.sales_tax);
  for (const PartSale& sale : shop.all<PartSale>())
    if (year_of(sale.date) == year) receive({}, sale.price, sale.sales_tax);
  std::vector<Received> all;
  for (auto& [payment, way] : ways)
    all.push_back(std::move(way));
  return all;
}

std::vector<TiedUp> tied_up(const Books& books, Date today) {
  std::vector<TiedUp> all;
  const auto lies = [&](TiedUp one) {
    one.days = days_between(one.since, today);
    all.push_back(std::move(one));
  };
  for (const MachineFigures& machine : books.machines()) {
    // Its days end when it, or its hulk, has gone.
    if (machine.days_held || machine.acquired > today) continue;
    lies({.machine = machine.machine, .amount = machine.cost_basis, .since = machine.acquired});
  }
  for (const StockReceipt& receipt : books.stock())
    if (receipt.received <= today)
      lies({.parts = receipt, .amount = receipt.cost, .since = receipt.received});
  std::stable_sort(all.begin(), all.end(),
                   [](const TiedUp& a, const TiedUp& b) { return a.since < b.since; });
  return all;
}

}  // namespace secondpull
