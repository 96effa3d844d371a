#include "core/shop/evening.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <utility>

#include <fmt/format.h>

namespace secondpull {
namespace {

/// What a piece of work takes where the shop has no record yet: common practice, no source.
constexpr Minutes kHalfAnHour{30};

/// Work on the machine itself, as against fetching and selling it.
bool is_bench_work(Work work) {
  return work != Work::pickup && work != Work::list && work != Work::sell;
}

std::optional<Problem> problem_of(const Shop& shop, const EveningMachine& line) {
  const Machine* machine = shop.find(line.machine);
  if (machine == nullptr)
    return Problem{"That machine is not in this shop.", "machine", std::to_string(number(line.machine))};
  if (line.minutes.count < 0)
    return Problem{fmt::format("The minutes on #{} are below zero.", machine->tag), "minutes",
                   std::to_string(line.minutes.count)};
  if (line.part && shop.find(*line.part) == nullptr)
    return Problem{"That part is not in this shop.", "part", std::to_string(number(*line.part))};
  if (line.part && line.quantity < 1)
    return Problem{fmt::format("At least one piece must have been fitted to #{}.", machine->tag), "quantity",
                   std::to_string(line.quantity)};
  if (line.material_cost < Money{})
    return Problem{fmt::format("What was used on #{} cannot have cost less than nothing.", machine->tag),
                   "material_cost", std::to_string(line.material_cost.minor())};
  if (line.material.empty() && !line.material_cost.is_zero())
    return Problem{fmt::format("Say what the money on #{} went for.", machine->tag), "material", ""};
  if (line.minutes.count == 0 && !line.part && line.material.empty())
    return Problem{fmt::format("Say how long #{} took, or take its tick away.", machine->tag), "minutes", ""};
  return std::nullopt;
}

std::optional<Problem> problem_of(const EveningExpense& expense) {
  if (expense.amount <= Money{})
    return Problem{"The money spent must be more than zero.", "amount",
                   std::to_string(expense.amount.minor())};
  if (expense.category.empty()) return Problem{"Say what the money went for.", "category", ""};
  return std::nullopt;
}

std::optional<Problem> problem_of(const Shop& shop, const EveningEntry& entry) {
  if (entry.machines.empty() && !entry.miles && entry.expenses.empty())
    return Problem{"Nothing is ticked and nothing is filled in, so there is nothing to write down.", "", ""};
  std::set<MachineId> seen;
  for (const EveningMachine& line : entry.machines) {
    if (auto problem = problem_of(shop, line)) return problem;
    if (!seen.insert(line.machine).second)
      return Problem{fmt::format("#{} is there twice.", shop.find(line.machine)->tag), "machine",
                     shop.find(line.machine)->tag};
  }
  if (entry.miles && entry.miles->count <= 0)
    return Problem{"The distance must be more than zero.", "miles", ""};
  if (entry.miles && entry.purpose.empty())
    return Problem{"Say what the drive was for: the mileage log needs it.", "purpose", ""};
  if (entry.drive_for && shop.find(*entry.drive_for) == nullptr)
    return Problem{"The machine that the drive was for is not in this shop.", "machine", ""};
  for (const EveningExpense& expense : entry.expenses)
    if (auto problem = problem_of(expense)) return problem;
  return std::nullopt;
}

std::string title_of(const Shop& shop, const EveningEntry& entry) {
  std::string what;
  const auto add = [&](const std::string& bit) { what += (what.empty() ? "" : ", ") + bit; };
  if (!entry.machines.empty()) {
    Minutes minutes;
    std::string tags;
    for (const EveningMachine& line : entry.machines) {
      minutes += line.minutes;
      tags += fmt::format("{}#{}", tags.empty() ? "" : ", ", shop.find(line.machine)->tag);
    }
    add(fmt::format("{} on {}", shown(minutes), tags));
  }
  if (entry.miles)
    add(fmt::format("{}.{} {}", entry.miles->count / 10, entry.miles->count % 10,
                    word(shop.settings.unit_of_distance)));
  Money spent;
  for (const EveningExpense& expense : entry.expenses)
    spent += expense.amount;
  if (!spent.is_zero()) add(shown(spent, shop.settings.currency) + " spent");
  return "Wrote down the day: " + what;
}

std::optional<Minutes> median(std::vector<Minutes> minutes) {
  if (minutes.empty()) return std::nullopt;
  const auto middle = minutes.begin() + static_cast<std::ptrdiff_t>((minutes.size() - 1) / 2);
  std::nth_element(minutes.begin(), middle, minutes.end());
  return *middle;
}

template <class Records>
bool has_one_between(const Records& records, Date first, Date last) {
  return std::any_of(records.begin(), records.end(),
                     [&](const auto* record) { return first <= record->date && record->date <= last; });
}

bool has_bench_line_between(const ByMachine::Lines& lines, Date first, Date last) {
  return has_one_between(lines.findings, first, last) || has_one_between(lines.fitted, first, last) ||
         has_one_between(lines.materials, first, last);
}

bool was_here(const ByMachine::Lines& lines, Date day) {
  return lines.machine != nullptr && is_here(stage_of(lines)) && here_since(lines) <= day;
}

}  // namespace

Result<Change> write_evening(const Shop& shop, const EveningEntry& entry) {
  if (auto wrong = problem_of(shop, entry)) return tl::unexpected(std::move(*wrong));
  Change change(shop, title_of(shop, entry));
  for (const EveningMachine& line : entry.machines) {
    if (line.minutes.count > 0)
      change.add(
          Labour{.machine = line.machine, .date = entry.date, .minutes = line.minutes, .work = line.work});
    if (line.part)
      change.add(
          Fitted{.machine = line.machine, .date = entry.date, .part = *line.part, .quantity = line.quantity});
    if (!line.material.empty())
      change.add(Material{
          .machine = line.machine, .date = entry.date, .what = line.material, .cost = line.material_cost});
  }
  if (entry.miles)
    change.add(Trip{.date = entry.date,
                    .miles = *entry.miles,
                    .purpose = entry.purpose,
                    .destination = entry.destination,
                    .machine = entry.drive_for});
  for (const EveningExpense& expense : entry.expenses)
    change.add(Expense{
        .date = entry.date, .category = expense.category, .amount = expense.amount, .note = expense.note});
  return change;
}

std::vector<EveningGuess> evening_guesses(const ByMachine& by_machine, const Shop& shop, Date day,
                                          std::span<const MachineId> in_hand) {
  const Date first = plus_days(day, 1 - kEveningLooksBack);

  std::vector<MachineId> offered;
  std::set<MachineId> seen;
  const auto offer = [&](MachineId id) {
    if (was_here(by_machine.of(id), day) && seen.insert(id).second) offered.push_back(id);
  };
  for (const MachineId id : in_hand)
    offer(id);
  for (const Machine& machine : shop.all<Machine>()) {
    const ByMachine::Lines& lines = by_machine.of(machine.id);
    if (has_one_between(lines.labour, day, day)) continue;
    if (has_bench_line_between(lines, first, day) || has_one_between(lines.labour, first, day))
      offer(machine.id);
  }

  std::map<Work, std::vector<Minutes>> shops_pieces;
  for (const Labour& labour : shop.all<Labour>())
    if (labour.machine) shops_pieces[labour.work].push_back(labour.minutes);

  std::vector<EveningGuess> guesses;
  for (const MachineId id : offered) {
    const ByMachine::Lines& lines = by_machine.of(id);
    EveningGuess guess{.machine = id, .minutes = kHalfAnHour};
    const auto last = std::find_if(lines.labour.rbegin(), lines.labour.rend(),
                                   [](const Labour* labour) { return is_bench_work(labour->work); });
    if (last != lines.labour.rend()) guess.work = (*last)->work;
    std::vector<Minutes> own;
    for (const Labour* labour : lines.labour)
      if (labour->work == guess.work) own.push_back(labour->minutes);
    if (const auto minutes = median(std::move(own))) {
      guess.minutes = *minutes;
      guess.from = EveningGuess::From::its_own_record;
    } else if (const auto usual = median(shops_pieces[guess.work])) {
      guess.minutes = *usual;
      guess.from = EveningGuess::From::the_shops_record;
    }
    guess.likely = has_bench_line_between(lines, day, day) && !has_one_between(lines.labour, day, day);
    guesses.push_back(guess);
  }
  std::stable_partition(guesses.begin(), guesses.end(),
                        [](const EveningGuess& guess) { return guess.likely; });
  return guesses;
}

}  // namespace secondpull
