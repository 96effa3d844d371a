#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "core/decision/planner.h"
#include "tests/core/decision/case_count.h"
#include "tests/core/decision/random_case.h"

/// Cases spoilt at random: each is refused in words or planned in numbers, and nothing else happens.
namespace secondpull::test {
namespace {

using namespace diagnosis;

class Spoiler {
 public:
  Spoiler(Case of, std::uint64_t seed) : made_{std::move(of)}, dice_{seed} {}

  Case spoil() {
    const std::size_t times = dice_.from_to(1, 3);
    for (std::size_t i = 0; i < times; ++i)
      switch (dice_.below(7)) {
        case 0:
        case 1:
          spoil_number();
          break;
        case 2:
          spoil_word();
          break;
        case 3:
          spoil_list();
          break;
        case 4:
          spoil_row();
          break;
        case 5:
          spoil_tries();
          break;
        default:
          spoil_evidence();
      }
    return made_;
  }

 private:
  Case made_;
  Dice dice_;

  double odd_number() {
    constexpr double kHuge = std::numeric_limits<double>::max();
    constexpr double kInfinity = std::numeric_limits<double>::infinity();
    return dice_.one_of<double>({0, -0.0, 1, -1, 0.5, 1.5, 1e-300, std::numeric_limits<double>::denorm_min(),
                                 1e12, -1e12, 1.1e12, kHuge, -kHuge, kInfinity, -kInfinity, std::nan("")});
  }

  std::string odd_word() {
    const std::string known =
        made_.causes.empty() ? std::string{} : made_.causes[dice_.below(made_.causes.size())].id;
    return dice_.one_of<std::string>({"", "revived", "revive", "fuel", "cause-0", "test-0", "repair-0",
                                      "stop-0", "shows-0", "nothing of the kind", "\xff\xfe", known});
  }

  template <class T>
  T* any_of(std::vector<T>& list) {
    return list.empty() ? nullptr : &list[dice_.below(list.size())];
  }

  void spoil_number() {
    std::vector<double*> numbers{&made_.hour_value,
                                 &made_.day_cost,
                                 &made_.revived.price,
                                 &made_.revived.spread,
                                 &made_.revived.fee_rate,
                                 &made_.revived.fee_fixed,
                                 &made_.revived.hours,
                                 &made_.revived.days,
                                 &made_.revived.comeback_chance,
                                 &made_.revived.comeback_cost,
                                 &made_.sunk.cash,
                                 &made_.sunk.hours};
    for (KnownWork& work : made_.revived.known_work)
      numbers.insert(numbers.end(), {&work.cost, &work.minutes});
    for (Cause& cause : made_.causes)
      numbers.push_back(&cause.weight);
    for (Test& test : made_.tests) {
      numbers.insert(numbers.end(), {&test.cost, &test.minutes, &test.days});
      for (auto& [cause, row] : test.likelihood)
        for (double& p : row)
          numbers.push_back(&p);
    }
    for (Repair& repair : made_.repairs) {
      numbers.insert(numbers.end(), {&repair.cost, &repair.minutes, &repair.days});
      for (auto& [cause, chance] : repair.cures)
        numbers.push_back(&chance);
    }
    for (Stop& stop : made_.stops) {
      numbers.insert(numbers.end(), {&stop.value, &stop.hours, &stop.days});
      for (auto& [cause, value] : stop.value_by_cause)
        numbers.push_back(&value);
    }
    *dice_.one_of(numbers) = odd_number();
  }

  void spoil_word() {
    std::vector<std::string*> words;
    for (Cause& cause : made_.causes)
      words.push_back(&cause.id);
    for (Test& test : made_.tests) {
      words.insert(words.end(), {&test.id, &test.group});
      for (std::string& outcome : test.outcomes)
        words.push_back(&outcome);
      for (auto& [cause, row] : test.likelihood)
        words.push_back(&cause);
    }
    for (Repair& repair : made_.repairs) {
      words.push_back(&repair.id);
      for (auto& [cause, chance] : repair.cures)
        words.push_back(&cause);
    }
    for (Stop& stop : made_.stops) {
      words.push_back(&stop.id);
      for (auto& [cause, value] : stop.value_by_cause)
        words.push_back(&cause);
    }
    if (!words.empty()) *dice_.one_of(words) = odd_word();
  }

  /// Drops an entry, doubles one, or empties the list.
  template <class T>
  void spoil(std::vector<T>& list) {
    if (list.empty()) return;
    switch (dice_.below(4)) {
      case 0:
        list.clear();
        break;
      case 1:
        list.push_back(list[dice_.below(list.size())]);
        break;
      default:
        list.erase(list.begin() + static_cast<std::ptrdiff_t>(dice_.below(list.size())));
    }
  }

  void spoil_list() {
    switch (dice_.below(8)) {
      case 0:
        spoil(made_.causes);
        break;
      case 1:
        spoil(made_.tests);
        break;
      case 2:
        spoil(made_.repairs);
        break;
      case 3:
        spoil(made_.stops);
        break;
      case 4:
        spoil(made_.evidence);
        break;
      case 5:
        if (Test* test = any_of(made_.tests)) spoil(test->outcomes);
        break;
      case 6:
        if (Repair* repair = any_of(made_.repairs)) spoil(repair->cures);
        break;
      default:
        if (Test* test = any_of(made_.tests)) spoil(test->likelihood);
    }
  }

  void spoil_row() {
    Test* test = any_of(made_.tests);
    if (test == nullptr) return;
    switch (dice_.below(3)) {
      case 0:
        test->otherwise.reset();
        break;
      case 1:
        test->otherwise = std::vector<double>(dice_.below(4), 1.0 / 3);
        break;
      default:
        if (auto* entry = any_of(test->likelihood)) spoil(entry->second);
    }
  }

  void spoil_tries() {
    if (Repair* repair = any_of(made_.repairs))
      repair->tries = dice_.one_of<int>({-1, 0, 1, 4, 100, 101, 1 << 30});
  }

  void spoil_evidence() {
    if (dice_.happens(0.5))
      made_.evidence.emplace_back(RepairFailed{odd_word()});
    else
      made_.evidence.emplace_back(TestShowed{odd_word(), odd_word()});
  }
};

void expect_numbers(const decision::Answer& answer) {
  for (const double figure :
       {answer.value, answer.stop_now_value, answer.gain, answer.expected.cash, answer.expected.hours,
        answer.expected.days, answer.expected.revived, answer.break_even_price.value.value_or(0),
        answer.worth_per_hour.value.value_or(0), answer.profit.p10, answer.profit.p50, answer.profit.p90,
        answer.profit.chance_of_loss})
    EXPECT_TRUE(std::isfinite(figure));
  EXPECT_GE(answer.gap, 0);
  EXPECT_LE(answer.profit.p10, answer.profit.p50);
  EXPECT_LE(answer.profit.p50, answer.profit.p90);
}

TEST(ASpoiltCase, IsRefusedInWordsOrPlannedInNumbers) {
  constexpr CaseSizes kSmall{.causes = 4, .tests = 2, .outcomes = 2, .repairs = 2, .tries = 2};
  const std::uint64_t cases = case_count(6000);
  std::uint64_t refused = 0;
  for (std::uint64_t seed = 0; seed < cases; ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    const Case of = Spoiler{random_case(seed, kSmall), seed}.spoil();
    const std::vector<Problem> problems = problems_of(of);
    const auto answer = decision::verdict(of);
    EXPECT_EQ(answer.has_value(), problems.empty());
    if (answer) {
      expect_numbers(*answer);
    } else {
      ++refused;
      for (const Problem& problem : problems) {
        EXPECT_FALSE(problem.field.empty());
        EXPECT_EQ(problem.sentence.rfind(problem.field, 0), 0u) << problem.sentence;
        EXPECT_EQ(problem.sentence.back(), '.') << problem.sentence;
      }
    }
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GT(refused, cases / 5);
  EXPECT_LT(refused, cases * 4 / 5);
}

}  // namespace
}  // namespace secondpull::test
