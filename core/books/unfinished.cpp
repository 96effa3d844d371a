#include "core/books/unfinished.h"

#include <fmt/format.h>

#include "core/books/bookkeeper.h"
#include "core/books/year_papers.h"
#include "core/books/year_sums.h"
#include "core/shop/describe.h"

namespace secondpull {
namespace {

/// Goes through the records for one thing after the other.
class Search {
 public:
  Search(const Books& books, const MileageRates& rates, int year)
      : books_{books}, shop_{books.shop()}, rates_{rates}, year_{year} {}

  void trips_without_rate() {
    if (!bookkeeping::trips_cost(shop_)) return;
    std::vector<AnyId> found;
    for (const Trip& trip : shop_.all<Trip>())
      if (in_year(trip.date) && !rates_.cost(trip)) found.emplace_back(trip.id);
    add(Unfinished::trips_no_rate, std::move(found), true, "trip lies", "trips lie",
        "on days without a published mileage rate: the year cannot be worked out before there is one");
  }
  void trips_lacking() {
    std::vector<AnyId> found;
    for (const LoggedTrip& trip : mileage_log(shop_, rates_, year_).trips)
      if (!trip.missing.empty()) found.emplace_back(trip.trip);
    add(Unfinished::trips_lacking, std::move(found), false, "trip lacks", "trips lack",
        "a destination or a purpose: without them a mileage log may not count");
  }
  void sales_without_payment() {
    std::vector<AnyId> found;
    for (const Sale& sale : shop_.all<Sale>())
      if (in_year(sale.date) && sale.payment.empty()) found.emplace_back(sale.id);
    add(Unfinished::sales_unpaid_word, std::move(found), false, "sale does", "sales do",
        "not say how the money came: then it cannot be held against what those who handle payments report");
  }
  void orders_under_way() {
    const Date end = std::chrono::year{year_} / std::chrono::December / 31;
    std::vector<AnyId> found;
    for (const Order& order : shop_.all<Order>())
      if (in_year(order.date) && (!order.arrived || *order.arrived > end)) found.emplace_back(order.id);
    add(Unfinished::orders_under_way, std::move(found), false, "order has", "orders have",
        "not arrived within the year: in neither its purchases nor its stock. If one did arrive, say when");
  }
  void hulks() {
    std::vector<AnyId> found;
    for (const Disposal& disposal : shop_.all<Disposal>())
      if (disposal.hulk_here && in_year(disposal.date)) found.emplace_back(disposal.id);
    add(Unfinished::hulks_here, std::move(found), false, "hulk is", "hulks are",
        "said to be still here. If one has gone, say when: its cost leaves with it");
  }
  void tax_owed() {
    const Money owed = together(books_.sales_tax(year_)).owed;
    if (owed <= Money{}) return;
    items_.push_back({.what = Unfinished::tax_owed,
                      .sentence = fmt::format("{} of sales tax is owed: write down what was handed on in the "
                                              "year, if some of it was.",
                                              shown(owed, shop_.settings.currency))});
  }
  void not_over(Date today) {
    const Date last = std::chrono::year{year_} / std::chrono::December / 31;
    if (today >= last) return;
    items_.push_back(
        {.what = Unfinished::year_not_over,
         .sentence = fmt::format("{} is not over: it can be closed from {} on.", year_, shown(last)),
         .blocks = true});
  }
  std::vector<UnfinishedItem> taken() { return std::move(items_); }

 private:
  bool in_year(Date date) const { return year_of(date) == year_; }
  void add(Unfinished what, std::vector<AnyId> records, bool blocks, std::string_view one,
           std::string_view many, std::string_view rest) {
    if (records.empty()) return;
    const auto count = static_cast<std::int64_t>(records.size());
    items_.push_back({.what = what,
                      .sentence = fmt::format("{} {}.", counted(count, one, many), rest),
                      .records = std::move(records),
                      .blocks = blocks});
  }

  const Books& books_;
  const Shop& shop_;
  const MileageRates& rates_;
  int year_;
  std::vector<UnfinishedItem> items_;
};

}  // namespace

std::vector<UnfinishedItem> unfinished(const Books& books, const MileageRates& rates, int year, Date today) {
  Search search{books, rates, year};
  search.not_over(today);
  search.trips_without_rate();
  search.trips_lacking();
  search.sales_without_payment();
  search.orders_under_way();
  search.tax_owed();
  search.hulks();
  return search.taken();
}

}  // namespace secondpull
