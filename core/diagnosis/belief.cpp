#include "core/diagnosis/belief.h"

#include <algorithm>

#include "core/diagnosis/evidence.h"

namespace secondpull::diagnosis {
namespace {

template <class T>
const T* find_cause(const ByCause<T>& list, const std::string& cause) {
  const auto at =
      std::find_if(list.begin(), list.end(), [&](const auto& entry) { return entry.first == cause; });
  return at == list.end() ? nullptr : &at->second;
}

}  // namespace

std::vector<std::vector<double>> likelihood_table(const Test& test, const std::vector<Cause>& causes) {
  const std::size_t outcomes = test.outcomes.size();
  const std::vector<double> alike(outcomes, 1.0 / static_cast<double>(outcomes));
  std::vector<std::vector<double>> table(outcomes, std::vector<double>(causes.size()));
  for (std::size_t c = 0; c < causes.size(); ++c) {
    const std::vector<double>* row = find_cause(test.likelihood, causes[c].id);
    if (row == nullptr) row = test.otherwise ? &*test.otherwise : &alike;
    for (std::size_t o = 0; o < outcomes; ++o)
      table[o][c] = (*row)[o];
  }
  return table;
}

std::vector<double> cure_row(const Repair& repair, const std::vector<Cause>& causes) {
  std::vector<double> row;
  for (const Cause& cause : causes) {
    const double* chance = find_cause(repair.cures, cause.id);
    row.push_back(chance == nullptr ? 0.0 : *chance);
  }
  return row;
}

std::vector<Evidence> counting_evidence(const Case& of) {
  std::vector<Evidence> counting;
  for (const std::size_t line : counting_lines(of))
    counting.push_back(of.evidence[line]);
  return counting;
}

std::vector<double> posterior(const Case& of) {
  std::vector<double> belief = prior(of.causes);
  for (const std::size_t line : counting_lines(of))
    belief = update(of, std::move(belief), of.evidence[line]).belief;
  return belief;
}

}  // namespace secondpull::diagnosis
