#include "app/cli/books_json.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace secondpull::cli {
namespace {

using Json = nlohmann::ordered_json;

Json object_of(const YearFigures& year, const Currency& currency) {
  const auto money = [&](Money amount) { return plain(amount, currency); };
  const auto money_or_null = [&](const std::optional<Money>& amount) {
    return amount ? Json(money(*amount)) : Json(nullptr);
  };
  const auto by_name = [&](const ByName& amounts) {
    Json object = Json::object();
    for (const auto& [name, amount] : amounts)
      object[name] = money(amount);
    return object;
  };
  const Money off = year.off();
  return {{"year", year.year},
          {"currency", currency.code},
          {"gross_receipts", money(year.gross_receipts)},
          {"returns", money(year.returns)},
          {"opening_inventory", money(year.opening_inventory)},
          {"purchases", money(year.purchases)},
          {"withdrawals", money(year.withdrawals)},
          {"materials", money(year.materials)},
          {"other_costs", money(year.other_costs)},
          {"closing_inventory", money(year.closing_inventory)},
          {"cost_of_goods_sold", money(year.cost_of_goods_sold)},
          {"gross_profit", money(year.gross_profit)},
          {"expenses", by_name(year.expenses)},
          {"car_and_truck", money(year.car_and_truck)},
          {"net_profit", money(year.net_profit)},
          {"self_employment_tax", money_or_null(year.self_employment_tax)},
          {"sales_tax_collected", by_name(year.sales_tax_collected)},
          {"sales_tax_owed", by_name(year.sales_tax_owed)},
          {"miles", size_text(YearWhy::Unit::tenths_of_mile, year.miles.count, currency)},
          {"machines_sold", year.machines_sold},
          {"hours", decimal_hours(year.minutes)},
          {"pay_per_hour", money_or_null(year.pay_per_hour)},
          {"identity", off.is_zero() ? "holds" : money(off)}};
}

}  // namespace

std::string size_text(YearWhy::Unit unit, std::int64_t size, const Currency& currency) {
  switch (unit) {
    case YearWhy::Unit::money:
      return plain(Money::from_minor(size), currency);
    case YearWhy::Unit::minutes:
      return decimal_hours(Minutes{size});
    case YearWhy::Unit::tenths_of_mile:
      return fmt::format("{}.{}", size / 10, size % 10);
    case YearWhy::Unit::machines:
      return std::to_string(size);
  }
  return {};
}

std::string books_json(const YearFigures& figures, const Currency& currency) {
  return object_of(figures, currency).dump(1) + "\n";
}

std::string explained_json(const YearFigures& figures, const std::vector<std::pair<YearSize, YearWhy>>& whys,
                           const Currency& currency) {
  Json explained = Json::array();
  for (const auto& [figure, why] : whys) {
    Json details = Json::array();
    for (const YearDetail& detail : why.details)
      details.push_back(
          {{"date", iso(detail.date)},
           {"what", detail.what},
           {"size", size_text(detail.line == YearLine::hours ? YearWhy::Unit::minutes : why.unit, detail.size,
                              currency)}});
    explained.push_back({{"figure", word(figure.line)},
                         {"name", figure.name},
                         {"size", size_text(why.unit, why.size, currency)},
                         {"how", why.how},
                         {"adds_up", why.adds_up},
                         {"details", details}});
  }
  Json object = object_of(figures, currency);
  object["explained"] = explained;
  return object.dump(1) + "\n";
}

}  // namespace secondpull::cli
