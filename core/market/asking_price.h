#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "core/learning/knowledge.h"
#include "core/market/features.h"
#include "core/market/linear_fit.h"
#include "core/result.h"
#include "core/shop/stage.h"

namespace secondpull::market {

// What a machine fetches, from its kind, age, deck, looks, make and the month. The logarithm of the price is
//
//     ln price = ln(what the trade pays for the kind, sold so) + ln(price level of the season, if running)
//              + shop[kind, sold so] + age x (years - 10) + deck x ln(inches / the kind's usual)
//              + month (between the 15ths of two months their weighted mean, if running)
//              + looks + make + noise
//
// with coefficients believed about the values below beforehand and updated by the shop's own sales
// (linear_fit.h). The noise is one deviation per kind and way of selling, so that without a sale the range
// that one in ten prices fall short of and one in ten exceed is as wide, as a ratio, as the trade's low to
// high; times one factor learned for all. What is not known of a machine counts as usual. Amounts are in
// whole units of the currency.

// What is believed beforehand, on the scale of logarithms. Common practice, no source: all of these.
inline constexpr double kUsualAge = 10;       ///< years, of what the trade's prices mean
inline constexpr double kLostPerYear = 0.05;  ///< and its deviation:
inline constexpr double kLostPerYearVaries = 0.03;
inline constexpr double kDeckCounts = 0.3;  ///< part of the deck's ratio, and its deviation:
inline constexpr double kDeckVaries = 0.3;
inline constexpr double kMonthVaries = 0.05;  ///< from the season of the knowledge base
inline constexpr double kMakeVaries = 0.15;
inline constexpr std::array<double, 4> kLooks{0.2, 0.05, -0.1, -0.25};  ///< by Grade, and the deviation:
inline constexpr double kLooksVary = 0.1;

/// A sale that the model learned from.
struct KnownSale {
  SaleId sale{};
  MachineId machine{};
  Features features;
  double price = 0;  ///< > 0
};

/// What one kind, sold in one way, fetches beforehand.
struct KindPrice {
  double log_median = 0;
  double noise = 0;        ///< deviation of a single price's logarithm
  double shop_varies = 0;  ///< deviation of a shop from it
};

/// What knowledge base and own sales say of prices. A value; good without what it was made from.
struct PriceModel {
  std::array<std::array<std::optional<KindPrice>, 2>, 7> kinds;  ///< by MachineKind and SoldAs
  learning::Season season;
  std::vector<std::string> makes;  ///< among the sales, in order of their first
  std::vector<KnownSale> sales;    ///< in order of id
  FitBelief fit;
};

/// From all of the shop's sales of which it is known how the machine was sold, up to `today`. A kind that the
/// knowledge base has no price of starts from the mean of its own sales and is unknown without.
PriceModel price_model(const ByMachine& by_machine, const Shop& shop, const learning::Knowledge& knowledge,
                       Date today);

/// One part of a suggestion: "built 2012" x 0.91.
struct PriceFactor {
  std::string what;
  double factor = 1;  ///< > 0
};

/// An own sale beside the machine in question.
struct NearSale {
  SaleId sale{};
  MachineId machine{};
  double price = 0;
  Date date{};
  double distance = 0;               ///< 0: alike in everything
  double here = 0;                   ///< that price times what differs, as the model counts it
  std::vector<std::string> differs;  ///< of the machine sold: "3 years older", "rough", "sold in November"
};

struct AskingPrice {
  double median = 0;          ///< as likely to fetch more as less
  double p10 = 0;             ///< one in ten fetches less
  double p90 = 0;             ///< one in ten fetches more
  StudentT log_price;         ///< the whole distribution, of the logarithm
  std::size_t sales = 0;      ///< own ones of the kind, sold so
  std::size_t all_sales = 0;  ///< own ones that the model learned from
  double of_kind = 0;         ///< what the kind fetches in this shop; times all factors it is the median
  std::vector<PriceFactor> factors;  ///< of what is known of the machine
  std::vector<NearSale> nearest;     ///< at most kNearest of the kind, sold so, nearest first

  double quantile(double p) const;       ///< the price below which it goes with chance p, in (0, 1)
  double chance_of(double price) const;  ///< that it fetches this (> 0) or more
};

inline constexpr std::size_t kNearest = 5;

/// What that machine fetches, sold so on that day. A problem names `kind` if nothing is known of its price.
Result<AskingPrice> asking_price(const PriceModel& model, const Machine& machine, SoldAs as, Date day);

/// The logarithm of that price alone, for where many are asked for.
Result<StudentT> log_price(const PriceModel& model, const Machine& machine, SoldAs as, Date day);

/// A price as sellers write it: to the nearest 1 up to 20, 5 up to 500, 25 up to 1000, 50 up to 5000, 100 up
/// to 10,000, and so on with a nought more; never 0. Common practice, no source.
double as_sellers_write(double price);

}  // namespace secondpull::market
