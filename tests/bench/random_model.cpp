#include "tests/bench/random_model.h"

#include <random>
#include <string>

namespace secondpull::bench {

diagnosis::Case random_case(std::size_t repairs, std::size_t tests, unsigned seed) {
  std::mt19937_64 random{seed * 1000003U + repairs * 101U + tests};
  // Own arithmetic instead of <random>'s distributions: those differ between libraries.
  const auto unit = [&] { return static_cast<double>(random() >> 11) * 0x1.0p-53; };
  const auto between = [&](double low, double high) { return low + (high - low) * unit(); };
  const auto below = [&](std::size_t end) { return static_cast<std::size_t>(random() % end); };
  diagnosis::Case out;
  out.hour_value = 20;
  const std::size_t causes = 12 + below(9);
  for (std::size_t c = 0; c < causes; ++c)
    out.causes.push_back({"cause-" + std::to_string(c), between(1, 30)});
  for (std::size_t t = 0; t < tests; ++t) {
    diagnosis::Test& test = out.tests.emplace_back();
    test.id = "test-" + std::to_string(t);
    test.cost = between(0, 2);
    test.minutes = between(2, 12);
    test.outcomes = {"yes", "no"};
    for (const diagnosis::Cause& cause : out.causes) {
      const double yes = unit() < 0.4 ? between(0.7, 0.97) : between(0.03, 0.4);
      test.likelihood.push_back({cause.id, {yes, 1 - yes}});
    }
  }
  for (std::size_t a = 0; a < repairs; ++a) {
    diagnosis::Repair& repair = out.repairs.emplace_back();
    repair.id = "repair-" + std::to_string(a);
    repair.cost = between(2, 25);
    repair.minutes = between(5, 60);
    const std::size_t first = a % (causes - 1);  // the last cause is cured by none
    for (std::size_t c = 0; c + 1 < causes; ++c)
      if (c == first || unit() < 0.12) repair.cures.push_back({out.causes[c].id, between(0.3, 0.98)});
  }
  out.revived = {.price = between(110, 190), .hours = 1};
  out.stops = {{.id = "scrap", .value = between(2, 8), .hours = 0.25},
               {.id = "sell-as-is", .value = between(15, 35), .hours = 0.5}};
  if (seed % 2 == 1)
    for (const diagnosis::Cause& cause : out.causes)
      out.stops[1].value_by_cause.push_back({cause.id, between(5, 50)});
  return out;
}

}  // namespace secondpull::bench
