#pragma once

#include <span>
#include <vector>

#include "core/books/machine_account.h"
#include "core/books/overheads.h"

namespace secondpull::bookkeeping {

/// What a line is counted with.
enum class LineGroup { cost, proceeds, running };
LineGroup group_of(LineKind line);

/// Sums over a machine's lines.
struct MachineSums {
  Money cost_basis;
  Money net_proceeds;  ///< so far: over sales that were taken back too
  Money running_costs;
  Minutes minutes;
};

/// The sums of each machine, by place.
std::vector<MachineSums> sum_up(std::size_t machines, const Ledger& ledger,
                                std::span<const OverheadShare> overheads, std::span<const YearOfWork> work);

/// The figures of a machine: `sums` as the state of its account allows them to be told.
MachineFigures figures_of(const MachineSums& sums, const MachineAccount& account,
                          const ByMachine::Lines& lines);

/// Fills in gross profit, profit and pay per hour from net proceeds, cost basis and running costs.
void work_out_profit(MachineFigures& figures);

}  // namespace secondpull::bookkeeping
