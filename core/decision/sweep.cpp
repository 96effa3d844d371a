#include "core/decision/sweep.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/decision/sweep_loops.h"

namespace secondpull::decision {
namespace {

/// Low digits of the failed tries are solved within a block one after the other, the rest a block at a time.
constexpr std::size_t smallest_block = 8;
/// Between two looks at the budget.
constexpr std::size_t states_between_looks = std::size_t{1} << 20;

std::size_t times(std::size_t a, std::size_t b) {
  std::size_t product = 0;
  return __builtin_mul_overflow(a, b, &product) ? std::numeric_limits<std::size_t>::max() : product;
}

std::size_t answers_of(const Model& model, std::size_t slot) {
  std::size_t answers = 1;
  for (const std::size_t test : model.slot_tests[slot])
    answers += model.tests[test].likelihood.size();
  return answers;
}

/// The value function over every state, as *loss*: L = |w| (V - R), the unnormalised worth less that of a
/// running machine. Then a repair is -cost |w| + L(after), whatever it cures: what it mends drops out of |w|
/// and loses nothing.
class Sweep final : public Solution {
 public:
  Sweep(const Model& model, Root root) : model_{model}, root_{root} {
    for (std::size_t slot = 0; slot < model.slot_tests.size(); ++slot) {
      answers_in_.push_back(answers_of(model, slot));
      answer_strides_.push_back(answer_count_);
      answer_count_ *= answers_in_.back();
    }
    for (const Model::Repair& repair : model.repairs) {
      digits_.push_back(
          {.stride = tries_, .tries = static_cast<std::size_t>(repair.tries), .cost = repair.cost.full});
      tries_ *= digits_.back().tries + 1;
      if (block_ < smallest_block) {
        block_ = tries_;
        ++low_digits_;
      }
    }
    steps_ = loops::low_steps(std::span{digits_}.first(low_digits_), block_);
    make_left();
  }

  /// False if the budget ran out.
  bool run(const Budget& budget) {
    loss_ = std::make_unique_for_overwrite<double[]>(answer_count_ * tries_);
    mass_.resize(tries_);
    other_.resize(tries_);
    std::size_t since_look = 0;
    for (std::size_t answers = answer_count_; answers-- > 0;) {
      solve_all_tries(answers);
      since_look += tries_;
      if (since_look < states_between_looks) continue;
      since_look = 0;
      if (budget.spent && budget.spent() > budget.time) return false;
      if (budget.go_on && !budget.go_on(progress_so_far(answers))) return false;
    }
    const auto worth = moves(start_of(model_));
    const bool no_stop = root_ == Root::going_on;
    progress_ = {.states = answer_count_ * tries_, .bytes = answer_count_ * tries_ * sizeof(double)};
    progress_.value = -std::numeric_limits<double>::infinity();
    for (const MoveWorth& move : worth)
      if (!(no_stop && move.move.kind == Move::Kind::stop))
        progress_.value = std::max(progress_.value, move.value);
    progress_.at_most = progress_.value;
    return true;
  }

  std::vector<MoveWorth> moves(const Position& at) override {
    const std::vector<double> weights = weights_at(model_, at);
    const double mass = std::accumulate(weights.begin(), weights.end(), 0.0);
    std::vector<MoveWorth> out;
    const auto add = [&](Move::Kind kind, std::size_t place, double loss) {
      const double value = mass > 0 ? model_.running_worth + loss / mass : 0;
      out.push_back({{kind, place}, value, value});
    };
    for (std::size_t s = 0; s < model_.stops.size(); ++s) {
      double loss = 0;
      for (std::size_t c = 0; c < weights.size(); ++c)
        loss += weights[c] * (model_.stops[s].worth[c] - model_.running_worth);
      add(Move::Kind::stop, s, loss);
    }
    const double* here = loss_.get() + place_of(at);
    for (std::size_t a = 0; a < model_.repairs.size(); ++a)
      if (at.tried[a] < model_.repairs[a].tries)
        add(Move::Kind::repair, a, here[digits_[a].stride] - digits_[a].cost * mass);
    for (std::size_t t = 0; t < model_.tests.size(); ++t) {
      if (!is_open(model_, at, t)) continue;
      double loss = -model_.tests[t].cost.full * mass;
      for (std::size_t o = 0; o < model_.tests[t].likelihood.size(); ++o)
        loss += loss_[place_of(after_answer(model_, at, t, o))];
      add(Move::Kind::test, t, loss);
    }
    return out;
  }

  Progress progress() const override { return progress_; }

 private:
  /// P(not mended) for each number of failed tries, as a product of two tables: low digits x high digits.
  void make_left() {
    std::size_t digit = 0;
    while (digit < digits_.size() && lows_ * lows_ < tries_)
      lows_ *= digits_[digit++].tries + 1;
    highs_ = tries_ / lows_;
    low_ = table(0, digit, lows_);
    high_ = table(digit, digits_.size(), highs_);
  }

  std::vector<double> table(std::size_t first, std::size_t end, std::size_t size) const {
    std::vector<double> out;
    for (std::size_t c = 0; c < model_.causes.size(); ++c)
      for (std::size_t i = 0; i < size; ++i) {
        double left = 1;
        std::size_t rest = i;
        for (std::size_t d = first; d < end; ++d) {
          for (std::size_t n = rest % (digits_[d].tries + 1); n > 0; --n)
            left *= 1 - model_.repairs[d].cures[c];
          rest /= digits_[d].tries + 1;
        }
        out.push_back(left);
      }
    return out;
  }

  std::size_t place_of(const Position& at) const {
    std::size_t answers = 0;
    for (std::size_t slot = 0; slot < at.answers.size(); ++slot)
      answers += at.answers[slot] * answer_strides_[slot];
    std::size_t place = answers * tries_;
    for (std::size_t a = 0; a < at.tried.size(); ++a)
      place += at.tried[a] * digits_[a].stride;
    return place;
  }

  void solve_all_tries(std::size_t answers) {
    double* out = loss_.get() + answers * tries_;
    Position at = start_of(model_);
    for (std::size_t slot = 0, rest = answers; slot < at.answers.size(); ++slot) {
      const std::size_t radix = answers_in_[slot];
      at.answers[slot] = static_cast<std::uint16_t>(rest % radix);
      rest /= radix;
    }
    const std::vector<double> weights = weights_at(model_, at);
    if (std::all_of(weights.begin(), weights.end(), [](double weight) { return weight == 0; })) {
      std::fill_n(out, tries_, 0.0);
      return;
    }
    outer_sum(weights, mass_.data());
    stop_everywhere(weights, out);
    for (std::size_t slot = 0; slot < at.answers.size(); ++slot) {
      if (at.answers[slot] != 0) continue;
      std::size_t answer = 1;
      for (const std::size_t test : model_.slot_tests[slot]) {
        rows_.clear();
        for (std::size_t o = 0; o < model_.tests[test].likelihood.size(); ++o, ++answer)
          rows_.push_back(out + answer * answer_strides_[slot] * tries_);
        loops::raise_test(out, rows_, mass_.data(), model_.tests[test].cost.full, tries_);
      }
    }
    loops::raise_repairs(out, mass_.data(), steps_, std::span{digits_}.subspan(low_digits_), block_, tries_);
  }

  void outer_sum(const std::vector<double>& weights, double* out) const {
    loops::outer_sum(weights, low_.data(), lows_, high_.data(), highs_, out);
  }

  void stop_everywhere(const std::vector<double>& weights, double* out) {
    double best_flat = -std::numeric_limits<double>::infinity();
    for (const Model::Stop& stop : model_.stops)
      if (!stop.by_cause && !stop.worth.empty()) best_flat = std::max(best_flat, stop.worth.front());
    bool begun = std::isfinite(best_flat);
    if (begun) loops::scaled(out, mass_.data(), best_flat - model_.running_worth, tries_);
    for (const Model::Stop& stop : model_.stops) {
      if (!stop.by_cause) continue;
      std::vector<double> worth = weights;
      for (std::size_t c = 0; c < worth.size(); ++c)
        worth[c] *= stop.worth[c] - model_.running_worth;
      outer_sum(worth, begun ? other_.data() : out);
      if (begun) loops::raise(out, other_.data(), tries_);
      begun = true;
    }
  }

  Progress progress_so_far(std::size_t answers_left) const {
    const std::size_t done = (answer_count_ - answers_left) * tries_;
    return {.value = -std::numeric_limits<double>::infinity(),
            .at_most = std::numeric_limits<double>::infinity(),
            .states = done,
            .bytes = answer_count_ * tries_ * sizeof(double)};
  }

  const Model& model_;
  Root root_;
  std::size_t answer_count_ = 1;
  std::vector<std::size_t> answer_strides_;
  std::vector<std::size_t> answers_in_;  ///< by slot, "none yet" included
  std::size_t tries_ = 1;                ///< how many numbers of failed tries there are
  std::vector<loops::Digit> digits_;
  std::size_t low_digits_ = 0;
  std::size_t block_ = 1;
  std::vector<loops::LowStep> steps_;
  std::size_t lows_ = 1;
  std::size_t highs_ = 1;
  std::vector<double> low_;
  std::vector<double> high_;
  std::unique_ptr<double[]> loss_;
  std::vector<double> mass_;
  std::vector<double> other_;
  std::vector<const double*> rows_;
  Progress progress_;
};

}  // namespace

std::size_t states_of(const Model& model) {
  std::size_t states = 1;
  for (std::size_t slot = 0; slot < model.slot_tests.size(); ++slot)
    states = times(states, answers_of(model, slot));
  for (const Model::Repair& repair : model.repairs)
    states = times(states, static_cast<std::size_t>(repair.tries) + 1);
  return states;
}

std::unique_ptr<Solution> sweep(const Model& model, const Budget& budget, Root root) {
  const std::size_t states = states_of(model);
  if (states > budget.states || times(states, sizeof(double)) > budget.bytes) return nullptr;
  auto solution = std::make_unique<Sweep>(model, root);
  if (!solution->run(budget)) return nullptr;
  return solution;
}

}  // namespace secondpull::decision
