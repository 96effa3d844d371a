#include "core/books/figures.h"

#include "core/books/earned.h"

namespace secondpull::bookkeeping {

LineGroup group_of(LineKind line) {
  switch (line) {
    case LineKind::acquisition:
    case LineKind::pickup:
    case LineKind::part:
    case LineKind::material:
    case LineKind::outside_work:
    case LineKind::donor_share:
    case LineKind::gift:
    case LineKind::cost_after:
      return LineGroup::cost;
    case LineKind::price:
    case LineKind::fee:
    case LineKind::delivery:
    case LineKind::refund:
    case LineKind::allowance:
    case LineKind::scrap:
      return LineGroup::proceeds;
    case LineKind::trip:
    case LineKind::overhead:
      return LineGroup::running;
  }
  return LineGroup::cost;
}

std::vector<MachineSums> sum_up(std::size_t machines, const Ledger& ledger,
                                std::span<const OverheadShare> overheads, std::span<const YearOfWork> work) {
  std::vector<MachineSums> sums(machines);
  for (const Ledger::Entry& entry : ledger.entries()) {
    if (!entry.line) continue;
    MachineSums& machine = sums[entry.machine];
    switch (group_of(*entry.line)) {
      case LineGroup::cost:
        machine.cost_basis += entry.amount;
        break;
      case LineGroup::proceeds:
        machine.net_proceeds -= entry.amount;
        break;
      case LineGroup::running:
        machine.running_costs += entry.amount;
        break;
    }
  }
  for (const OverheadShare& share : overheads)
    sums[share.machine].running_costs += share.amount;
  for (const YearOfWork& year : work)
    sums[year.machine].minutes += year.minutes;
  return sums;
}

void work_out_profit(MachineFigures& figures) {
  if (!figures.net_proceeds) return;
  figures.gross_profit = *figures.net_proceeds - figures.cost_basis;
  figures.profit = *figures.gross_profit - figures.running_costs;
  figures.pay_per_hour = per_hour(*figures.profit, figures.minutes);
}

MachineFigures figures_of(const MachineSums& sums, const MachineAccount& account,
                          const ByMachine::Lines& lines) {
  MachineFigures figures;
  figures.machine = lines.machine->id;
  figures.stage = stage_of(lines);
  figures.acquired = lines.acquisition->date;
  if (account.sold != nullptr) figures.sold = account.sold->date;
  figures.cost_basis = sums.cost_basis;
  if (account.stands == AccountKind::cost_of_goods) figures.net_proceeds = sums.net_proceeds;
  figures.running_costs = sums.running_costs;
  figures.minutes = sums.minutes;
  if (account.left) figures.days_held = days_between(figures.acquired, *account.left);
  if (account.sold != nullptr) figures.days_for_sale = account.listed_for_days;
  work_out_profit(figures);
  return figures;
}

}  // namespace secondpull::bookkeeping

namespace secondpull {

namespace {

constexpr std::int64_t kMinutesAnHour = 60;

}  // namespace

Money after_wages(Money profit, Minutes minutes, Money hour_value) {
  return profit - scale(hour_value, minutes.count, kMinutesAnHour);
}

}  // namespace secondpull
