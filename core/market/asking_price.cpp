#include "core/market/asking_price.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/learning/shrink.h"
#include "core/market/price_columns.h"
#include "core/typed_words.h"

namespace secondpull::market {
namespace {

constexpr double kTenth = 0.1;

const std::optional<KindPrice>& kind_price(const PriceModel& model, MachineKind kind, SoldAs as) {
  return model.kinds[static_cast<std::size_t>(kind)][static_cast<std::size_t>(as)];
}

std::vector<PriceFactor> factors_of(const PriceModel& model, const Features& features) {
  const std::vector<double> columns = columns_of(model, features);
  const auto part = [&](std::size_t first, std::size_t last) {
    double sum = 0;
    for (std::size_t j = first; j < last; ++j)
      sum += columns[j] * model.fit.mean[j];
    return sum;
  };
  const auto one = [&](std::size_t column) { return std::exp(part(column, column + 1)); };
  std::vector<PriceFactor> factors;
  if (features.age) factors.push_back({fmt::format("built {}", *features.year), one(Columns::kAge)});
  if (columns[Columns::kDeck] != 0)
    factors.push_back({fmt::format("{:g} in deck", *features.deck_in), one(Columns::kDeck)});
  if (features.grade)
    factors.push_back({std::string{word(*features.grade)},
                       std::exp(part(Columns::kLooksFrom, Columns::kLooksFrom + kLooks.size()))});
  if (const double make = part(Columns::kMakes, columns.size()); make != 0)
    factors.push_back({features.make, std::exp(make)});
  if (features.as == SoldAs::running)
    factors.push_back({"the time of the year",
                       std::exp(season_of(model, features) + part(Columns::kMonth, Columns::kLooksFrom))});
  return factors;
}

}  // namespace

double AskingPrice::quantile(double p) const {
  return std::exp(log_price.quantile(p));
}

double AskingPrice::chance_of(double price) const {
  return 1 - log_price.probability_below(std::log(price));
}

Result<StudentT> log_price(const PriceModel& model, const Machine& machine, SoldAs as, Date day) {
  const std::optional<KindPrice>& price = kind_price(model, machine.kind, as);
  if (!price)
    return problem(
        fmt::format("Nothing is known of what a machine of the kind \"{}\" fetches.", word(machine.kind)),
        "kind", std::string{word(machine.kind)});
  const Features features = features_of(machine, as, day);
  const StudentT law = predicted(model.fit, columns_of(model, features), price->noise);
  return StudentT{law.location + price->log_median + season_of(model, features), law.scale, law.degrees};
}

Result<AskingPrice> asking_price(const PriceModel& model, const Machine& machine, SoldAs as, Date day) {
  const auto law = log_price(model, machine, as, day);
  if (!law) return tl::unexpected(law.error());
  const Features features = features_of(machine, as, day);
  AskingPrice asked;
  asked.log_price = *law;
  asked.median = std::exp(asked.log_price.location);
  asked.p10 = asked.quantile(kTenth);
  asked.p90 = asked.quantile(1 - kTenth);
  for (const KnownSale& sale : model.sales)
    if (sale.features.kind == features.kind && sale.features.as == as) ++asked.sales;
  asked.all_sales = model.sales.size();
  asked.of_kind = std::exp(kind_price(model, machine.kind, as)->log_median +
                           model.fit.mean[Columns::of_kind(machine.kind, as)]);
  asked.factors = factors_of(model, features);
  asked.nearest = nearest_sales(model, features, kNearest);
  return asked;
}

double as_sellers_write(double price) {
  double noughts = 1;
  while (price / noughts > 10'000)
    noughts *= 10;
  const double size = price / noughts;
  const double step = size <= 20 ? 1 : size <= 500 ? 5 : size <= 1'000 ? 25 : size <= 5'000 ? 50 : 100;
  return std::max(std::round(size / step), 1.0) * step * noughts;
}

}  // namespace secondpull::market
