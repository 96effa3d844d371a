#include "core/decision/cost_shares.h"

#include <algorithm>
#include <cmath>

namespace secondpull::decision {

CostShares::CostShares(const StateSpace& space, const CausePairs& pairs, std::vector<std::size_t> causes,
                       std::span<const double> weight)
    : steps_(space.layout().steps()),
      causes_(std::move(causes)),
      place_(space.layout().causes(), not_there),
      shares_(rows() * causes_.size() * causes_.size(), 0) {
  for (std::size_t i = 0; i < causes_.size(); ++i)
    place_[causes_[i]] = i;
  const Layout& layout = space.layout();
  std::vector<double> cures(layout.causes());
  for (std::size_t step = 0; step < rows(); ++step) {
    std::ranges::fill(cures, 0);
    if (step < layout.repairs.size())
      for (const Layout::Cure& cure : layout.repairs[step].cures)
        cures[cure.cause] = cure.chance;
    for (const std::size_t c : causes_)
      for (const std::size_t d : causes_) {
        if (c == d) continue;
        double share = std::sqrt(weight[d]);
        if (step < layout.repairs.size()) {
          if (cures[c] <= 0) share = weight[d] * cures[d];
        } else if (step < steps_) {
          const double apart = pairs.apartness(step - layout.repairs.size(), c, d);
          share *= apart * apart;
        }
        shares_[at(step, c, d)] = static_cast<float>(share);
      }
  }
  even_out();
}

/// Makes the shares of each charge add up to a little less than 1, so that rounding cannot take them above.
void CostShares::even_out() {
  constexpr double whole = 1 - 1e-6;
  const std::size_t count = causes_.size();
  for (std::size_t row = 0; row < rows() * count; ++row) {
    float* const shares = shares_.data() + row * count;
    double sum = 0;
    for (std::size_t i = 0; i < count; ++i)
      sum += static_cast<double>(shares[i]);
    if (sum <= 0) continue;
    for (std::size_t i = 0; i < count; ++i)
      shares[i] = static_cast<float>(static_cast<double>(shares[i]) * whole / sum);
  }
}

void CostShares::start_from(const CostShares& other, double part) {
  for (std::size_t step = 0; step < rows(); ++step)
    for (const std::size_t c : causes_)
      for (const std::size_t d : causes_) {
        if (!other.has(c) || !other.has(d)) continue;
        float& share = shares_[at(step, c, d)];
        share = static_cast<float>(part * static_cast<double>(share) + (1 - part) * other.of(step, c, d));
      }
  even_out();
}

void CostShares::improve(std::span<const double> usage, double rate) {
  const std::size_t count = causes_.size();
  for (std::size_t row = 0; row < rows() * count; ++row) {
    const std::span<const double> used = usage.subspan(row * count, count);
    float* const shares = shares_.data() + row * count;
    const double most = std::ranges::max(used);
    if (most <= 0) continue;
    double mean = 0;
    for (std::size_t i = 0; i < count; ++i)
      mean += used[i] * static_cast<double>(shares[i]);
    for (std::size_t i = 0; i < count; ++i)
      shares[i] =
          static_cast<float>(static_cast<double>(shares[i]) * std::exp(rate * (used[i] - mean) / most));
  }
  even_out();
}

}  // namespace secondpull::decision
