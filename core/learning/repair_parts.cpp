#include "core/learning/repair_parts.h"

#include <algorithm>

#include "core/calendar/date.h"
#include "core/learning/units.h"
#include "core/shop/stock_days.h"
#include "core/typed_words.h"

namespace secondpull::learning {
namespace {

/// "carburetor" of "carburetor, side float (new)".
std::string_view kind_of_part(std::string_view name) {
  return trimmed(name.substr(0, name.find_first_of(",;([")));
}

bool is_one_of(std::string_view text, const std::vector<std::string>& words) {
  return std::any_of(words.begin(), words.end(),
                     [&](const std::string& word) { return same_word(word, text); });
}

std::optional<PartsAtHand::Model> model_of(const Machine* machine) {
  if (machine == nullptr || machine->make.empty() || machine->model.empty()) return std::nullopt;
  return PartsAtHand::Model{machine->make, machine->model};
}

void add_parts(PartsAtHand& all, const Shop& shop, const Knowledge& knowledge, Date today) {
  for (const Part& part : shop.all<Part>()) {
    const std::string_view name = trimmed(part.name);
    const std::string_view kind = kind_of_part(name);
    PartsAtHand::Known* known = nullptr;
    for (const Repair& repair : knowledge.repairs) {
      if (!is_one_of(kind, repair.parts_named)) continue;
      all.of_repair[repair.id].push_back(part.id);
      known = &all.known[part.id];
      known->plainly_named = kind == name;
    }
    if (known == nullptr) continue;
    known->in_stock = in_stock_on(shop, part.id, today);
    if (const auto worth = from_shelf(shop, part.id, 1)) known->worth = worth->cost;
    known->replaced = own_prices(shop, part.id).replaced;
    if (part.supplier) known->days = days_to_arrive(shop, part.supplier);
  }
}

void add_orders(PartsAtHand& all, const Shop& shop, Date today) {
  for (const OrderLine& line : shop.all<OrderLine>()) {
    const Order* const order = shop.find(line.order);
    if (order == nullptr || order->opening || !all.known.contains(line.part)) continue;
    if (order->arrived && *order->arrived <= today) continue;
    all.on_order.push_back({.part = line.part,
                            .for_machine = line.for_machine,
                            .ordered = order->date,
                            .arrives = order->arrived,
                            .days = days_to_arrive(shop, order->supplier)});
  }
}

void add_fits(PartsAtHand& all, const Shop& shop, const ByMachine& by_machine) {
  const auto fits = [&](std::optional<MachineId> machine, PartId part) {
    if (!machine || !all.known.contains(part)) return;
    if (const auto model = model_of(by_machine.of(*machine).machine)) all.fits[*model].insert(part);
  };
  for (const Fitted& fitted : shop.all<Fitted>())
    fits(fitted.machine, fitted.part);
  for (const OrderLine& line : shop.all<OrderLine>())
    fits(line.for_machine, line.part);
}

/// The parts for one machine.
class ForMachine {
 public:
  ForMachine(const PartsAtHand& all, const ByMachine::Lines& lines, const Currency& currency, Date today)
      : all_{all}, lines_{lines}, currency_{currency}, today_{today} {
    if (const auto model = model_of(lines.machine))
      if (const auto fits = all.fits.find(*model); fits != all.fits.end()) fits_model_ = &fits->second;
  }

  RepairPart of(const Repair& repair) const {
    const std::vector<PartId> parts = that_fit(repair);
    const auto in_stock = std::find_if(parts.begin(), parts.end(),
                                       [&](PartId part) { return all_.known.at(part).in_stock > 0; });
    if (in_stock != parts.end())
      return {repair.id, ComesFrom::shelf, *in_stock, {given_away(*in_stock, repair), 0}};
    for (const PartId part : parts)
      if (const auto days = days_left(part, repair))
        return {repair.id, ComesFrom::ordered, part, {given_away(part, repair), *days}};
    // A part that nobody sends for is bought over the counter, however long orders take.
    const double days = repair.days > 0 ? all_.days.value_or(repair.days) : 0;
    if (parts.empty()) return {repair.id, ComesFrom::to_order, std::nullopt, {typical_cost(repair), days}};
    const PartsAtHand::Known& known = all_.known.at(parts.front());
    return {repair.id,
            ComesFrom::to_order,
            parts.front(),
            {known.replaced.value_or(typical_cost(repair)), known.days.value_or(days)}};
  }

 private:
  enum class Sure { this_machine, this_model, by_name, no };

  Sure how_sure(PartId part) const {
    if (std::any_of(lines_.ordered.begin(), lines_.ordered.end(),
                    [&](const OrderLine* line) { return line->part == part; }))
      return Sure::this_machine;
    if (fits_model_ != nullptr && fits_model_->contains(part)) return Sure::this_model;
    return all_.known.at(part).plainly_named ? Sure::by_name : Sure::no;
  }

  /// Those that are known to fit, the surest first.
  std::vector<PartId> that_fit(const Repair& repair) const {
    const auto named = all_.of_repair.find(repair.id);
    if (named == all_.of_repair.end()) return {};
    std::vector<PartId> parts = named->second;
    std::erase_if(parts, [&](PartId part) { return how_sure(part) == Sure::no; });
    std::stable_sort(parts.begin(), parts.end(),
                     [&](PartId a, PartId b) { return how_sure(a) < how_sure(b); });
    return parts;
  }

  /// Until the first piece arrives that is on order for this machine or for none.
  std::optional<double> days_left(PartId part, const Repair& repair) const {
    std::optional<double> soonest;
    for (const PartsAtHand::OnOrder& line : all_.on_order) {
      if (line.part != part || (line.for_machine && *line.for_machine != lines_.machine->id)) continue;
      const double left = line.arrives ? days_between(today_, *line.arrives)
                                       : line.days.value_or(repair.days) - days_between(line.ordered, today_);
      soonest = std::min(soonest.value_or(left), left);
    }
    if (soonest) soonest = std::max(*soonest, 0.0);
    return soonest;
  }

  double typical_cost(const Repair& repair) const { return in_units(repair.parts.typical, currency_); }
  double given_away(PartId part, const Repair& repair) const {
    return all_.known.at(part).worth.value_or(typical_cost(repair));
  }

  const PartsAtHand& all_;
  const ByMachine::Lines& lines_;
  const Currency& currency_;
  Date today_;
  const std::set<PartId>* fits_model_ = nullptr;
};

}  // namespace

PartsAtHand parts_at_hand(const Shop& shop, const ByMachine& by_machine, const Knowledge& knowledge,
                          Date today) {
  PartsAtHand all;
  add_parts(all, shop, knowledge, today);
  add_orders(all, shop, today);
  add_fits(all, shop, by_machine);
  all.days = days_to_arrive(shop, std::nullopt);
  return all;
}

std::vector<RepairPart> repair_parts(const PartsAtHand& at_hand, const ByMachine::Lines& lines,
                                     const Knowledge& knowledge, const Currency& currency, Date today) {
  std::vector<RepairPart> parts;
  if (lines.machine == nullptr) return parts;
  const ForMachine for_machine{at_hand, lines, currency, today};
  for (const Repair& repair : knowledge.repairs)
    if (!repair.parts_named.empty() && fits(repair.kinds, lines.machine->kind))
      parts.push_back(for_machine.of(repair));
  return parts;
}

}  // namespace secondpull::learning
