#include "tests/bench/plain_sweep.h"

#include <algorithm>
#include <limits>
#include <vector>

namespace secondpull::bench {
namespace {

using decision::Model;

struct Answer {
  std::size_t test = 0;
  std::size_t outcome = 0;
};

}  // namespace

PlainSweep plain_sweep(const Model& model) {
  const std::size_t causes = model.causes.size();
  std::vector<std::vector<Answer>> answers(model.slot_tests.size());
  std::vector<std::size_t> answer_stride;
  std::size_t tries = 1;
  std::vector<std::size_t> try_stride;
  for (const Model::Repair& repair : model.repairs) {
    try_stride.push_back(tries);
    tries *= static_cast<std::size_t>(repair.tries) + 1;
  }
  std::size_t states = tries;
  for (std::size_t slot = 0; slot < model.slot_tests.size(); ++slot) {
    for (const std::size_t test : model.slot_tests[slot])
      for (std::size_t o = 0; o < model.tests[test].likelihood.size(); ++o)
        answers[slot].push_back({test, o});
    answer_stride.push_back(states);
    states *= answers[slot].size() + 1;
  }
  // P(not mended) after each number of failed tries, by cause.
  std::vector<double> left(tries * causes, 1.0);
  for (std::size_t f = 0; f < tries; ++f)
    for (std::size_t a = 0; a < model.repairs.size(); ++a)
      for (std::size_t n = f / try_stride[a] % (static_cast<std::size_t>(model.repairs[a].tries) + 1); n > 0;
           --n)
        for (std::size_t c = 0; c < causes; ++c)
          left[f * causes + c] *= 1 - model.repairs[a].cures[c];

  std::vector<double> worth(states);
  std::vector<double> seen(causes);
  std::vector<double> weight(causes);
  std::vector<double> mass_of(tries);  // with the answers at hand, by number of failed tries
  std::size_t state = states;
  std::vector<std::size_t> answered(answers.size());
  for (std::size_t combination = states / tries; combination-- > 0;) {
    for (std::size_t c = 0; c < causes; ++c)
      seen[c] = model.causes[c].weight;
    for (std::size_t slot = 0; slot < answers.size(); ++slot) {
      answered[slot] = combination * tries / answer_stride[slot] % (answers[slot].size() + 1);
      if (answered[slot] == 0) continue;
      const Answer& answer = answers[slot][answered[slot] - 1];
      for (std::size_t c = 0; c < causes; ++c)
        seen[c] *= model.tests[answer.test].likelihood[answer.outcome][c];
    }
    std::vector<int> tried;
    for (const Model::Repair& repair : model.repairs)
      tried.push_back(repair.tries);
    for (std::size_t failed = tries; failed-- > 0;) {
      --state;
      double mass = 0;
      for (std::size_t c = 0; c < causes; ++c)
        mass += weight[c] = seen[c] * left[failed * causes + c];
      mass_of[failed] = mass;
      double best = -std::numeric_limits<double>::infinity();
      for (const Model::Stop& stop : model.stops) {
        double value = mass * stop.worth.front();
        if (stop.by_cause) {
          value = 0;
          for (std::size_t c = 0; c < causes; ++c)
            value += weight[c] * stop.worth[c];
        }
        best = std::max(best, value);
      }
      for (std::size_t a = 0; a < model.repairs.size(); ++a) {
        if (tried[a] == model.repairs[a].tries) continue;
        const double mended = mass - mass_of[failed + try_stride[a]];
        best = std::max(best, mended * model.running_worth - mass * model.repairs[a].cost.full +
                                  worth[state + try_stride[a]]);
      }
      for (std::size_t slot = 0; slot < answers.size(); ++slot) {
        if (answered[slot] != 0) continue;
        std::size_t digit = 1;
        for (const std::size_t test : model.slot_tests[slot]) {
          double value = -mass * model.tests[test].cost.full;
          for (std::size_t o = 0; o < model.tests[test].likelihood.size(); ++o, ++digit)
            value += worth[state + digit * answer_stride[slot]];
          best = std::max(best, value);
        }
      }
      worth[state] = best;
      for (std::size_t a = 0; a < tried.size(); ++a) {  // one failed try fewer
        if (tried[a]-- > 0) break;
        tried[a] = model.repairs[a].tries;
      }
    }
  }
  return {worth.front(), states, (states + left.size()) * sizeof(double)};
}

}  // namespace secondpull::bench
