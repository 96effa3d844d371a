#include "tests/core/decision/random_case.h"

#include <algorithm>
#include <string>

namespace secondpull::test {
namespace {

using namespace diagnosis;

constexpr double kSeldom = 0.15;
constexpr double kHalf = 0.5;
constexpr double kOften = 0.8;

class Maker {
 public:
  Maker(std::uint64_t seed, const CaseSizes& sizes)
      : dice_{seed}, sizes_{sizes}, round_{dice_.happens(kHalf)} {}

  Case make() {
    made_.hour_value = number({0, 0, 20, 30}, 0, 45);
    made_.day_cost = dice_.happens(kHalf) ? 0 : number({0, 0.5, 2}, 0, 3);
    const std::size_t causes = dice_.from_to(1, sizes_.causes);
    for (std::size_t c = 0; c < causes; ++c)
      made_.causes.push_back({"cause-" + std::to_string(c), number({0, 1, 1, 2, 5}, 0, 6)});
    made_.causes[dice_.below(causes)].weight = number({1, 3}, 0.5, 5);
    const std::size_t tests = dice_.from_to(0, sizes_.tests);
    for (std::size_t t = 0; t < tests; ++t)
      made_.tests.push_back(test(t));
    const std::size_t repairs = dice_.from_to(0, sizes_.repairs);
    for (std::size_t r = 0; r < repairs; ++r)
      made_.repairs.push_back(repair(r));
    made_.revived = revived();
    const std::size_t stops = dice_.from_to(1, 3);
    for (std::size_t s = 0; s < stops; ++s)
      made_.stops.push_back(stop(s));
    made_.sunk = {number({0, 25}, 0, 60), number({0, 1}, 0, 4)};
    if (sizes_.evidence && dice_.happens(kHalf)) add_evidence();
    return made_;
  }

 private:
  Dice dice_;
  CaseSizes sizes_;
  bool round_;
  Case made_;

  double number(const std::vector<double>& rounded, double low, double high) {
    return round_ ? dice_.one_of(rounded) : dice_.between(low, high);
  }

  double chance() {
    if (dice_.happens(kSeldom)) return dice_.happens(kHalf) ? 0 : 1;
    return number({0, 0.25, 0.5, 0.9, 1}, 0, 1);
  }

  std::vector<double> row(std::size_t outcomes) {
    std::vector<double> row(outcomes, 0.0);
    if (dice_.happens(kSeldom)) {
      row[dice_.below(outcomes)] = 1;
      return row;
    }
    double sum = 0;
    for (double& p : row) {
      p = number({0, 1, 1, 3}, 0, 1);
      sum += p;
    }
    if (sum <= 0) {
      row[0] = 1;
      return row;
    }
    for (double& p : row)
      p /= sum;
    return row;
  }

  Test test(std::size_t place) {
    Test test{.id = "test-" + std::to_string(place),
              .cost = number({0, 0, 1, 3}, 0, 4),
              .minutes = number({0, 5, 15}, 0, 20),
              .days = dice_.happens(kOften) ? 0 : number({1}, 0, 2),
              .group = dice_.happens(kHalf) ? "" : dice_.one_of<std::string>({"fuel", "spark"})};
    const std::size_t outcomes = dice_.from_to(1, sizes_.outcomes);
    for (std::size_t o = 0; o < outcomes; ++o)
      test.outcomes.push_back("shows-" + std::to_string(o));
    for (const Cause& cause : made_.causes)
      if (dice_.happens(kOften)) test.likelihood.push_back({cause.id, row(outcomes)});
    if (dice_.happens(kHalf)) test.otherwise = row(outcomes);
    return test;
  }

  Repair repair(std::size_t place) {
    Repair repair{.id = "repair-" + std::to_string(place),
                  .cost = number({0, 5, 10, 20}, 0, 30),
                  .minutes = number({0, 10, 30}, 0, 45),
                  .days = dice_.happens(kOften) ? 0 : number({3}, 0, 5),
                  .tries = dice_.happens(kHalf) ? 1 : static_cast<int>(dice_.from_to(1, sizes_.tries))};
    for (const Cause& cause : made_.causes)
      if (dice_.happens(kHalf)) repair.cures.push_back({cause.id, chance()});
    return repair;
  }

  Revived revived() {
    Revived revived{
        .price = dice_.happens(kSeldom) ? number({0, 20}, 0, 40) : number({80, 100, 150}, 60, 200),
        .spread = number({0, 0.2}, 0, 0.5),
        .fee_rate = number({0, 0.1}, 0, 0.15),
        .fee_fixed = number({0, 1}, 0, 3),
        .hours = number({0, 0.5}, 0, 1),
        .days = number({0, 7}, 0, 20),
        .comeback_chance = number({0, 0.05}, 0, 0.2),
        .comeback_cost = number({0, 40}, 0, 60)};
    const std::size_t works = dice_.below(3);
    for (std::size_t w = 0; w < works; ++w)
      revived.known_work.push_back({number({0, 8}, 0, 10), number({0, 15}, 0, 30)});
    return revived;
  }

  Stop stop(std::size_t place) {
    Stop stop{.id = "stop-" + std::to_string(place),
              .value = number({0, 0, 10, 30, -5}, -10, 45),
              .hours = number({0, 0.5, 1}, 0, 1.5),
              .days = number({0, 2}, 0, 10)};
    if (!dice_.happens(kHalf)) return stop;
    for (const Cause& cause : made_.causes)
      if (dice_.happens(kHalf)) stop.value_by_cause.push_back({cause.id, number({0, 20, 50}, -10, 70)});
    return stop;
  }

  /// Lines at random; those that the case does not allow, or that cannot have been seen, are taken back.
  void add_evidence() {
    const std::size_t lines = dice_.from_to(1, 4);
    for (std::size_t i = 0; i < lines; ++i) {
      if (!made_.tests.empty() && (made_.repairs.empty() || dice_.happens(kHalf))) {
        const Test& test = dice_.one_of(made_.tests);
        made_.evidence.emplace_back(TestShowed{test.id, dice_.one_of(test.outcomes)});
      } else if (!made_.repairs.empty()) {
        made_.evidence.emplace_back(RepairFailed{dice_.one_of(made_.repairs).id});
      } else {
        return;
      }
      if (!problems_of(made_).empty()) made_.evidence.pop_back();
    }
  }
};

}  // namespace

double Dice::unit() {
  constexpr int kBitsDropped = 11;  // 53 bits fill a double's fraction
  constexpr double kStep = 1.0 / 9007199254740992.0;
  return static_cast<double>(engine_() >> kBitsDropped) * kStep;
}

Case random_case(std::uint64_t seed, const CaseSizes& sizes) {
  return Maker{seed, sizes}.make();
}

}  // namespace secondpull::test
