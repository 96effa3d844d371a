#include "core/learning/dirichlet.h"

#include <algorithm>

namespace secondpull::learning {

Dirichlet::Dirichlet(const Counts& counts) {
  for (const auto& [cause, count] : counts)
    add(cause, count);
}

void Dirichlet::add(std::string_view cause, double cases) {
  const auto at =
      std::find_if(counts_.begin(), counts_.end(), [&](const auto& row) { return row.first == cause; });
  if (at != counts_.end())
    at->second += cases;
  else
    counts_.emplace_back(cause, cases);
}

void Dirichlet::remove(std::string_view cause) {
  std::erase_if(counts_, [&](const auto& row) { return row.first == cause; });
}

double Dirichlet::count(std::string_view cause) const {
  for (const auto& [id, count] : counts_)
    if (id == cause) return count;
  return 0;
}

double Dirichlet::total() const {
  double sum = 0;
  for (const auto& [id, count] : counts_)
    sum += count;
  return sum;
}

double Dirichlet::mean(std::string_view cause) const {
  const double all = total();
  return all > 0 ? count(cause) / all : 0;
}

}  // namespace secondpull::learning
