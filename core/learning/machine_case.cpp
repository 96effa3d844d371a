#include "core/learning/machine_case.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/learning/further_work.h"
#include "core/learning/machine_stops.h"
#include "core/learning/season.h"
#include "core/learning/units.h"

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

/// What it will be sold for, and what the way there takes, but for the fault itself.
diagnosis::Revived sale_of(const KindFigures& figures, const std::vector<TickedWork>& ticked,
                           const Knowledge& knowledge, const Learned& learned, const Terms& terms,
                           const Currency& currency) {
  Expected expected{.price = terms.sale.price,
                    .days = terms.sale.days.value_or(days_to_sell(learned.sales, figures, SoldAs::running,
                                                                  knowledge.season, learned.today)),
                    .known_work = work_to_do(ticked, knowledge, learned.tallies, currency)};
  expected.known_work.push_back(usual_further_work({}, learned.further_work, currency));
  return revived(learned.sales, figures, knowledge, expected, currency);
}

/// Rising prices make up for what a day costs; nobody is paid for waiting.
double day_cost(const KindFigures& figures, const Knowledge& knowledge, const Learned& learned,
                const Terms& terms, const Currency& currency) {
  const PriceBelief fetches =
      terms.sale.price ? *terms.sale.price : running_price(learned.sales, figures, currency);
  return std::max(0.0, terms.day_cost + season_cost_of_day(fetches.median, knowledge.season, learned.today));
}

/// An hour's worth on this machine. It is wanted before the other numbers said, since which parts pay their
/// minutes depends on it.
double hour_value(const Terms& terms) {
  double value = terms.hour_value;
  for (const OwnNumberLine& line : terms.said)
    if (line.path == "hour_value" && line.value >= 0) value = line.value;
  return value;
}

std::map<std::string, Supply> supply_of(const std::vector<RepairPart>& parts) {
  std::map<std::string, Supply> supply;
  for (const RepairPart& part : parts)
    supply[part.repair] = part.supply;
  return supply;
}

/// Of the repairs that the case has.
void keep_parts_in(const diagnosis::Case& of, std::vector<RepairPart>& parts) {
  std::erase_if(parts, [&](const RepairPart& part) {
    return std::none_of(of.repairs.begin(), of.repairs.end(),
                        [&](const diagnosis::Repair& repair) { return repair.id == part.repair; });
  });
}

void put_said(const std::vector<OwnNumberLine>& said, MachineCase& into) {
  const diagnosis::Case computed = into.of;
  into.not_taken = apply_said(into.of, said);
  for (const OwnNumberLine& line : said) {
    const auto told = std::any_of(into.said.begin(), into.said.end(),
                                  [&](const SaidNumber& number) { return number.path == line.path; });
    const auto before = number_at(computed, line.path);
    const auto after = number_at(into.of, line.path);
    const bool left = std::any_of(into.not_taken.begin(), into.not_taken.end(),
                                  [&](const Problem& problem) { return problem.field == line.path; });
    if (!told && !left && before && after) into.said.push_back({line.path, *before, *after});
  }
}

Result<const KindFigures*> figures_of(MachineKind kind, const Knowledge& knowledge) {
  const KindFigures* const figures = knowledge.figures(kind);
  if (figures == nullptr)
    return problem(
        fmt::format("The knowledge base has no figures for a machine of the kind \"{}\".", word(kind)),
        "kind", std::string{word(kind)});
  return figures;
}

Result<MachineCase> case_of_asked(const Currency& currency, const ByMachine::Lines& lines, Asked asked,
                                  const KindFigures& figures, const Knowledge& knowledge,
                                  const Learned& learned, const Terms& terms) {
  std::vector<TickedWork> ticked = known_work_of(lines, knowledge);
  std::vector<RepairPart> parts = repair_parts(learned.parts, lines, knowledge, currency, learned.today);
  const Circumstances circumstances{
      .hour_value = terms.hour_value,
      .day_cost = day_cost(figures, knowledge, learned, terms, currency),
      .supply = supply_of(parts),
      .revived = sale_of(figures, ticked, knowledge, learned, terms, currency),
      .stops = stops_of(figures, asked.question.symptom, knowledge, learned.sales, hour_value(terms),
                        terms.sale.days_as_is.value_or(days_to_sell(learned.sales, figures, SoldAs::as_is,
                                                                    knowledge.season, learned.today)),
                        currency),
      .sunk = terms.sunk,
      .currency = currency};
  auto of = make_case(knowledge, learned.tallies, asked.question, circumstances);
  if (!of) return tl::unexpected(std::move(of.error()));
  keep_parts_in(*of, parts);
  MachineCase made{.fault = asked.fault,
                   .question = std::move(asked.question),
                   .of = *std::move(of),
                   .parts = std::move(parts),
                   .work = std::move(ticked)};
  put_said(terms.said, made);
  return made;
}

}  // namespace

Learned learned_from(const ByMachine& by_machine, const Shop& shop, const Knowledge& knowledge, Date today) {
  return {.today = today,
          .tallies = tallies_of(by_machine, shop, knowledge),
          .sales = own_sales(by_machine, shop, knowledge, today),
          .further_work = further_work(by_machine, shop),
          .parts = parts_at_hand(shop, by_machine, knowledge, today)};
}

Result<MachineCase> case_of_machine(const Shop& shop, const ByMachine& by_machine, MachineId machine,
                                    const Knowledge& knowledge, const Learned& learned, const Terms& terms) {
  const ByMachine::Lines& lines = by_machine.of(machine);
  if (lines.machine == nullptr)
    return problem("There is no such machine.", "machine", std::to_string(number(machine)));
  if (!is_here(stage_of(lines)))
    return problem(fmt::format("#{} has gone.", lines.machine->tag), "machine", lines.machine->tag);
  auto figures = figures_of(lines.machine->kind, knowledge);
  if (!figures) return tl::unexpected(std::move(figures.error()));
  auto asked = asked_about(lines, knowledge);
  if (!asked) return tl::unexpected(std::move(asked.error()));
  return case_of_asked(shop.settings.currency, lines, *std::move(asked), **figures, knowledge, learned,
                       terms);
}

Result<MachineCase> case_of_described(const Shop& shop, const Described& described,
                                      const Knowledge& knowledge, const Learned& learned,
                                      const Terms& terms) {
  auto figures = figures_of(described.kind, knowledge);
  if (!figures) return tl::unexpected(std::move(figures.error()));
  const Machine machine{.kind = described.kind, .make = described.make, .model = described.model};
  const Fault fault{.date = learned.today, .symptom = described.symptom};
  std::vector<Finding> findings;
  for (const Described::Answer& answer : described.answers)
    findings.push_back({.id = FindingId{static_cast<std::int64_t>(findings.size()) + 1},
                        .date = learned.today,
                        .step = answer.test,
                        .outcome = answer.outcome,
                        .fault = fault.id});
  ByMachine::Lines lines{.machine = &machine, .faults = {&fault}};
  for (const Finding& finding : findings)
    lines.findings.push_back(&finding);
  auto question = question_about(lines, fault, knowledge);
  if (!question) return tl::unexpected(std::move(question.error()));
  return case_of_asked(shop.settings.currency, lines, Asked{std::nullopt, *std::move(question)}, **figures,
                       knowledge, learned, terms);
}

}  // namespace secondpull::learning
