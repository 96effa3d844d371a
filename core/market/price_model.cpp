#include <algorithm>
#include <cmath>

#include "core/learning/own_sales.h"
#include "core/market/asking_price.h"
#include "core/market/price_columns.h"
#include "core/typed_words.h"

namespace secondpull::market {
namespace {

constexpr double kNinetiethPercentile = 1.2815515655446004;  // of the standard normal distribution
// Common practice, no source: the three below.
constexpr double kSmallestNoise = 0.05;  // even where the knowledge base has one price for a kind
constexpr double kNoiseOfUnknown = 0.5;  // of a kind that it has none of
constexpr double kUnknownVaries = 1;

std::size_t at(MachineKind kind) {
  return static_cast<std::size_t>(kind);
}
std::size_t at(SoldAs as) {
  return static_cast<std::size_t>(as);
}

/// The noise with which a usual machine, all else that is unsure of it counted, has the trade's width: a
/// tenth of its prices below the low, a tenth above the high.
KindPrice beforehand(const learning::PriceBelief& known, SoldAs as) {
  constexpr double believed = learning::kSalesBelieved;
  const double width = known.spread * kNinetiethPercentile / StudentT{0, 1, believed}.quantile(0.9);
  const double months = as == SoldAs::running ? kMonthVaries * kMonthVaries : 0;
  const double left = (width * width - months) / (1 + 1 / believed);
  const double noise = std::max(kSmallestNoise, std::sqrt(std::max(left, 0.0)));
  return {std::log(known.median), noise, noise / std::sqrt(believed)};
}

std::optional<KindPrice> from_own_alone(const std::vector<KnownSale>& sales, MachineKind kind, SoldAs as) {
  double sum = 0;
  double count = 0;
  for (const KnownSale& sale : sales)
    if (sale.features.kind == kind && sale.features.as == as) {
      sum += std::log(sale.price);
      ++count;
    }
  if (count == 0) return std::nullopt;
  return KindPrice{sum / count, kNoiseOfUnknown, kUnknownVaries};
}

std::vector<KnownSale> known_sales(const std::vector<learning::OwnSale>& own, const Shop& shop, Date today) {
  std::vector<KnownSale> sales;
  for (const learning::OwnSale& each : own)
    if (const Machine* const machine = shop.find(each.machine);
        machine != nullptr && each.price > 0 && each.date <= today)
      sales.push_back({each.sale, each.machine, features_of(*machine, each.as, each.date), each.price});
  return sales;
}

std::vector<std::string> makes_of(const std::vector<KnownSale>& sales) {
  std::vector<std::string> makes;
  for (const KnownSale& sale : sales) {
    const std::string& make = sale.features.make;
    const auto same = [&](const std::string& known) { return same_word(known, make); };
    if (!make.empty() && std::none_of(makes.begin(), makes.end(), same)) makes.push_back(make);
  }
  return makes;
}

/// What is believed beforehand of the coefficients, each on its own, with noise 1: rows are divided by
/// theirs.
FitBelief prior_of(const PriceModel& model) {
  const std::size_t count = Columns::kMakes + model.makes.size();
  std::vector<double> means(count, 0.0);
  std::vector<double> varies(count, kMakeVaries);
  for (const MachineKind kind : all_words<MachineKind>())
    for (const SoldAs as : all_words<SoldAs>()) {
      const auto& price = model.kinds[at(kind)][at(as)];
      varies[Columns::of_kind(kind, as)] = price ? price->shop_varies : kUnknownVaries;
    }
  means[Columns::kAge] = -kLostPerYear;
  varies[Columns::kAge] = kLostPerYearVaries;
  means[Columns::kDeck] = kDeckCounts;
  varies[Columns::kDeck] = kDeckVaries;
  for (std::size_t month = 0; month < Columns::kMonthsOfYear; ++month)
    varies[Columns::kMonth + month] = kMonthVaries;
  for (std::size_t grade = 0; grade < kLooks.size(); ++grade) {
    means[Columns::kLooksFrom + grade] = kLooks[grade];
    varies[Columns::kLooksFrom + grade] = kLooksVary;
  }
  FitBelief prior{.mean = means, .degrees = learning::kSalesBelieved, .scale = 1};
  for (std::size_t j = 0; j < count; ++j) {
    prior.precision.emplace_back(count, 0.0);
    prior.precision[j][j] = 1 / varies[j];
  }
  return prior;
}

}  // namespace

PriceModel price_model(const ByMachine& by_machine, const Shop& shop, const learning::Knowledge& knowledge,
                       Date today) {
  PriceModel model;
  model.season = knowledge.season;
  model.sales = known_sales(learning::own_sales(by_machine, shop, knowledge, today), shop, today);
  model.makes = makes_of(model.sales);
  const Currency& currency = shop.settings.currency;
  for (const MachineKind kind : all_words<MachineKind>()) {
    const learning::KindFigures* const known = knowledge.figures(kind);
    auto& [running, as_is] = model.kinds[at(kind)];
    if (known == nullptr) {
      running = from_own_alone(model.sales, kind, SoldAs::running);
      as_is = from_own_alone(model.sales, kind, SoldAs::as_is);
    } else {
      running = beforehand(learning::running_price({}, *known, currency), SoldAs::running);
      as_is = beforehand(learning::as_is_price({}, *known, "", currency), SoldAs::as_is);
    }
  }
  Rows rows;
  std::vector<double> values;
  for (const KnownSale& sale : model.sales) {
    const KindPrice& price = *model.kinds[at(sale.features.kind)][at(sale.features.as)];
    rows.push_back(columns_of(model, sale.features));
    for (double& number : rows.back())
      number /= price.noise;
    values.push_back((std::log(sale.price) - price.log_median - season_of(model, sale.features)) /
                     price.noise);
  }
  // The prior says something of every number, and prices above 0 have logarithms: nothing to refuse.
  model.fit = updated(prior_of(model), rows, values).value();
  return model;
}

}  // namespace secondpull::market
