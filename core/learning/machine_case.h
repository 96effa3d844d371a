#pragma once

#include <optional>
#include <vector>

#include "core/learning/case_maker.h"
#include "core/learning/own_sales.h"

namespace secondpull::learning {

/// What a shop's record teaches the planner, worked out once for all its machines.
struct Learned {
  Tallies tallies;
  std::vector<OwnSale> sales;
  std::vector<diagnosis::KnownWork> further_work;  ///< a row for each machine sold running
};
Learned learned_from(const ByMachine& by_machine, const Shop& shop, const Knowledge& knowledge, Date today);

/// What the owner says, or what was worked out for all machines. In whole units of the currency.
struct Terms {
  double hour_value = 0;
  double day_cost = 0;
  diagnosis::Sunk sunk;  ///< what the machine has cost so far
};

/// A machine's question and the case it makes.
struct MachineCase {
  std::optional<FaultId> fault;  ///< absent: none was opened yet, it is asked about what it came with
  Question question;
  diagnosis::Case of;
};

/// The case of a machine that is here: of its latest open fault, or of the symptom that it came with as long
/// as no fault was ever opened. Price, comeback and the work that such machines usually need besides are the
/// shop's own drawn towards the knowledge base's; it may be sold as it is, parted out or scrapped instead
/// (see stops_of, machine_stops.h). Problems: an unknown machine ("machine"), one that has gone ("machine"),
/// no open fault ("fault"), a kind of which the knowledge base has no figures ("kind"), and those of
/// question_about and make_case.
Result<MachineCase> case_of_machine(const Shop& shop, const ByMachine& by_machine, MachineId machine,
                                    const Knowledge& knowledge, const Learned& learned, const Terms& terms);

}  // namespace secondpull::learning
