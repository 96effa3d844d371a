#pragma once

#include <cstddef>
#include <vector>

#include "core/diagnosis/case.h"

namespace secondpull::diagnosis {

/// Places in `of.evidence` of the lines that count, rising: of one group of tests the last listed alone.
/// Lines that name an unknown test are left out.
std::vector<std::size_t> counting_lines(const Case& of);

/// What a line of evidence makes of the belief.
struct Update {
  std::vector<double> belief;  ///< by cause, adding up to 1; all 0 if the line cannot have been seen
  bool possible = false;
};

/// Bayes' rule for one line. `belief` adds up to 1; ids of the line are known.
Update update(const Case& of, std::vector<double> belief, const Evidence& line);

/// The causes' weights as probabilities, adding up to 1. At least one weight is more than 0.
std::vector<double> prior(const std::vector<Cause>& causes);

}  // namespace secondpull::diagnosis
