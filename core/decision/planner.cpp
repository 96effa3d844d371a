#include "core/decision/planner.h"

#include <algorithm>
#include <cmath>

#include "core/diagnosis/belief.h"

namespace secondpull::decision {
namespace {

using diagnosis::Case;

double price_after_fee(const Case& of) {
  return of.revived.price * (1 - of.revived.fee_rate);
}

Move best_stop(const std::vector<MoveWorth>& moves) {
  std::vector<MoveWorth> stops;
  std::copy_if(moves.begin(), moves.end(), std::back_inserter(stops),
               [](const MoveWorth& move) { return move.move.kind == Move::Kind::stop; });
  return best_of(stops).move;
}

void read_moves(Answer& answer, const Case& of, const std::vector<MoveWorth>& moves) {
  const Move stop = best_stop(moves);
  answer.stop_now = named(of, answer.model, stop);
  for (const MoveWorth& move : moves) {
    answer.ranking.push_back({named(of, answer.model, move.move), move.value, move.at_most});
    if (move.move == stop) answer.stop_now_value = move.value;
  }
  std::stable_sort(answer.ranking.begin(), answer.ranking.end(),
                   [](const Ranked& a, const Ranked& b) { return a.value > b.value; });
}

void read_endings(Answer& answer, const Case& of) {
  answer.chance_of_stop.assign(of.stops.size(), 0);
  for (const Ending& ending : answer.plan.endings)
    if (ending.stop) answer.chance_of_stop[answer.model.stops[*ending.stop].in_case] += ending.chance;
  answer.profit = profit_of(answer, of);
}

/// Solves the case and reads the plan; its tables are gone again before more is solved. Whether it is exact.
bool read_solution(Answer& answer, const Case& of, const Budget& budget) {
  const auto solution = solve(answer.model, budget);
  answer.plan = read_plan(answer.model, *solution, price_after_fee(of));
  const Progress progress = solution->progress();
  const bool exact = has_met(progress);
  answer.value = exact ? progress.value : answer.plan.root.worth;
  answer.gap = exact ? 0 : std::max(0.0, progress.at_most - answer.value);
  answer.states = progress.states;
  answer.bytes = progress.bytes;
  read_moves(answer, of, solution->moves(start_of(answer.model)));
  return exact;
}

}  // namespace

Profit profit_of(const Answer& answer, const Case& of) {
  return profit_of(
      answer.plan.endings,
      {.median = price_after_fee(of), .spread = of.revived.spread, .deducted = answer.model.running.cash},
      of.sunk.cash);
}

std::string_view word(Move::Kind kind) {
  switch (kind) {
    case Move::Kind::stop:
      return "stop";
    case Move::Kind::repair:
      return "repair";
    case Move::Kind::test:
      break;
  }
  return "test";
}

NamedMove named(const Case& of, const Model& model, const Move& move) {
  switch (move.kind) {
    case Move::Kind::stop:
      return {move.kind, of.stops[model.stops[move.place].in_case].id};
    case Move::Kind::repair:
      return {move.kind, of.repairs[model.repairs[move.place].in_case].id};
    case Move::Kind::test:
      break;
  }
  return {move.kind, of.tests[model.tests[move.place].in_case].id};
}

Result<Answer> verdict(const Case& of, const Budget& budget, Figures figures) {
  if (const auto problems = diagnosis::problems_of(of); !problems.empty())
    return tl::unexpected<Problem>(problems.front());
  Answer answer;
  answer.model = model_of(of);
  answer.posterior = diagnosis::posterior(of);
  const bool exact = read_solution(answer, of, budget);
  read_endings(answer, of);
  answer.expected = answer.plan.expected;
  answer.next = named(of, answer.model, answer.plan.root.move);
  answer.verdict = answer.next.kind == Move::Kind::stop ? answer.next.id : "revive";
  answer.gain = answer.value - answer.stop_now_value;
  const bool stops = answer.next.kind == Move::Kind::stop;
  const GoingOn found{answer.gain, answer.stop_now_value, answer.expected, exact};
  if (figures == Figures::plan_alone) {
    answer.break_even_price = {std::nullopt, false};
    answer.worth_per_hour = stops ? Figure{0, false} : proved_worth_per_hour(of, found);
    return answer;
  }
  Budget more = budget;
  if (budget.time < std::chrono::nanoseconds::max() / 2) more.time = budget.time * 2;
  // The plan found goes on, or what would go on has yet to be found.
  const GoingOn ahead = stops ? going_on(of, more) : found;
  answer.break_even_price =
      figures == Figures::all ? break_even_price(of, more, ahead) : Figure{std::nullopt, false};
  answer.worth_per_hour = worth_per_hour(of, more, ahead);
  return answer;
}

Result<double> value_of(const Case& of, const Budget& budget) {
  if (const auto problems = diagnosis::problems_of(of); !problems.empty())
    return tl::unexpected<Problem>(problems.front());
  const Model model = model_of(of);
  return solve(model, budget)->progress().value;
}

}  // namespace secondpull::decision
