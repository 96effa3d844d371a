#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/result.h"
#include "core/shop/change.h"
#include "core/shop/stage.h"

namespace secondpull {

/// What was done on one machine in a day, written down in the evening.
struct EveningMachine {
  MachineId machine{};
  Minutes minutes;  ///< 0: none to log
  Work work = Work::repair;
  std::optional<PartId> part;  ///< one or more pieces from the shelf, first in, first out
  std::int64_t quantity = 1;   ///< of `part`
  std::string material;        ///< what else was used on it
  Money material_cost;
};

/// Money that went out for the shop in general.
struct EveningExpense {
  std::string category;
  Money amount;
  std::string note;
};

/// Everything of a day that was not written down while it happened.
struct EveningEntry {
  Date date{};
  std::vector<EveningMachine> machines;
  std::optional<Tenths> miles;  ///< driven that day
  std::string purpose;          ///< of the drive; needed with `miles`
  std::string destination;
  std::optional<MachineId> drive_for;
  std::vector<EveningExpense> expenses;
};

/// Writes it all down as one change, so that one undo takes it all back. Problems: nothing to write down
/// (no field), an unknown or repeated machine ("machine"), minutes below 0 ("minutes"), a machine with
/// neither minutes nor anything used ("minutes"), a quantity below 1 ("quantity"), a cost or an amount below
/// 0
/// ("material_cost", "amount"), a cost without what it was for ("material"), miles of 0 or less ("miles") or
/// without a purpose ("purpose"), an expense without a category ("category").
Result<Change> write_evening(const Shop& shop, const EveningEntry& entry);

/// A machine that may have been worked on that day, with what the record lets one guess.
struct EveningGuess {
  MachineId machine{};
  bool likely = false;  ///< something was recorded on it that day, but no hours
  Minutes minutes;
  Work work = Work::repair;
  /// Where the minutes come from.
  enum class From { its_own_record, the_shops_record, common_practice } from = From::common_practice;
};

/// The machines to offer: here on that day, and either in hand (`in_hand`, in that order) or with a finding,
/// hours, a part or a material on one of the last `kEveningLooksBack` days; the likely ones first. One that
/// has hours on that day already is left out, unless it is in hand: then it is offered as not likely.
/// Minutes: the median of the machine's own logged pieces of that kind of work, else of the shop's, else
/// half an hour. Work: the machine's last kind, the ways in and out (pickup, list, sell) apart.
std::vector<EveningGuess> evening_guesses(const ByMachine& by_machine, const Shop& shop, Date day,
                                          std::span<const MachineId> in_hand);
constexpr int kEveningLooksBack = 3;  ///< days, the day itself included

}  // namespace secondpull
