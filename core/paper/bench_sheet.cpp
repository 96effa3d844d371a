#include "core/paper/bench_sheet.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/decision/why.h"
#include "core/learning/tries.h"
#include "core/learning/units.h"
#include "core/paper/machine_words.h"
#include "core/planning/names.h"
#include "core/planning/stop_if.h"
#include "core/shop/describe.h"
#include "core/shop/steps.h"

namespace secondpull::paper {
namespace {

using decision::Move;
using decision::NamedMove;
using decision::PlanNode;

constexpr std::size_t kStopsOnSheet = 3;
constexpr double kUnlikely = 0.01;  // such causes are summed up

std::string percent(double chance) {
  constexpr double kAll = 100;
  constexpr double kLeast = 0.01;
  if (chance > 0 && chance < kLeast) return "under 1 %";
  if (chance < 1 && chance > 1 - kLeast) return "over 99 %";
  return fmt::format("{} %", std::llround(kAll * chance));
}

class Writer {
 public:
  Writer(const Shop& shop, const learning::KnowledgeBase& base, MachineKind kind,
         const learning::MachineCase& asked, const decision::Answer& answer)
      : shop_{shop}, base_{base}, kind_{kind}, of_{asked.of}, answer_{answer} {}

  void causes(BenchSheet& sheet) const {
    auto& all = sheet.causes;
    for (std::size_t i = 0; i < of_.causes.size() && i < answer_.posterior.size(); ++i)
      all.emplace_back(planning::called_cause(of_.causes[i].id, base_.knowledge), answer_.posterior[i]);
    std::stable_sort(all.begin(), all.end(),
                     [](const auto& a, const auto& b) { return a.second > b.second; });
    while (!all.empty() && (all.size() > kCausesOnSheet || all.back().second < kUnlikely)) {
      sheet.other_causes += all.back().second;
      all.pop_back();
    }
  }

  void steps(BenchSheet& sheet) const {
    const PlanNode* node = &answer_.plan.root;
    std::string when;
    while (node != nullptr && sheet.steps.size() < kStepsOnSheet) {
      const bool stops = node->move.kind == Move::Kind::stop;
      if (stops && !sheet.steps.empty()) return;
      SheetStep step = step_of(*node);
      step.when = when;
      sheet.steps.push_back(std::move(step));
      const PlanNode* const next = likeliest(*node);
      if (next != nullptr) when = when_of(*node, *next);
      node = next;
    }
  }

  void stop_if(BenchSheet& sheet) const {
    for (const planning::GivingUp& point : planning::stop_if(answer_, of_)) {
      if (sheet.stop_if.size() == kStopsOnSheet) return;
      const std::string step = planning::called(point.after, base_.knowledge);
      const std::string shows =
          point.outcome.empty()
              ? "does not help"
              : fmt::format("shows \"{}\"",
                            planning::called_outcome(point.after.id, point.outcome, base_.knowledge));
      sheet.stop_if.push_back(fmt::format("Stop if \"{}\" {}: {} ({}).", step, shows,
                                          planning::called(point.stop, base_.knowledge),
                                          percent(point.chance)));
    }
  }

 private:
  NamedMove named(const PlanNode& node) const { return decision::named(of_, answer_.model, node.move); }
  std::string name(const PlanNode& node) const { return planning::called(named(node), base_.knowledge); }

  /// What follows most often where the fault is not mended by the step.
  static const PlanNode* likeliest(const PlanNode& node) {
    const PlanNode* best = nullptr;
    for (const PlanNode& child : node.children)
      if (child.what == PlanNode::What::decide && (best == nullptr || child.chance > best->chance))
        best = &child;
    return best;
  }

  std::string when_of(const PlanNode& node, const PlanNode& next) const {
    const NamedMove step = named(node);
    const std::string chance = percent(next.chance / node.chance);
    if (step.kind == Move::Kind::repair)
      return fmt::format("If \"{}\" does not help ({}):", name(node), chance);
    return fmt::format("If \"{}\" shows \"{}\" ({}):", name(node), outcome_of(step, next), chance);
  }

  const diagnosis::Test* test_of(const NamedMove& step) const {
    const auto at = std::find_if(of_.tests.begin(), of_.tests.end(),
                                 [&](const auto& each) { return each.id == step.id; });
    return step.kind == Move::Kind::test && at != of_.tests.end() ? &*at : nullptr;
  }
  const diagnosis::Repair* repair_of(const NamedMove& step) const {
    const auto at = std::find_if(of_.repairs.begin(), of_.repairs.end(),
                                 [&](const auto& each) { return each.id == step.id; });
    return step.kind == Move::Kind::repair && at != of_.repairs.end() ? &*at : nullptr;
  }
  std::string outcome_of(const NamedMove& step, const PlanNode& child) const {
    const diagnosis::Test* const test = test_of(step);
    if (test == nullptr || !child.outcome) return {};
    return planning::called_outcome(step.id, test->outcomes[*child.outcome], base_.knowledge);
  }

  std::string takes(double minutes, double cost, double days) const {
    constexpr double kShows = 0.5;  // less would read as nothing
    std::vector<std::string> words{shown(Minutes{std::llround(minutes)})};
    if (cost >= kShows) {
      const Money about =
          Money::from_minor(std::llround(std::round(cost) * learning::minor_units(shop_.settings.currency)));
      words.push_back("about " + shown_short(about, shop_.settings.currency));
    }
    if (days > 0) words.push_back(counted(static_cast<std::int64_t>(std::ceil(days)), "day", "days"));
    return joined(words, ", ");
  }

  SheetStep step_of(const PlanNode& node) const {
    const NamedMove move = named(node);
    SheetStep step{.title = name(node)};
    const auto text = base_.texts.find(move.id);
    if (text != base_.texts.end()) step.says = text->second.says;
    const decision::Names names = planning::names_in(base_.knowledge);
    step.why = move.kind == Move::Kind::stop ? decision::why(node, answer_, of_, names)
                                             : decision::why_this(node, answer_, of_, names);
    if (const auto* test = test_of(move)) step.takes = takes(test->minutes, test->cost, test->days);
    if (const auto* repair = repair_of(move)) step.takes = takes(repair->minutes, repair->cost, repair->days);
    cautions(move, step);
    if (test_of(move) != nullptr) readings(move, step);
    outcomes(node, move, step);
    return step;
  }

  void cautions(const NamedMove& move, SheetStep& step) const {
    for (const bool first : {true, false})
      for (const learning::Caution& caution : base_.cautions)
        if (caution.stops_the_way == first &&
            std::find(caution.steps.begin(), caution.steps.end(), move.id) != caution.steps.end())
          step.cautions.push_back(
              fmt::format("{}. {}{}", caution.name, first ? caution.danger + " " : "", caution.care));
  }

  void readings(const NamedMove& move, SheetStep& step) const {
    for (const learning::Measurement& each : base_.measurements)
      if (learning::fits(each.kinds, kind_) &&
          std::find(each.tests.begin(), each.tests.end(), move.id) != each.tests.end())
        step.readings.push_back({each.name, limits_of(each)});
  }

  void outcomes(const PlanNode& node, const NamedMove& move, SheetStep& step) const {
    if (move.kind == Move::Kind::repair)
      step.outcomes.emplace_back("It is mended",
                                 fmt::format("{}; then the test run", percent(node.chance_mended)));
    for (const PlanNode& child : node.children) {
      if (child.what == PlanNode::What::revived) continue;
      step.outcomes.emplace_back(
          move.kind == Move::Kind::repair ? "Same trouble as before" : outcome_of(move, child),
          fmt::format("{}; then: {}", percent(child.chance / node.chance), name(child)));
    }
  }

  const Shop& shop_;
  const learning::KnowledgeBase& base_;
  MachineKind kind_;
  const diagnosis::Case& of_;
  const decision::Answer& answer_;
};

void seen_so_far(const ByMachine::Lines& lines, BenchSheet& sheet) {
  const Fault* open = nullptr;
  for (const Fault* fault : lines.faults)
    if (!fault->ended) open = fault;
  if (open == nullptr) return;
  for (const Finding* finding : learning::findings_of(lines, *open)) {
    if (is_about_care(finding->step)) continue;
    const std::string reading = joined({finding->reading, finding->unit}, " ");
    sheet.seen.push_back(fmt::format("{}: {}{}", finding->step, finding->outcome,
                                     finding->reading.empty() ? "" : " (" + reading + ")"));
  }
}

}  // namespace

std::string limits_of(const learning::Measurement& measurement) {
  std::string figures;
  if (measurement.low && measurement.high)
    figures = fmt::format("{:.5g} to {:.5g} {}", *measurement.low, *measurement.high, measurement.unit);
  else if (measurement.low)
    figures = fmt::format("at least {:.5g} {}", *measurement.low, measurement.unit);
  else if (measurement.high)
    figures = fmt::format("at most {:.5g} {}", *measurement.high, measurement.unit);
  else if (measurement.nominal)
    figures = fmt::format("{:.5g} {}", *measurement.nominal, measurement.unit);
  return joined({figures, measurement.rule}, "; ");
}

BenchSheet blank_sheet(const ByMachine::Lines& lines, Date today) {
  BenchSheet sheet{.tag = tag_of(lines), .made = today};
  if (lines.machine == nullptr) return sheet;
  sheet.facts = joined(machine_facts(*lines.machine), ", ");
  sheet.came_with = joined({lines.machine->symptom, lines.machine->condition}, "; ");
  seen_so_far(lines, sheet);
  return sheet;
}

BenchSheet bench_sheet(const Shop& shop, const ByMachine::Lines& lines, const learning::KnowledgeBase& base,
                       const learning::MachineCase& asked, const decision::Answer& answer, Date today) {
  BenchSheet sheet = blank_sheet(lines, today);
  if (lines.machine == nullptr) return sheet;
  const Writer writer{shop, base, lines.machine->kind, asked, answer};
  writer.causes(sheet);
  writer.steps(sheet);
  writer.stop_if(sheet);
  return sheet;
}

}  // namespace secondpull::paper
