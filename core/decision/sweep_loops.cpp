#include "core/decision/sweep_loops.h"

#include <algorithm>

#include "core/decision/wide.h"

namespace secondpull::decision::loops {

SECONDPULL_WIDE
void outer_sum(std::span<const double> weight, const double* low, std::size_t lows, const double* high,
               std::size_t highs, double* __restrict out) {
  for (std::size_t h = 0; h < highs; ++h) {
    double* __restrict row = out + h * lows;
    std::fill_n(row, lows, 0.0);
    for (std::size_t c = 0; c < weight.size(); ++c) {
      const double factor = weight[c] * high[c * highs + h];
      if (factor == 0) continue;
      const double* __restrict in = low + c * lows;
      for (std::size_t i = 0; i < lows; ++i)
        row[i] += factor * in[i];
    }
  }
}

SECONDPULL_WIDE
void scaled(double* __restrict out, const double* __restrict in, double factor, std::size_t size) {
  for (std::size_t i = 0; i < size; ++i)
    out[i] = factor * in[i];
}

SECONDPULL_WIDE
void raise(double* __restrict out, const double* __restrict in, std::size_t size) {
  for (std::size_t i = 0; i < size; ++i)
    out[i] = out[i] > in[i] ? out[i] : in[i];
}

SECONDPULL_WIDE
void raise_test(double* __restrict out, std::span<const double* const> rows, const double* __restrict mass,
                double cost, std::size_t size) {
  // Tests with two or three outcomes are the rule; theirs is one pass over memory.
  if (rows.size() == 2) {
    const double* __restrict a = rows[0];
    const double* __restrict b = rows[1];
    for (std::size_t i = 0; i < size; ++i) {
      const double worth = a[i] + b[i] - cost * mass[i];
      out[i] = out[i] > worth ? out[i] : worth;
    }
    return;
  }
  if (rows.size() == 3) {
    const double* __restrict a = rows[0];
    const double* __restrict b = rows[1];
    const double* __restrict d = rows[2];
    for (std::size_t i = 0; i < size; ++i) {
      const double worth = a[i] + b[i] + d[i] - cost * mass[i];
      out[i] = out[i] > worth ? out[i] : worth;
    }
    return;
  }
  constexpr std::size_t chunk = 64;
  for (std::size_t from = 0; from < size; from += chunk) {
    const std::size_t here = std::min(chunk, size - from);
    double worth[chunk] = {};
    for (const double* row : rows)
      for (std::size_t i = 0; i < here; ++i)
        worth[i] += row[from + i];
    for (std::size_t i = 0; i < here; ++i) {
      const double less = worth[i] - cost * mass[from + i];
      out[from + i] = out[from + i] > less ? out[from + i] : less;
    }
  }
}

std::vector<LowStep> low_steps(std::span<const Digit> low_digits, std::size_t block) {
  std::vector<LowStep> out;
  for (std::size_t i = block; i-- > 0;)
    for (const Digit& digit : low_digits)
      if (i / digit.stride % (digit.tries + 1) < digit.tries)
        out.push_back({i, i + digit.stride, digit.cost});
  return out;
}

SECONDPULL_WIDE
void raise_repairs(double* out, const double* mass, std::span<const LowStep> steps,
                   std::span<const Digit> high_digits, std::size_t block, std::size_t size) {
  constexpr std::size_t most_digits = 64;  // more would not fit any memory
  std::size_t tried[most_digits];
  for (std::size_t d = 0; d < high_digits.size(); ++d)
    tried[d] = high_digits[d].tries;
  for (std::size_t end = size; end > 0; end -= block) {
    double* __restrict here = out + (end - block);
    const double* __restrict m = mass + (end - block);
    for (std::size_t d = 0; d < high_digits.size(); ++d) {
      const Digit& digit = high_digits[d];
      if (tried[d] == digit.tries) continue;
      const double cost = digit.cost;
      const double* __restrict after = here + digit.stride;
      for (std::size_t i = 0; i < block; ++i) {
        const double worth = after[i] - cost * m[i];
        here[i] = here[i] > worth ? here[i] : worth;
      }
    }
    for (const LowStep& step : steps) {
      const double worth = here[step.after] - step.cost * m[step.at];
      here[step.at] = here[step.at] > worth ? here[step.at] : worth;
    }
    // One block further down: the digits count backwards.
    for (std::size_t d = 0; d < high_digits.size(); ++d) {
      if (tried[d]-- > 0) break;
      tried[d] = high_digits[d].tries;
    }
  }
}

}  // namespace secondpull::decision::loops
