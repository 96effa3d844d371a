#include "core/decision/plan.h"

#include <algorithm>
#include <numeric>

namespace secondpull::decision {
namespace {

double sum(const std::vector<double>& numbers) {
  return std::accumulate(numbers.begin(), numbers.end(), 0.0);
}

/// Follows a solution's moves from position to position. Since a position holds everything that was seen, two
/// ways through a plan never meet again: what can be reached is a tree.
class Reader {
 public:
  Reader(const Model& model, Solution& solution, double price_after_fee)
      : model_{model}, solution_{solution}, price_after_fee_{price_after_fee} {}

  PlanNode read(Root root) { return node(start_of(model_), {}, root); }

  Expected expected;
  std::vector<Ending> endings;

 private:
  struct Spent {
    double cash = 0;
    double hours = 0;
    double days = 0;
  };

  static Spent with(Spent spent, const StepCost& cost) {
    return {spent.cash + cost.cash, spent.hours + cost.hours, spent.days + cost.days};
  }

  PlanNode node(const Position& at, const Spent& spent, Root root) {
    std::vector<MoveWorth> moves = solution_.moves(at);
    if (root == Root::going_on)
      std::erase_if(moves, [](const MoveWorth& move) { return move.move.kind == Move::Kind::stop; });
    PlanNode out;
    out.belief = weights_at(model_, at);
    out.chance = sum(out.belief);
    const MoveWorth chosen = best_of(moves);
    out.move = chosen.move;
    for (const MoveWorth& other : moves)
      if (other.move != chosen.move && (!out.runner_up || other.value > out.runner_up->value))
        out.runner_up = other;
    switch (out.move.kind) {
      case Move::Kind::stop:
        stop(out, spent);
        break;
      case Move::Kind::repair:
        repair(out, at, spent);
        break;
      case Move::Kind::test:
        test(out, at, spent);
        break;
    }
    for (double& p : out.belief)
      p /= out.chance;
    return out;
  }

  void stop(PlanNode& here, const Spent& spent) {
    const Model::Stop& stop = model_.stops[here.move.place];
    double cash = 0;
    for (std::size_t c = 0; c < here.belief.size(); ++c)
      cash += here.belief[c] / here.chance * stop.cash[c];
    here.worth = cash - stop.cost.full;
    end({here.move.place, here.chance, cash - spent.cash}, cash, with(spent, stop.cost));
  }

  void repair(PlanNode& here, const Position& at, const Spent& before) {
    const Model::Repair& repair = model_.repairs[here.move.place];
    const Spent spent = with(before, repair.cost);
    double mended = 0;
    double failed = 0;
    for (std::size_t c = 0; c < here.belief.size(); ++c) {
      mended += here.belief[c] * repair.cures[c];
      failed += here.belief[c] * (1 - repair.cures[c]);
    }
    here.chance_mended = mended / here.chance;
    here.worth = -repair.cost.full;
    if (mended > negligible) {
      PlanNode& done = here.children.emplace_back();
      done.what = PlanNode::What::revived;
      done.chance = mended;
      done.worth = model_.running_worth;
      for (std::size_t c = 0; c < here.belief.size(); ++c)
        done.belief.push_back(here.belief[c] * repair.cures[c] / mended);
      here.worth += mended / here.chance * done.worth;
      end({std::nullopt, mended, -spent.cash}, price_after_fee_ - model_.running.cash,
          with(spent, {0, model_.running.hours, model_.running.days, 0}));
    }
    if (failed > negligible) {
      here.children.push_back(node(after_failure(at, here.move.place), spent, Root::any));
      here.worth += failed / here.chance * here.children.back().worth;
    }
  }

  void test(PlanNode& here, const Position& at, const Spent& before) {
    const Model::Test& test = model_.tests[here.move.place];
    const Spent spent = with(before, test.cost);
    here.worth = -test.cost.full;
    for (std::size_t outcome = 0; outcome < test.likelihood.size(); ++outcome) {
      double shown = 0;
      for (std::size_t c = 0; c < here.belief.size(); ++c)
        shown += here.belief[c] * test.likelihood[outcome][c];
      if (shown <= negligible) continue;
      here.children.push_back(node(after_answer(model_, at, here.move.place, outcome), spent, Root::any));
      here.children.back().outcome = outcome;
      here.worth += shown / here.chance * here.children.back().worth;
    }
  }

  void end(const Ending& ending, double cash_in, const Spent& spent) {
    endings.push_back(ending);
    expected.cash += ending.chance * (cash_in - spent.cash);
    expected.hours += ending.chance * spent.hours;
    expected.days += ending.chance * spent.days;
    if (!ending.stop) expected.revived += ending.chance;
  }

  const Model& model_;
  Solution& solution_;
  double price_after_fee_;
};

}  // namespace

Plan read_plan(const Model& model, Solution& solution, double price_after_fee, Root root) {
  Reader reader{model, solution, price_after_fee};
  Plan plan;
  plan.root = reader.read(root);
  plan.expected = reader.expected;
  plan.endings = std::move(reader.endings);
  return plan;
}

}  // namespace secondpull::decision
