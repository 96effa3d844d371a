#pragma once

#include <optional>
#include <vector>

#include "core/books/books.h"

namespace secondpull::app {

/// How the basis of a donor would split over the lines taken off it and the hulk.
struct PartingSplit {
  Money basis;               ///< what the donor has cost so far
  std::vector<Money> lines;  ///< one share a line, in the order given
  Money hulk;
};

/// Splits what the donor has cost over the values of its lines and of the hulk, the hulk last (no value: its
/// scrap money). The shares add up to the basis exactly. Absent for a machine that is not here.
std::optional<PartingSplit> partingSplit(const Books& books, MachineId donor,
                                         const std::vector<Money>& values, std::optional<Money> hulk_value,
                                         Money scrap_money);

}  // namespace secondpull::app
