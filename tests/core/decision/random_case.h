#pragma once

#include <cstdint>
#include <random>
#include <vector>

#include "core/diagnosis/case.h"

namespace secondpull::test {

/// Chance for tests: the same seed gives the same case with any standard library.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_{seed} {}
  std::size_t below(std::size_t end) { return static_cast<std::size_t>(engine_() % end); }
  std::size_t from_to(std::size_t low, std::size_t high) { return low + below(high - low + 1); }
  double unit();  ///< in [0, 1)
  double between(double low, double high) { return low + (high - low) * unit(); }
  bool happens(double chance) { return unit() < chance; }
  template <class T>
  const T& one_of(const std::vector<T>& list) {
    return list[below(list.size())];
  }

 private:
  std::mt19937_64 engine_;
};

/// The largest of each; every case draws its own sizes below.
struct CaseSizes {
  std::size_t causes = 5;
  std::size_t tests = 4;
  std::size_t outcomes = 3;
  std::size_t repairs = 4;
  std::size_t tries = 3;
  bool evidence = true;
};

/// A case without problems. Half of them are made of few round numbers, so that ties are common and zeros of
/// all kinds occur: causes without weight, free steps, repairs that cure nothing or surely, outcomes that
/// cannot come, a running machine worth less than scrap.
diagnosis::Case random_case(std::uint64_t seed, const CaseSizes& sizes = {});

}  // namespace secondpull::test
