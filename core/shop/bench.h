#pragma once

#include <optional>
#include <string>

#include "core/result.h"
#include "core/shop/change.h"
#include "core/shop/intake.h"

namespace secondpull {

Result<Change> open_fault(const Shop& shop, MachineId machine, Date date, const std::string& symptom,
                          const std::string& cause, const std::string& note);
Result<Change> end_fault(const Shop& shop, FaultId fault, Date date, FaultEnd how, const std::string& cause);

struct NewFinding {
  MachineId machine{};
  Date date{};
  std::string step;
  std::string outcome;
  std::optional<FaultId> fault;
  std::optional<Minutes> minutes;  ///< serves the learning
  std::optional<Minutes> labour;   ///< logged as own hours in the same action
  Work work = Work::diagnose;
  Money cost;
  std::string reading, unit, note;
};
Result<Change> record_finding(const Shop& shop, const NewFinding& finding);

Result<Change> log_labour(const Shop& shop, std::optional<MachineId> machine, Date date, Minutes minutes,
                          Work work, const std::string& note);

/// A part named on a form: known, or one to be added with the same action.
struct PartChoice {
  std::optional<PartId> known;
  std::string new_name;
  std::string new_number;
};
/// Fits pieces that are in stock, first in, first out or from the receipt pointed at.
Result<Change> fit_part(const Shop& shop, MachineId machine, Date date, PartId part, std::int64_t quantity,
                        std::optional<OrderId> from_order, std::optional<MachineId> from_donor);
/// Takes in a part that the shelf has not but the hand has, at what it cost (0 unless known), and fits it:
/// one action. It comes in as an order without a supplier that arrived on that day.
Result<Change> fit_found_part(const Shop& shop, MachineId machine, Date date, const PartChoice& part,
                              std::int64_t quantity, Money cost_each);
Result<Change> write_off_part(const Shop& shop, Date date, PartId part, std::int64_t quantity);
Result<Change> add_material(const Shop& shop, MachineId machine, Date date, const std::string& what,
                            Money cost);
/// Where a machine stands, said by the owner: on the bench, waiting on parts, test run, in the yard (absent).
Result<Change> set_stage(const Shop& shop, MachineId machine, std::optional<Stage> stage);
/// Adds a photo whose content is in the store already.
Result<Change> add_photo(const Shop& shop, const Photo& photo);

/// Removes one line typed by mistake (labour, finding, fitted part, material...); the title says what it was.
Result<Change> remove_line(const Shop& shop, const AnyId& line);
/// Puts a changed line in the place of the one with its id; the title says what it is.
Result<Change> replace_line(const Shop& shop, const AnyRecord& line);

}  // namespace secondpull
