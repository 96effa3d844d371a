#pragma once

#include <cstddef>

#include "core/diagnosis/case.h"

namespace secondpull::bench {

/// A seeded case of a given size: 12 to 20 causes, repairs that overlap and cure imperfectly, noisy tests
/// with two outcomes, two stops, on odd seeds one of them with a value by cause. Same size and seed, same
/// case.
diagnosis::Case random_case(std::size_t repairs, std::size_t tests, unsigned seed);

}  // namespace secondpull::bench
