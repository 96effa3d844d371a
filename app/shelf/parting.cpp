#include "app/shelf/parting.h"

namespace secondpull::app {

std::optional<PartingSplit> partingSplit(const Books& books, MachineId donor,
                                         const std::vector<Money>& values, std::optional<Money> hulk_value,
                                         Money scrap_money) {
  const MachineFigures* figures = books.machine(donor);
  if (figures == nullptr || !is_here(figures->stage)) return std::nullopt;
  std::vector<Money> weights = values;
  weights.push_back(hulk_value.value_or(scrap_money));
  std::vector<Money> shares = split(figures->cost_basis, weights);
  PartingSplit parting{.basis = figures->cost_basis, .hulk = shares.back()};
  shares.pop_back();
  parting.lines = std::move(shares);
  return parting;
}

}  // namespace secondpull::app
