#include "core/market/price_columns.h"

#include <algorithm>
#include <cmath>

#include "core/learning/season.h"
#include "core/typed_words.h"

namespace secondpull::market {
namespace {

using std::chrono::day;
using std::chrono::months;

/// The width of cut that such machines mostly have, in inches; 0: the width says nothing of the price. Common
/// practice, no source.
double usual_deck(MachineKind kind) {
  switch (kind) {
    case MachineKind::push:
    case MachineKind::self_propelled:
      return 21;
    case MachineKind::lawn_tractor:
      return 42;
    case MachineKind::zero_turn:
      return 50;
    case MachineKind::trimmer:
    case MachineKind::blower:
    case MachineKind::other:
      return 0;
  }
  return 0;
}

/// The months between whose 15ths the day lies, each with the weight that it has.
void write_months(Date date, std::vector<double>& columns) {
  constexpr day kMiddle{15};
  const auto month = date.year() / date.month();
  const auto first = date.day() >= kMiddle ? month : month - months{1};
  const auto next = first + months{1};
  const double share = static_cast<double>(days_between(first / kMiddle, date)) /
                       days_between(first / kMiddle, next / kMiddle);
  const auto column = [](auto of) { return Columns::kMonth + static_cast<unsigned>(of.month()) - 1; };
  columns[column(first)] = 1 - share;
  columns[column(next)] = share;
}

}  // namespace

std::vector<double> columns_of(const PriceModel& model, const Features& features) {
  std::vector<double> columns(Columns::kMakes + model.makes.size(), 0.0);
  columns[Columns::of_kind(features.kind, features.as)] = 1;
  if (features.age) columns[Columns::kAge] = *features.age - kUsualAge;
  if (const double usual = usual_deck(features.kind); features.deck_in && usual > 0)
    columns[Columns::kDeck] = std::log(*features.deck_in / usual);
  if (features.as == SoldAs::running) write_months(features.date, columns);
  if (features.grade) columns[Columns::kLooksFrom + static_cast<std::size_t>(*features.grade)] = 1;
  const auto make = std::find_if(model.makes.begin(), model.makes.end(),
                                 [&](const std::string& known) { return same_word(known, features.make); });
  if (make != model.makes.end())
    columns[Columns::kMakes + static_cast<std::size_t>(make - model.makes.begin())] = 1;
  return columns;
}

double season_of(const PriceModel& model, const Features& features) {
  return features.as == SoldAs::running ? std::log(learning::price_level(model.season, features.date)) : 0;
}

}  // namespace secondpull::market
