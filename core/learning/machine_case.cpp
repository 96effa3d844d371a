#include "core/learning/machine_case.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/learning/further_work.h"
#include "core/learning/machine_stops.h"

namespace secondpull::learning {
namespace {

struct Asked {
  std::optional<FaultId> fault;
  Question question;
};

Result<Asked> asked_about(const ByMachine::Lines& lines, const Knowledge& knowledge) {
  const Machine& machine = *lines.machine;
  const auto open = std::find_if(lines.faults.rbegin(), lines.faults.rend(),
                                 [](const Fault* fault) { return !fault->ended; });
  if (open != lines.faults.rend()) {
    auto question = question_about(lines, **open, knowledge);
    if (!question) return tl::unexpected(std::move(question.error()));
    return Asked{(*open)->id, *std::move(question)};
  }
  if (!lines.faults.empty() || machine.symptom.empty())
    return problem(fmt::format("#{} has no open fault: there is nothing to find out.", machine.tag), "fault");
  // As if the fault had been opened the day it came: findings made since then are about it.
  const Fault as_it_came{.machine = machine.id, .date = here_since(lines), .symptom = machine.symptom};
  ByMachine::Lines with_it = lines;
  with_it.faults.push_back(&as_it_came);
  auto question = question_about(with_it, as_it_came, knowledge);
  if (!question) return tl::unexpected(std::move(question.error()));
  return Asked{std::nullopt, *std::move(question)};
}

}  // namespace

Learned learned_from(const ByMachine& by_machine, const Shop& shop, const Knowledge& knowledge, Date today) {
  return {.tallies = tallies_of(by_machine, shop, knowledge),
          .sales = own_sales(by_machine, shop, knowledge, today),
          .further_work = further_work(by_machine, shop)};
}

Result<MachineCase> case_of_machine(const Shop& shop, const ByMachine& by_machine, MachineId machine,
                                    const Knowledge& knowledge, const Learned& learned, const Terms& terms) {
  const ByMachine::Lines& lines = by_machine.of(machine);
  if (lines.machine == nullptr)
    return problem("There is no such machine.", "machine", std::to_string(number(machine)));
  if (!is_here(stage_of(lines)))
    return problem(fmt::format("#{} has gone.", lines.machine->tag), "machine", lines.machine->tag);
  const KindFigures* const figures = knowledge.figures(lines.machine->kind);
  if (figures == nullptr)
    return problem(fmt::format("The knowledge base has no figures for a machine of the kind \"{}\".",
                               word(lines.machine->kind)),
                   "kind", std::string{word(lines.machine->kind)});
  auto asked = asked_about(lines, knowledge);
  if (!asked) return tl::unexpected(std::move(asked.error()));

  const Currency& currency = shop.settings.currency;
  Circumstances circumstances{.hour_value = terms.hour_value,
                              .day_cost = std::max(0.0, terms.day_cost),
                              .stops = stops_of(*figures, asked->question.symptom, knowledge, learned.sales,
                                                terms.hour_value, currency),
                              .sunk = terms.sunk,
                              .currency = currency};
  const Expected expected{.known_work = {usual_further_work({}, learned.further_work, currency)}};
  circumstances.revived = revived(learned.sales, *figures, knowledge, expected, currency);
  auto made = make_case(knowledge, learned.tallies, asked->question, circumstances);
  if (!made) return tl::unexpected(std::move(made.error()));
  return MachineCase{asked->fault, std::move(asked->question), *std::move(made)};
}

}  // namespace secondpull::learning
