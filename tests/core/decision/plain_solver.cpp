#include "tests/core/decision/plain_solver.h"

#include <algorithm>
#include <variant>

namespace secondpull::test {
namespace {

constexpr double kMinutesInAnHour = 60;
constexpr double kTie = 1e-9;  // decision-model.md: worth the same to within this

PlainFigures& operator+=(PlainFigures& sum, const PlainFigures& more) {
  sum.cash += more.cash;
  sum.hours += more.hours;
  sum.days += more.days;
  return sum;
}

PlainFigures operator*(double times, const PlainFigures& figures) {
  return {times * figures.cash, times * figures.hours, times * figures.days};
}

template <class Step>
PlainFigures cost_of(const Step& step) {
  return {-step.cost, step.minutes / kMinutesInAnHour, step.days};
}

template <class Item>
std::size_t place_of(const std::vector<Item>& list, const std::string& id) {
  std::size_t place = 0;
  while (list[place].id != id)
    ++place;
  return place;
}

}  // namespace

PlainState PlainSolver::start() const {
  PlainState state{std::vector<int>(case_.tests.size(), not_made), std::vector<int>(case_.repairs.size(), 0)};
  for (const diagnosis::Evidence& line : case_.evidence) {
    if (const auto* failed = std::get_if<diagnosis::RepairFailed>(&line)) {
      ++state.failed[place_of(case_.repairs, failed->repair)];
      continue;
    }
    const auto& showed = std::get<diagnosis::TestShowed>(line);
    const std::size_t made = place_of(case_.tests, showed.test);
    const diagnosis::Test& test = case_.tests[made];
    for (std::size_t t = 0; t < case_.tests.size(); ++t)
      if (!test.group.empty() && case_.tests[t].group == test.group) state.shown[t] = not_made;
    state.shown[made] = static_cast<int>(
        std::find(test.outcomes.begin(), test.outcomes.end(), showed.outcome) - test.outcomes.begin());
  }
  return state;
}

double PlainSolver::likelihood(std::size_t test, std::size_t outcome, std::size_t cause) const {
  const diagnosis::Test& of = case_.tests[test];
  for (const auto& [id, row] : of.likelihood)
    if (id == case_.causes[cause].id) return row[outcome];
  if (of.otherwise) return (*of.otherwise)[outcome];
  return 1.0 / static_cast<double>(of.outcomes.size());
}

double PlainSolver::cure(std::size_t repair, std::size_t cause) const {
  for (const auto& [id, chance] : case_.repairs[repair].cures)
    if (id == case_.causes[cause].id) return chance;
  return 0;
}

std::vector<double> PlainSolver::belief(const PlainState& state) const {
  std::vector<double> p;
  double sum = 0;
  for (std::size_t c = 0; c < case_.causes.size(); ++c) {
    double weight = case_.causes[c].weight;
    for (std::size_t t = 0; t < state.shown.size(); ++t)
      if (state.shown[t] != not_made) weight *= likelihood(t, static_cast<std::size_t>(state.shown[t]), c);
    for (std::size_t r = 0; r < state.failed.size(); ++r)
      for (int times = 0; times < state.failed[r]; ++times)
        weight *= 1 - cure(r, c);
    p.push_back(weight);
    sum += weight;
  }
  for (double& share : p)
    share /= sum;
  return p;
}

double PlainSolver::worth(const PlainFigures& figures) const {
  return figures.cash - case_.hour_value * figures.hours - case_.day_cost * figures.days;
}

PlainFigures PlainSolver::sale() const {
  const diagnosis::Revived& revived = case_.revived;
  PlainFigures sale{revived.price * (1 - revived.fee_rate) - revived.fee_fixed -
                        revived.comeback_chance * revived.comeback_cost,
                    revived.hours, revived.days};
  for (const diagnosis::KnownWork& work : revived.known_work) {
    sale.cash -= work.cost;
    sale.hours += work.minutes / kMinutesInAnHour;
  }
  return sale;
}

bool PlainSolver::may_test(const PlainState& state, std::size_t test) const {
  for (std::size_t t = 0; t < state.shown.size(); ++t) {
    const bool same_group = !case_.tests[t].group.empty() && case_.tests[t].group == case_.tests[test].group;
    if (state.shown[t] != not_made && (t == test || same_group)) return false;
  }
  return true;
}

PlainMove PlainSolver::stop(std::size_t place, const std::vector<double>& belief) const {
  const diagnosis::Stop& stop = case_.stops[place];
  PlainMove move{"stop", stop.id, {0, stop.hours, stop.days}, {{stop.id, 1.0}}, {}};
  for (std::size_t c = 0; c < belief.size(); ++c) {
    double value = stop.value;
    for (const auto& [id, special] : stop.value_by_cause)
      if (id == case_.causes[c].id) value = special;
    move.now.cash += belief[c] * value;
  }
  return move;
}

PlainMove PlainSolver::repair(std::size_t place, const PlainState& state,
                              const std::vector<double>& belief) const {
  PlainMove move{"repair", case_.repairs[place].id, cost_of(case_.repairs[place]), {}, {}};
  double mended = 0;
  double failed = 0;
  for (std::size_t c = 0; c < belief.size(); ++c) {
    mended += belief[c] * cure(place, c);
    failed += belief[c] * (1 - cure(place, c));
  }
  move.now += mended * sale();
  move.endings["revived"] = mended;
  if (failed > 0) {
    PlainState next = state;
    ++next.failed[place];
    move.branches.push_back({failed, next});
  }
  return move;
}

PlainMove PlainSolver::test(std::size_t place, const PlainState& state,
                            const std::vector<double>& belief) const {
  PlainMove move{"test", case_.tests[place].id, cost_of(case_.tests[place]), {}, {}};
  for (std::size_t o = 0; o < case_.tests[place].outcomes.size(); ++o) {
    double chance = 0;
    for (std::size_t c = 0; c < belief.size(); ++c)
      chance += belief[c] * likelihood(place, o, c);
    if (chance <= 0) continue;
    PlainState next = state;
    next.shown[place] = static_cast<int>(o);
    move.branches.push_back({chance, next});
  }
  return move;
}

std::vector<PlainMove> PlainSolver::moves(const PlainState& state) const {
  const std::vector<double> now = belief(state);
  std::vector<PlainMove> moves;
  for (std::size_t s = 0; s < case_.stops.size(); ++s)
    moves.push_back(stop(s, now));
  for (std::size_t r = 0; r < case_.repairs.size(); ++r)
    if (state.failed[r] < case_.repairs[r].tries) moves.push_back(repair(r, state, now));
  for (std::size_t t = 0; t < case_.tests.size(); ++t)
    if (may_test(state, t)) moves.push_back(test(t, state, now));
  return moves;
}

double PlainSolver::value(const PlainMove& move) {
  double sum = worth(move.now);
  for (const PlainMove::Branch& branch : move.branches)
    sum += branch.chance * best(branch.next).value;
  return sum;
}

const PlainCourse& PlainSolver::best(const PlainState& state) {
  if (const auto known = solved_.find(state); known != solved_.end()) return known->second;
  const std::vector<PlainMove> choice = moves(state);
  std::vector<double> values;
  for (const PlainMove& move : choice)
    values.push_back(value(move));
  const double highest = *std::max_element(values.begin(), values.end());
  std::size_t chosen = 0;
  while (values[chosen] < highest - kTie)
    ++chosen;
  const PlainMove& move = choice[chosen];
  PlainCourse course{highest, move.kind, move.id, move.now, {{"revived", 0.0}}};
  for (const diagnosis::Stop& stop : case_.stops)
    course.chances[stop.id] = 0;
  for (const auto& [ending, chance] : move.endings)
    course.chances[ending] += chance;
  for (const PlainMove::Branch& branch : move.branches) {
    const PlainCourse& after = best(branch.next);
    course.expected += branch.chance * after.expected;
    for (const auto& [ending, chance] : after.chances)
      course.chances[ending] += branch.chance * chance;
  }
  return solved_.emplace(state, std::move(course)).first->second;
}

namespace {

class MyopicPlan {
 public:
  explicit MyopicPlan(const diagnosis::Case& of) : solver_{of} {}

  double value() { return value(solver_.start()); }

 private:
  PlainSolver solver_;
  std::map<PlainState, double> known_;

  double stopping(const PlainState& state) const {
    double best = 0;
    bool first = true;
    for (const PlainMove& move : solver_.moves(state)) {
      if (move.kind != "stop") continue;
      best = first ? solver_.worth(move.now) : std::max(best, solver_.worth(move.now));
      first = false;
    }
    return best;
  }

  double value(const PlainState& state) {
    if (const auto known = known_.find(state); known != known_.end()) return known->second;
    double promised = 0;
    const PlainMove* chosen = nullptr;
    const std::vector<PlainMove> choice = solver_.moves(state);
    for (const PlainMove& move : choice) {
      double worth = solver_.worth(move.now);
      for (const PlainMove::Branch& branch : move.branches)
        worth += branch.chance * stopping(branch.next);
      if (chosen == nullptr || worth > promised) {
        chosen = &move;
        promised = worth;
      }
    }
    double sum = solver_.worth(chosen->now);
    for (const PlainMove::Branch& branch : chosen->branches)
      sum += branch.chance * value(branch.next);
    return known_.emplace(state, sum).first->second;
  }
};

}  // namespace

double myopic_value(const diagnosis::Case& of) {
  return MyopicPlan{of}.value();
}

}  // namespace secondpull::test
