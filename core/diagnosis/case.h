#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "core/result.h"

/// What is known of a machine's fault before the next step: the causes it may have, what could be tested and
/// repaired, what was seen so far. Amounts of a case are expectations in whole units of the shop's currency
/// (dollars, not cents) and are never kept in the books, so they are doubles; probabilities are in [0, 1].
namespace secondpull::diagnosis {

/// A number for some of the causes, by the cause's id, in the order given.
template <class T>
using ByCause = std::vector<std::pair<std::string, T>>;

struct Cause {
  std::string id;
  double weight = 0;  ///< how often, against the others; >= 0, any scale
  friend bool operator==(const Cause&, const Cause&) = default;
};

/// A step that shows something and mends nothing; made at most once.
struct Test {
  std::string id;
  double cost = 0;
  double minutes = 0;
  double days = 0;
  std::string group;                  ///< tests that look at the same thing; at most one of a group is made
  std::vector<std::string> outcomes;  ///< what it can show; at least one
  ByCause<std::vector<double>> likelihood;       ///< P(outcome | cause), a number per outcome, adding up to 1
  std::optional<std::vector<double>> otherwise;  ///< the row of a cause without one; absent: equally likely
  friend bool operator==(const Test&, const Test&) = default;
};

/// A step that mends the machine if it hits the cause; a test run then shows whether it did.
struct Repair {
  std::string id;
  double cost = 0;
  double minutes = 0;
  double days = 0;
  int tries = 1;          ///< at most so often, each independent of the others given the cause
  ByCause<double> cures;  ///< P(mended | cause); 0 where absent
  friend bool operator==(const Repair&, const Repair&) = default;
};

/// Work that is needed whatever the fault is.
struct KnownWork {
  double cost = 0;
  double minutes = 0;
  friend bool operator==(const KnownWork&, const KnownWork&) = default;
};

/// The sale of the machine once it runs.
struct Revived {
  double price = 0;   ///< median of the price
  double spread = 0;  ///< standard deviation of the price's logarithm
  double fee_rate = 0;
  double fee_fixed = 0;
  double hours = 0;
  double days = 0;
  double comeback_chance = 0;
  double comeback_cost = 0;
  std::vector<KnownWork> known_work;
  friend bool operator==(const Revived&, const Revived&) = default;
};

/// An ending other than reviving: sell it as it is, part it out, scrap it.
struct Stop {
  std::string id;
  double value = 0;  ///< money now; negative if it costs to be rid of it
  double hours = 0;
  double days = 0;
  ByCause<double> value_by_cause;  ///< takes the place of `value` where the cause is one of these
  friend bool operator==(const Stop&, const Stop&) = default;
};

struct TestShowed {
  std::string test;
  std::string outcome;
  friend bool operator==(const TestShowed&, const TestShowed&) = default;
};
struct RepairFailed {
  std::string repair;
  friend bool operator==(const RepairFailed&, const RepairFailed&) = default;
};
using Evidence = std::variant<TestShowed, RepairFailed>;

/// What the machine has cost so far. It counts in the profit, never in the choice.
struct Sunk {
  double cash = 0;
  double hours = 0;
  friend bool operator==(const Sunk&, const Sunk&) = default;
};

/// A machine with one fault, and everything that can be done about it.
struct Case {
  double hour_value = 0;  ///< money for an hour of own work; >= 0
  double day_cost = 0;    ///< money for a day that passes; >= 0
  std::vector<Cause> causes;
  std::vector<Test> tests;
  std::vector<Repair> repairs;
  Revived revived;
  std::vector<Stop> stops;
  std::vector<Evidence> evidence;  ///< in the order it was seen
  Sunk sunk;
  friend bool operator==(const Case&, const Case&) = default;
};

/// Likelihoods of a row must add up to 1 within this.
inline constexpr double row_tolerance = 1e-9;

/// Everything that keeps `given` from being a case, in the order of its fields; empty if it is one. `field`
/// of a problem is the path to the number or id ("tests[2].likelihood.leak[0]"), `value` what stands there.
/// Evidence that cannot have been seen under any cause is a problem too, looked for once all before it is in
/// order. Limits that no workshop meets: amounts, hours and days up to 1e12 (weights of causes: any size), a
/// spread up to 100, 1000 causes, 200 tests, repairs, stops and pieces of known work, 100 outcomes, 100
/// tries.
std::vector<Problem> problems_of(const Case& given);

}  // namespace secondpull::diagnosis
