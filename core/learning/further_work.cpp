#include "core/learning/further_work.h"

#include <algorithm>
#include <optional>

#include "core/learning/shrink.h"
#include "core/learning/supply.h"
#include "core/learning/tries.h"
#include "core/learning/units.h"

namespace secondpull::learning {
namespace {

using diagnosis::KnownWork;

std::optional<Date> first_sold_running(const ByMachine::Lines& lines) {
  const auto sale = std::find_if(lines.sales.begin(), lines.sales.end(),
                                 [](const Sale* each) { return each->sold_as == SoldAs::running; });
  return sale == lines.sales.end() ? std::nullopt : std::optional{(*sale)->date};
}

double cost_of(const Fitted& fitted, const Shop& shop) {
  return static_cast<double>(fitted.quantity) * own_prices(shop, fitted.part).replaced.value_or(0);
}

/// What one fault took, up to the sale.
KnownWork work_on(const Fault& fault, const ByMachine::Lines& lines, Date sold, const Shop& shop) {
  const Currency& currency = shop.settings.currency;
  KnownWork work;
  for (const Finding* finding : findings_of(lines, fault)) {
    if (finding->date > sold) continue;
    work.cost += in_units(finding->cost, currency);
    if (finding->minutes) work.minutes += static_cast<double>(finding->minutes->count);
  }
  if (fault.how == FaultEnd::mistaken) return {.minutes = work.minutes};
  const auto used_on_it = [&](Date day) { return day <= sold && only_open(lines, fault, day); };
  for (const Fitted* fitted : lines.fitted)
    if (used_on_it(fitted->date)) work.cost += cost_of(*fitted, shop);
  for (const Material* material : lines.materials)
    if (used_on_it(material->date)) work.cost += in_units(material->cost, currency);
  return work;
}

}  // namespace

std::vector<KnownWork> further_work(const ByMachine& by_machine, const Shop& shop) {
  std::vector<KnownWork> rows;
  for (const Machine& machine : shop.all<Machine>()) {
    const ByMachine::Lines& lines = by_machine.of(machine.id);
    const std::optional<Date> sold = first_sold_running(lines);
    if (!sold || lines.faults.empty()) continue;
    KnownWork all;
    for (const Fault* fault : lines.faults) {
      if (fault->date <= lines.faults.front()->date || fault->date > *sold) continue;
      const KnownWork work = work_on(*fault, lines, *sold, shop);
      all.cost += work.cost;
      all.minutes += work.minutes;
    }
    rows.push_back(all);
  }
  return rows;
}

KnownWork usual_further_work(const KnownWork& believed, const std::vector<KnownWork>& own,
                             const Currency& currency) {
  std::vector<double> costs, minutes;
  for (const KnownWork& work : own) {
    costs.push_back(work.cost);
    minutes.push_back(work.minutes);
  }
  return {.cost = to_the_cent(shrunk_mean(about(believed.cost), costs), currency),
          .minutes = shrunk_mean(about(believed.minutes), minutes)};
}

}  // namespace secondpull::learning
