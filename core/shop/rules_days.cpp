#include <unordered_map>

#include <fmt/format.h>

#include "core/shop/describe.h"
#include "core/shop/rule_breaks.h"
#include "core/shop/stage.h"
#include "core/shop/turns.h"

namespace secondpull {
namespace {

/// The day each machine came in, looked up for every line of it.
class DaysOfComing {
 public:
  explicit DaysOfComing(const Shop& shop) {
    days_.reserve(shop.all<Machine>().size());
    for (const Machine& machine : shop.all<Machine>())
      if (const Acquisition* const acquisition = shop.find(machine.acquisition))
        days_.emplace(machine.id, acquisition->date);
  }
  std::optional<Date> of(MachineId machine) const {
    const auto at = days_.find(machine);
    return at == days_.end() ? std::nullopt : std::optional{at->second};
  }

 private:
  std::unordered_map<MachineId, Date> days_;
};

/// A line of a machine or an acquisition, dated before it came in.
class TooEarly {
 public:
  TooEarly(const Shop& shop, const DaysOfComing& came, RuleBreaks& breaks)
      : shop_{shop}, came_{came}, breaks_{breaks} {}

  template <class Record>
  void lines() const {
    for (const Record& record : shop_.all<Record>()) {
      const std::optional<MachineId> machine = record.machine;
      const auto came = machine ? came_.of(*machine) : std::nullopt;
      if (came && record.date < *came) tell(record, called(shop_, *machine), *came);
    }
  }
  /// Those that may be of a whole acquisition.
  template <class Record>
  void lines_of_lots() const {
    lines<Record>();
    for (const Record& record : shop_.all<Record>()) {
      const Acquisition* const lot = record.acquisition ? shop_.find(*record.acquisition) : nullptr;
      if (lot != nullptr && !record.machine && record.date < lot->date)
        tell(record, "acquisition " + lot->code, lot->date);
    }
  }

 private:
  template <class Record>
  void tell(const Record& record, const std::string& what, Date came) const {
    breaks_.add(record.id, "date", iso(record.date),
                fmt::format("The date {} is before {} came in ({}).", iso(record.date), what, iso(came)));
  }

  const Shop& shop_;
  const DaysOfComing& came_;
  RuleBreaks& breaks_;
};

std::string out_of_turn(const Shop& shop, const Turn& turn, Date came) {
  const std::string what = called(shop, turn.machine);
  const std::string day = iso(turn.date);
  if (turn.date < came) return fmt::format("The date {} is before {} came in ({}).", day, what, iso(came));
  switch (turn.kind) {
    case TurnKind::sale:
      return fmt::format("{} cannot be sold on {}: it is not here on that day.", what, day);
    case TurnKind::comeback:
      return fmt::format("{} cannot be brought back on {}: it is not sold on that day.", what, day);
    case TurnKind::disposal:
      return fmt::format("{} cannot go on {}: it is not here on that day.", what, day);
  }
  return {};
}

void check_turns(const Shop& shop, const Turns& turns, const DaysOfComing& days, RuleBreaks& breaks) {
  for (const Machine& machine : shop.all<Machine>()) {
    const auto came = days.of(machine.id);
    if (!came) continue;
    for (const Turn& turn : turns.out_of_turn(machine, *came))
      std::visit([&](auto id) { breaks.add(id, "date", iso(turn.date), out_of_turn(shop, turn, *came)); },
                 turn.record);
  }
}

void check_harvest(const Shop& shop, const Turns& turns, const DaysOfComing& days, RuleBreaks& breaks) {
  for (const Harvest& line : shop.all<Harvest>()) {
    const auto came = days.of(line.donor);
    if (came && !turns.here_or_parted_on(line.donor, *came, line.date))
      breaks.add(line.id, "date", iso(line.date),
                 fmt::format("{} was not here on {}: nothing can be taken from it.", called(shop, line.donor),
                             iso(line.date)));
  }
}

void check_allowances(const Shop& shop, const Turns& turns, RuleBreaks& breaks) {
  for (const Allowance& allowance : shop.all<Allowance>())
    if (shop.find(allowance.machine) != nullptr && !turns.sold_at_end_of(allowance.machine, allowance.date))
      breaks.add(allowance.id, "date", iso(allowance.date),
                 fmt::format("{} is not sold at the end of {}: an allowance goes to its buyer.",
                             called(shop, allowance.machine), iso(allowance.date)));
}

/// Here, or how it is gone.
std::optional<Stage> gone_as(const Shop& shop, const Turns& turns, MachineId machine) {
  const auto gone = turns.gone_by(machine);
  if (!gone) return std::nullopt;
  const auto* const id = std::get_if<DisposalId>(&gone->record);
  if (id == nullptr) return Stage::sold;
  switch (shop.find(*id)->how) {
    case DisposalKind::scrapped:
      return Stage::scrapped;
    case DisposalKind::parted_out:
      return Stage::parted_out;
    case DisposalKind::kept:
      return Stage::kept;
  }
  return std::nullopt;
}

void check_stages(const Shop& shop, const Turns& turns, RuleBreaks& breaks) {
  for (const Machine& machine : shop.all<Machine>()) {
    if (!machine.stage) continue;
    const auto gone = gone_as(shop, turns, machine.id);
    const bool agrees = gone ? *machine.stage == *gone : is_here(*machine.stage);
    if (!agrees)
      breaks.add(machine.id, "stage", std::string{word(*machine.stage)},
                 fmt::format("The stage given for {} is \"{}\", but by its sales and disposals it is {}.",
                             called(machine), word(*machine.stage), gone ? word(*gone) : "here"));
  }
}

}  // namespace

void check_order_of_days(const Shop& shop, RuleBreaks& breaks) {
  const DaysOfComing days{shop};
  const TooEarly too_early{shop, days, breaks};
  too_early.lines<Fault>();
  too_early.lines<Finding>();
  too_early.lines_of_lots<Labour>();
  too_early.lines<Fitted>();
  too_early.lines<Material>();
  too_early.lines<Listing>();
  too_early.lines<Offer>();
  too_early.lines_of_lots<Trip>();

  const Turns turns{shop};
  check_turns(shop, turns, days, breaks);
  check_harvest(shop, turns, days, breaks);
  check_allowances(shop, turns, breaks);
  check_stages(shop, turns, breaks);
}

}  // namespace secondpull
