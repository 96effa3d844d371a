#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numeric>

#include <fmt/format.h>

#include "core/market/price_columns.h"
#include "core/typed_words.h"

namespace secondpull::market {
namespace {

// How far two machines lie apart: the root of the sum of squares of these. Common practice, no source.
constexpr double kYearsOfOne = 5;     // so many years of age count as 1
constexpr double kDeckOfOne = 0.15;   // the logarithm of the decks' ratio that does
constexpr double kOneUnknown = 0.5;   // known of one machine alone
constexpr double kGradesOfOne = 1.5;  // steps of looks
constexpr double kDaysOfOne = 90;     // of the calendar, the years apart
constexpr double kAgoOfOne = 3;       // years since the sale

constexpr double kDaysOfYear = 365.25;
// Common practice, no source: both.
constexpr int kSaidDays = 45;       // days of the calendar from which the month is said
constexpr double kSaidYears = 1.5;  // years since the sale from which they are said

template <class Value, class Apart>
double apart(const std::optional<Value>& a, const std::optional<Value>& b, Apart between) {
  if (a && b) return std::abs(between(*a, *b));
  return a || b ? kOneUnknown : 0;
}

double make_apart(const std::string& a, const std::string& b) {
  if (a.empty() != b.empty()) return kOneUnknown;
  return same_word(a, b) ? 0 : 1;
}

/// Days of the calendar between them, the shorter way round the year.
double calendar_apart(Date a, Date b) {
  const double days = std::fmod(std::abs(days_between(a, b)), kDaysOfYear);
  return std::min(days, kDaysOfYear - days);
}

double distance(const Features& a, const Features& b) {
  const double age = apart(a.age, b.age, [](double x, double y) { return (x - y) / kYearsOfOne; });
  const double deck =
      apart(a.deck_in, b.deck_in, [](double x, double y) { return std::log(x / y) / kDeckOfOne; });
  const double looks = apart(a.grade, b.grade, [](Grade x, Grade y) {
    return (static_cast<int>(x) - static_cast<int>(y)) / kGradesOfOne;
  });
  const double season = a.as == SoldAs::running ? calendar_apart(a.date, b.date) / kDaysOfOne : 0;
  const double ago = std::abs(days_between(a.date, b.date)) / kDaysOfYear / kAgoOfOne;
  const double make = make_apart(a.make, b.make);
  return std::sqrt(age * age + deck * deck + looks * looks + season * season + ago * ago + make * make);
}

std::string months_name(Date date) {
  static constexpr std::array<std::string_view, 12> kNames{"January",   "February", "March",    "April",
                                                           "May",       "June",     "July",     "August",
                                                           "September", "October",  "November", "December"};
  return std::string{kNames[static_cast<unsigned>(date.month()) - 1]};
}

/// In what the machine sold is other than the one in question.
std::vector<std::string> differences(const Features& sold, const Features& here) {
  std::vector<std::string> said;
  if (sold.age && here.age && *sold.age != *here.age) {
    const double years = std::abs(*sold.age - *here.age);
    said.push_back(fmt::format("{:g} {} {}", years, years == 1 ? "year" : "years",
                               *sold.age > *here.age ? "older" : "younger"));
  } else if (here.age && !sold.age) {
    said.push_back("of unknown age");
  }
  if (sold.deck_in && here.deck_in && *sold.deck_in != *here.deck_in)
    said.push_back(fmt::format("{:g} in deck", *sold.deck_in));
  if (!sold.make.empty() && !same_word(sold.make, here.make)) said.push_back(sold.make);
  if (sold.grade && sold.grade != here.grade) said.push_back(std::string{word(*sold.grade)});
  if (sold.as == SoldAs::running && calendar_apart(sold.date, here.date) > kSaidDays)
    said.push_back("sold in " + months_name(sold.date));
  if (const double years = days_between(sold.date, here.date) / kDaysOfYear; years > kSaidYears)
    said.push_back(fmt::format("sold {:.0f} years ago", years));
  return said;
}

}  // namespace

std::vector<NearSale> nearest_sales(const PriceModel& model, const Features& features, std::size_t count) {
  const std::vector<double>& law = model.fit.mean;
  const auto logarithm = [&](const Features& of) {
    const std::vector<double> columns = columns_of(model, of);
    return std::inner_product(columns.begin(), columns.end(), law.begin(), season_of(model, of));
  };
  const double here = logarithm(features);
  std::vector<NearSale> near;
  for (const KnownSale& sale : model.sales)
    if (sale.features.kind == features.kind && sale.features.as == features.as)
      near.push_back({.sale = sale.sale,
                      .machine = sale.machine,
                      .price = sale.price,
                      .date = sale.features.date,
                      .distance = distance(sale.features, features),
                      .here = sale.price * std::exp(here - logarithm(sale.features)),
                      .differs = differences(sale.features, features)});
  std::stable_sort(near.begin(), near.end(), [](const NearSale& a, const NearSale& b) {
    return a.distance != b.distance ? a.distance < b.distance : a.date > b.date;
  });
  if (near.size() > count) near.erase(near.begin() + static_cast<std::ptrdiff_t>(count), near.end());
  return near;
}

}  // namespace secondpull::market
