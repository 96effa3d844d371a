#include "db/rates/published_rates.h"

#include <stdexcept>

#include <nlohmann/json.hpp>

namespace secondpull::db {

extern const char* const
    kUsMileageJson;  // made from resources/rates/us-mileage.json when the program is built

namespace {

// The table is part of the program: one that cannot be read is a bug, and the first test run shows it.
template <class T>
T sound(Result<T> result) {
  if (!result) throw std::logic_error(result.error().sentence);
  return *std::move(result);
}

MileageRates read(const char* json) {
  std::vector<MileageRate> rates;
  const nlohmann::json table = nlohmann::json::parse(json);  // outlives the loop over a part of it
  for (const nlohmann::json& entry : table.at("rates")) {
    // "72.5" cents are read as an amount with one decimal, so that no binary fraction comes in between.
    const Currency tenths{"cents", 1};
    rates.push_back(
        {.from = sound(parse_date(entry.at("from").get<std::string>(), "from")),
         .to = sound(parse_date(entry.at("to").get<std::string>(), "to")),
         .tenths_of_cent_a_mile =
             sound(parse_amount(entry.at("cents_a_mile").get<std::string>(), tenths, "cents_a_mile")).minor(),
         .source = entry.at("source").get<std::string>()});
  }
  return sound(MileageRates::make(std::move(rates)));
}

}  // namespace

const MileageRates& published_mileage_rates() {
  static const MileageRates rates = read(kUsMileageJson);
  return rates;
}

}  // namespace secondpull::db
