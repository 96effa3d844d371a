#pragma once

#include <cstddef>
#include <span>
#include <vector>

/// The inner loops of the sweep, over all numbers of failed tries at once. This file's source is built for
/// wide registers where the machine has them; every loop does the same operations in the same order either
/// way.
namespace secondpull::decision::loops {

/// out = sum over causes of weight x low[cause] (outer product) high[cause]: the mass of each state.
/// `low` and `high` hold one row per cause, of `lows` and `highs` numbers; out has lows x highs.
void outer_sum(std::span<const double> weight, const double* low, std::size_t lows, const double* high,
               std::size_t highs, double* out);

/// out = factor x in
void scaled(double* out, const double* in, double factor, std::size_t size);

/// out = max(out, in)
void raise(double* out, const double* in, std::size_t size);

/// out = max(out, sum of the rows - cost x mass)
void raise_test(double* out, std::span<const double* const> rows, const double* mass, double cost,
                std::size_t size);

/// A repair's place in the numbering of failed tries.
struct Digit {
  std::size_t stride = 1;
  std::size_t tries = 1;
  double cost = 0;
};

/// One repair at one state within a block.
struct LowStep {
  std::size_t at = 0;
  std::size_t after = 0;
  double cost = 0;
};

/// The steps of the digits that number the places within a block, in the order in which they can be taken.
std::vector<LowStep> low_steps(std::span<const Digit> low_digits, std::size_t block);

/// Raises out (highest number first) to the worth of each repair still to be had: out[i + stride] - cost x
/// mass[i]. `steps` are low_steps of the digits below `block`; `high_digits` are the others, their strides
/// multiples of it.
void raise_repairs(double* out, const double* mass, std::span<const LowStep> steps,
                   std::span<const Digit> high_digits, std::size_t block, std::size_t size);

}  // namespace secondpull::decision::loops
