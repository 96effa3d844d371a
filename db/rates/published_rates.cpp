#include "db/rates/published_rates.h"

#include <stdexcept>

#include <nlohmann/json.hpp>

namespace secondpull::db {

// Made from the files of resources/rates when the program is built.
extern const char* const kUsMileageJson;
extern const char* const kUsSelfEmploymentJson;
extern const char* const kUsScheduleCJson;

namespace {

// The table is part of the program: one that cannot be read is a bug, and the first test run shows it.
template <class T>
T sound(Result<T> result) {
  if (!result) throw std::logic_error(result.error().sentence);
  return *std::move(result);
}

MileageRates read_mileage(const char* json) {
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

SelfEmploymentRates read_self_employment(const char* json) {
  std::map<int, WageBase> bases;
  const nlohmann::json table = nlohmann::json::parse(json);
  for (const nlohmann::json& entry : table.at("wage_bases"))
    bases[entry.at("year").get<int>()] = {
        .amount = sound(parse_amount(entry.at("amount").get<std::string>(), Currency{}, "amount")),
        .source = entry.at("source").get<std::string>(),
        .sure = entry.at("sure").get<std::string>()};
  return SelfEmploymentRates{std::move(bases)};
}

FormLines read_form_lines(const char* json) {
  const nlohmann::json table = nlohmann::json::parse(json);
  std::vector<FormOfYears> forms;
  for (const nlohmann::json& entry : table.at("forms")) {
    FormOfYears& form = forms.emplace_back();
    form.from = entry.at("from").get<int>();
    form.to = entry.at("to").get<int>();
    form.source = entry.at("source").get<std::string>();
    form.sure = entry.at("sure").get<std::string>();
    // What moved in these years stands with them; everything else is the same in all.
    for (const nlohmann::json& line : table.at("lines")) {
      const auto key = line.at("key").get<std::string>();
      const std::string number = entry.at("moved").value(key, line.at("number").get<std::string>());
      form.lines.push_back({number, line.at("what").get<std::string>(), key,
                            line.at("part").get<std::string>(),
                            line.value("categories", std::vector<std::string>{})});
    }
  }
  return FormLines{std::move(forms)};
}

}  // namespace

const MileageRates& published_mileage_rates() {
  static const MileageRates rates = read_mileage(kUsMileageJson);
  return rates;
}

const SelfEmploymentRates& published_self_employment_rates() {
  static const SelfEmploymentRates rates = read_self_employment(kUsSelfEmploymentJson);
  return rates;
}

const FormLines& published_form_lines() {
  static const FormLines lines = read_form_lines(kUsScheduleCJson);
  return lines;
}

}  // namespace secondpull::db
