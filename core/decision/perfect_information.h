#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "core/decision/layout.h"

namespace secondpull::decision {

/// What going on is worth if the cause is known: the repairs worth their cost in that case, highest chance
/// per cost first, then the best stop. No plan is worth more than the belief's mean of this over the causes.
/// That the order is best follows by exchanging two neighbours (the classical rule of sequential search).
/// Which of a cause's own repairs failed is one number, its *run*: 0 at the start, and each failure adds
/// `stride`.
class PerfectInformation {
 public:
  using Run = std::uint32_t;

  explicit PerfectInformation(const Layout& layout);

  /// What a failed try of the repair adds to the cause's run; 0 if it is none of its own.
  Run stride(std::size_t repair, std::size_t cause) const { return strides_[repair * causes_ + cause]; }

  /// Worth if the cause is known. `left` are the tries left by repair.
  double worth(std::size_t cause, Run run, std::span<const std::uint8_t> left) const {
    const auto& table = plans_[cause].table;
    return table.empty() ? computed(cause, left, no_repair) : table[run];
  }
  /// Worth after one more failed try of the repair.
  double worth_after(std::size_t cause, std::size_t repair, Run run,
                     std::span<const std::uint8_t> left) const {
    const auto& table = plans_[cause].table;
    return table.empty() ? computed(cause, left, repair) : table[run + stride(repair, cause)];
  }
  double best_stop(std::size_t cause) const { return plans_[cause].stop; }
  std::size_t bytes() const;

 private:
  static constexpr std::size_t no_repair = static_cast<std::size_t>(-1);
  struct Own {
    std::size_t repair = 0;
    double chance = 0;
    double cost = 0;
    int tries = 0;
  };
  struct Plan {
    double stop = 0;
    std::vector<Own> order;     ///< best first
    std::vector<double> table;  ///< worth by run; empty if it would be too long
  };
  double computed(std::size_t cause, std::span<const std::uint8_t> left, std::size_t one_less) const;
  double worth_of(const Plan& plan, std::span<const int> left) const;

  std::size_t causes_ = 0;
  double running_ = 0;
  std::vector<Plan> plans_;
  std::vector<Run> strides_;
};

}  // namespace secondpull::decision
