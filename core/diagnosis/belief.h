#pragma once

#include <vector>

#include "core/diagnosis/case.h"

namespace secondpull::diagnosis {

/// P(outcome | cause) of a test for every cause of the case: [outcome][cause]. The test has no problems.
std::vector<std::vector<double>> likelihood_table(const Test& test, const std::vector<Cause>& causes);

/// P(mended | cause) of a repair for every cause of the case.
std::vector<double> cure_row(const Repair& repair, const std::vector<Cause>& causes);

/// The evidence that counts: of one group of tests the last listed alone, in the order of the case.
std::vector<Evidence> counting_evidence(const Case& of);

/// p(cause | evidence) for each cause of the case, adding up to 1. `of` has no problems, except that its
/// evidence may be impossible: then all are 0. Bayes' rule; a failed repair multiplies by 1 - cures.
std::vector<double> posterior(const Case& of);

}  // namespace secondpull::diagnosis
