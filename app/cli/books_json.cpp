#include "app/cli/books_json.h"

#include <nlohmann/json.hpp>

#include "core/books/event_name.h"

namespace secondpull::cli {
namespace {

using Json = nlohmann::ordered_json;

Json object_of(const YearFigures& year, const Currency& currency) {
  const auto money = [&](Money amount) { return plain(amount, currency); };
  const auto money_or_null = [&](const std::optional<Money>& amount) {
    return amount ? Json(money(*amount)) : Json(nullptr);
  };
  const auto by_name = [&](const ByName& amounts) {
    Json::object_t object;  // a vector of pairs: the names are unique already, and looking them up is slow
    for (const auto& [name, amount] : amounts)
      object.emplace_back(name, money(amount));
    return Json(std::move(object));
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
          {"miles", size_text(YearUnit::tenths_of_mile, year.miles.count, currency)},
          {"machines_sold", year.machines_sold},
          {"hours", decimal_hours(year.minutes)},
          {"pay_per_hour", money_or_null(year.pay_per_hour)},
          {"identity", off.is_zero() ? "holds" : money(off)}};
}

}  // namespace

std::string part_text(const YearDetail& detail, const Currency& currency) {
  return detail.unit == YearUnit::minutes ? shown(Minutes{detail.size})
                                          : size_text(detail.unit, detail.size, currency);
}

std::string books_json(const YearFigures& figures, const Currency& currency) {
  return object_of(figures, currency).dump(1) + "\n";
}

std::string explained_json(const Shop& shop, const YearFigures& figures,
                           const std::vector<std::pair<YearSize, YearWhy>>& whys) {
  const Currency& currency = shop.settings.currency;
  Json explained = Json::array();
  for (const auto& [figure, why] : whys) {
    Json details = Json::array();
    for (const YearDetail& detail : why.details) {
      Json one;
      if (detail.line)
        one["figure"] = word(*detail.line);
      else
        one["date"] = iso(detail.date);
      if (detail.event) one["event"] = event_name(shop, *detail.event);
      one["what"] = detail.what;
      one["size"] = part_text(detail, currency);
      details.push_back(std::move(one));
    }
    explained.push_back({{"figure", word(figure.line)},
                         {"name", figure.name},
                         {"size", why.given ? Json(size_text(why.unit, why.size, currency)) : Json(nullptr)},
                         {"how", why.how},
                         {"adds_up", why.adds_up},
                         {"details", std::move(details)}});
  }
  Json object = object_of(figures, currency);
  object["explained"] = std::move(explained);
  return object.dump(1) + "\n";
}

}  // namespace secondpull::cli
