#pragma once

#include <cstdint>

namespace secondpull::test {

/// How many random cases a test looks at: fewer where each takes many times longer, under a sanitizer.
constexpr std::uint64_t case_count(std::uint64_t usual) {
#if defined(__SANITIZE_ADDRESS__)
  constexpr std::uint64_t kFewer = 20;
  return usual / kFewer + 1;
#else
  return usual;
#endif
}

}  // namespace secondpull::test
