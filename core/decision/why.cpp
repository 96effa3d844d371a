#include "core/decision/why.h"

#include <cmath>
#include <vector>

#include <fmt/format.h>

namespace secondpull::decision {
namespace {

using diagnosis::Case;
constexpr double minutes_an_hour = 60;
/// Below this a difference is not shown as one: no cent of it would be seen.
constexpr double unseen = 0.005;

/// Money to the cent; never "-0.00".
std::string money(double amount) {
  return fmt::format("{:.2f}", std::abs(amount) < unseen ? 0.0 : amount);
}

std::string percent(double chance) {
  if (chance > 0 && chance < 0.01) return "under 1 %";
  if (chance < 1 && chance > 0.99) return "over 99 %";
  return fmt::format("{:.0f} %", 100 * chance);
}

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
  std::string out;
  for (const std::string& part : parts) {
    if (!out.empty()) out += between;
    out += part;
  }
  return out;
}

class Speaker {
 public:
  Speaker(const Answer& answer, const Case& of, const Names& names)
      : answer_{answer}, case_{of}, names_{names} {}

  std::string say(const PlanNode& here) const {
    if (here.what == PlanNode::What::revived) return {};
    switch (here.move.kind) {
      case Move::Kind::stop:
        return stop(here);
      case Move::Kind::repair:
        return repair(here);
      case Move::Kind::test:
        break;
    }
    return test(here);
  }

  /// By how much the chosen move wins.
  std::string lead(const PlanNode& here) const;

 private:
  std::string name(const Move& move) const {
    const NamedMove called = named(case_, answer_.model, move);
    return names_.move ? names_.move(called) : called.id;
  }

  /// "costs 12.00, 25 min and 3 days"; "costs nothing"
  static std::string price(const StepCost& cost) {
    std::vector<std::string> parts;
    if (cost.cash >= unseen) parts.push_back(money(cost.cash));
    if (cost.hours > 0) parts.push_back(fmt::format("{:.0f} min", cost.hours * minutes_an_hour));
    if (cost.days > 0) parts.push_back(fmt::format("{:.4g} {}", cost.days, cost.days == 1 ? "day" : "days"));
    return parts.empty() ? "costs nothing" : "costs " + joined(parts, ", ");
  }

  std::string stop(const PlanNode& here) const {
    const std::string first = fmt::format("Stop here: {} is worth {}.", name(here.move), money(here.worth));
    if (!here.runner_up) return first + " Nothing is left to try.";
    const double behind = here.worth - here.runner_up->value;
    if (here.runner_up->move.kind == Move::Kind::stop)
      return first + fmt::format(" The next best is another way to stop, {}: {} less.",
                                 name(here.runner_up->move), money(behind));
    return first + fmt::format(" The best that could still be tried is {}, and it comes to {} less.",
                               name(here.runner_up->move), money(behind));
  }

  std::string repair(const PlanNode& here) const {
    const Model::Repair& repair = answer_.model.repairs[here.move.place];
    return fmt::format("{} mends it with a chance of {} and {}. {}", name(here.move),
                       percent(here.chance_mended), price(repair.cost), lead(here));
  }

  std::string test(const PlanNode& here) const {
    const Model::Test& test = answer_.model.tests[here.move.place];
    const diagnosis::Test& asked = case_.tests[test.in_case];
    std::vector<std::string> leads_to;
    for (const PlanNode& child : here.children) {
      const std::string& outcome = asked.outcomes[*child.outcome];
      leads_to.push_back(fmt::format("{} ({}): {}",
                                     names_.outcome ? names_.outcome(asked.id, outcome) : outcome,
                                     percent(child.chance / here.chance), name(child.move)));
    }
    return fmt::format("{} {} and decides what comes next. {}. {}", name(here.move), price(test.cost),
                       joined(leads_to, "; "), lead(here));
  }

  const Answer& answer_;
  const Case& case_;
  const Names& names_;
};

std::string Speaker::lead(const PlanNode& here) const {
  if (!here.runner_up) return fmt::format("Going this way is worth {}.", money(here.worth));
  const double ahead = here.worth - here.runner_up->value;
  // A search that ran out looks deeper here than there: the plan it gives may be worth less than it knows
  // of.
  if (ahead < -unseen)
    return fmt::format("Going this way is worth {} as far as it is worked out.", money(here.worth));
  const std::string next_best = name(here.runner_up->move);
  if (here.runner_up->at_most - here.runner_up->value > unseen)
    return fmt::format("Going this way is worth {}; the next best found so far is {}, at {}.",
                       money(here.worth), next_best, money(here.runner_up->value));
  if (ahead < unseen)
    return fmt::format("Going this way is worth {}, and beginning with {} is worth as much.",
                       money(here.worth), next_best);
  return fmt::format("Going this way is worth {}, which is {} more than beginning with {}.",
                     money(here.worth), money(ahead), next_best);
}

}  // namespace

std::string why(const PlanNode& here, const Answer& answer, const Case& of, const Names& names) {
  return Speaker{answer, of, names}.say(here);
}

std::string why_this(const PlanNode& here, const Answer& answer, const Case& of, const Names& names) {
  if (here.what == PlanNode::What::revived || here.move.kind == Move::Kind::stop) return {};
  return Speaker{answer, of, names}.lead(here);
}

}  // namespace secondpull::decision
