#include "core/shop/rules.h"

#include <algorithm>
#include <utility>

#include "core/shop/rule_breaks.h"

namespace secondpull {

namespace {

std::vector<RuleBreak> sorted(const Shop& shop, RuleBreaks breaks) {
  struct Place {
    std::size_t table = 0;
    std::int64_t entered = 0;
    std::size_t index = 0;
    auto operator<=>(const Place&) const = default;
  };
  std::vector<Place> places;
  for (std::size_t i = 0; i < breaks.all().size(); ++i) {
    const AnyId& record = breaks.all()[i].record;
    const std::int64_t entered = std::visit([&](auto id) { return shop.find(id)->entered; }, record);
    places.push_back({record.index(), entered, i});
  }
  std::sort(places.begin(), places.end());
  std::vector<RuleBreak> in_order;
  in_order.reserve(places.size());
  for (const Place& place : places)
    in_order.push_back(std::move(breaks.all()[place.index]));
  return in_order;
}

}  // namespace

std::vector<RuleBreak> broken_rules(const Shop& shop) {
  RuleBreaks breaks;
  check_cells(shop, breaks);
  check_identifiers(shop, breaks);
  check_references(shop, breaks);
  check_order_of_days(shop, breaks);
  check_disposals(shop, breaks);
  check_donors(shop, breaks);
  check_stock_and_lots(shop, breaks);
  return sorted(shop, std::move(breaks));
}

std::vector<RuleBreak> broken_by_one_record(const Shop& shop) {
  RuleBreaks breaks;
  check_cells(shop, breaks);
  check_disposals(shop, breaks);
  return sorted(shop, std::move(breaks));
}

}  // namespace secondpull
