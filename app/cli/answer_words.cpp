#include <fmt/format.h>

#include "app/cli/answer_json.h"
#include "core/decision/why.h"

namespace secondpull::cli {
namespace {

using namespace decision;
using diagnosis::Case;

constexpr int steps_shown = 4;  ///< levels of the plan; the JSON has all of it

std::string called(const NamedMove& move) {
  return fmt::format("{} {}", word(move.kind), move.id);
}

std::string money(double amount) {
  return fmt::format("{:.2f}", amount == 0 ? 0.0 : amount);
}

std::string line(std::string_view name, const std::string& value) {
  return fmt::format("  {:<26}{:>12}\n", name, value);
}

std::string figures(const Answer& answer) {
  const auto or_else = [](const Figure& figure, std::string_view none) {
    return figure.value ? money(*figure.value) + (figure.exact ? "" : " (so far)") : std::string{none};
  };
  std::string out;
  out += line("Worth of the plan", money(answer.value));
  out += line("Stopping now", fmt::format("{} ({})", money(answer.stop_now_value), answer.stop_now.id));
  out += line("Gain", money(answer.gain));
  if (answer.gap > 0) out += line("At most that much better", money(answer.gap));
  out += line("Cash to come", money(answer.expected.cash));
  out += line("Hours", fmt::format("{:.2f}", answer.expected.hours));
  out += line("Days", fmt::format("{:.1f}", answer.expected.days));
  out += line("Chance that it runs", fmt::format("{:.1f} %", 100 * answer.expected.revived));
  out += line("Break-even price", or_else(answer.break_even_price, "none"));
  out +=
      line("Worth per hour", or_else(answer.worth_per_hour, fmt::format("over {:.0f}", highest_hour_value)));
  out += line("Profit, 1 in 10 below", money(answer.profit.p10));
  out += line("Profit, half below", money(answer.profit.p50));
  out += line("Profit, 9 in 10 below", money(answer.profit.p90));
  out += line("Chance of a loss", fmt::format("{:.1f} %", 100 * answer.profit.chance_of_loss));
  return out;
}

std::string tree(const PlanNode& node, const Answer& answer, const Case& of, int depth) {
  if (node.what == PlanNode::What::revived) return " it runs\n";
  std::string out =
      fmt::format(" {}, worth {}\n", called(named(of, answer.model, node.move)), money(node.worth));
  if (depth == steps_shown) return node.children.empty() ? out : out.substr(0, out.size() - 1) + " ...\n";
  for (const PlanNode& child : node.children) {
    std::string outcome = child.what == PlanNode::What::revived ? "mended" : "failed";
    if (child.outcome)
      outcome = of.tests[answer.model.tests[node.move.place].in_case].outcomes[*child.outcome];
    out += fmt::format("{:>{}}{} ({:.1f} %):", "", 4 * depth + 4, outcome, 100 * child.chance / node.chance);
    out += tree(child, answer, of, depth + 1);
  }
  return out;
}

}  // namespace

std::string words_of(const Answer& answer, const Case& of) {
  std::string out =
      fmt::format("{}: {}\n{}\n\n", answer.verdict, called(answer.next), why(answer.plan.root, answer, of));
  out += figures(answer);
  out += "\nIf this is done next\n";
  for (const Ranked& ranked : answer.ranking) {
    const bool open = ranked.at_most - ranked.value > tie * 1e3;
    out += line(called(ranked.move), money(ranked.value));
    if (open) out = out.substr(0, out.size() - 1) + fmt::format("  at most {}\n", money(ranked.at_most));
  }
  out += "\nThe plan\n " + tree(answer.plan.root, answer, of, 0);
  return out;
}

}  // namespace secondpull::cli
