#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <map>
#include <numeric>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "core/diagnosis/case.h"
#include "core/diagnosis/evidence.h"

namespace secondpull::diagnosis {
namespace {

// Far beyond any workshop, and small enough that no product of two of them leaves the range of a double.
constexpr double kLargestNumber = 1e12;
constexpr double kLargestSpread = 100;
constexpr int kMostTries = 100;
constexpr std::size_t kMostCauses = 1000;
constexpr std::size_t kMostSteps = 200;  // tests, and repairs, and stops, and known work
constexpr std::size_t kMostOutcomes = 100;

// The words of a verdict for the other ending.
constexpr std::array<std::string_view, 2> kReservedStops{"revived", "revive"};

/// A number as a person wrote it: twelve digits hide what binary fractions add ("0.9", not
/// "0.9000000000000001"), but not a difference that row_tolerance refuses.
std::string number(double value) {
  return fmt::format("{:.12g}", value);
}

using Places = std::map<std::string_view, std::size_t>;

class Inspection {
 public:
  explicit Inspection(const Case& given) : given_{given} {}

  std::vector<Problem> all() {
    not_negative("hour_value", given_.hour_value);
    not_negative("day_cost", given_.day_cost);
    check_causes();
    check_tests();
    check_repairs();
    check_revived();
    check_stops();
    check_evidence();
    not_negative("sunk.cash", given_.sunk.cash);
    not_negative("sunk.hours", given_.sunk.hours);
    return std::move(problems_);
  }

 private:
  const Case& given_;
  std::vector<Problem> problems_;
  Places causes_;
  Places tests_;
  Places repairs_;

  void report(const std::string& field, std::string value, std::string_view what) {
    problems_.push_back({fmt::format("{} {}", field, what), field, std::move(value)});
  }

  /// Whether the value is a number at all.
  bool finite(const std::string& field, double value) {
    if (std::isfinite(value)) return true;
    report(field, number(value), fmt::format("is {}; it must be a number.", number(value)));
    return false;
  }

  bool at_most(const std::string& field, double value, double most) {
    if (value <= most) return true;
    report(field, number(value),
           fmt::format("is {}; it must not be more than {}.", number(value), number(most)));
    return false;
  }

  void not_negative(const std::string& field, double value, double most = kLargestNumber) {
    if (!finite(field, value)) return;
    if (value < 0)
      report(field, number(value), fmt::format("is {}; it must be 0 or more.", number(value)));
    else
      at_most(field, value, most);
  }

  void money_either_way(const std::string& field, double value) {
    if (!finite(field, value)) return;
    if (value < -kLargestNumber)
      report(field, number(value),
             fmt::format("is {}; it must not be less than {}.", number(value), number(-kLargestNumber)));
    else
      at_most(field, value, kLargestNumber);
  }

  bool probability(const std::string& field, double value) {
    if (!finite(field, value)) return false;
    if (value >= 0 && value <= 1) return true;
    report(field, number(value), fmt::format("is {}; a probability must be from 0 to 1.", number(value)));
    return false;
  }

  void no_more_than(const std::string& field, std::size_t count, std::size_t most) {
    if (count > most)
      report(field, std::to_string(count),
             fmt::format("holds {} entries; at most {} are allowed.", count, most));
  }

  /// The places of a list's ids; an empty id and one that stands twice are reported. The first place counts.
  template <class Item>
  Places check_ids(std::string_view list, const std::vector<Item>& items) {
    Places places;
    for (std::size_t i = 0; i < items.size(); ++i) {
      const std::string field = fmt::format("{}[{}].id", list, i);
      const std::string& id = items[i].id;
      if (id.empty()) {
        report(field, id, "is empty; everything in a list needs an id.");
      } else if (const auto [at, added] = places.emplace(id, i); !added) {
        report(field, id,
               fmt::format("is \"{}\", and so is {}[{}].id; an id may stand only once in its list.", id, list,
                           at->second));
      }
    }
    return places;
  }

  /// That a list by cause names known causes, each once.
  template <class T>
  void check_keys(const std::string& field, const ByCause<T>& entries) {
    Places seen;
    for (const auto& [cause, unused] : entries) {
      const std::string at = fmt::format("{}.{}", field, cause);
      if (!causes_.contains(cause))
        report(at, cause, fmt::format("names the cause \"{}\", which is not among the causes.", cause));
      else if (!seen.emplace(cause, 0).second)
        report(at, cause, fmt::format("stands twice; give one entry for the cause \"{}\".", cause));
    }
  }

  void check_causes() {
    causes_ = check_ids("causes", given_.causes);
    if (given_.causes.empty()) {
      report("causes", "", "is empty; a case needs at least one cause.");
      return;
    }
    no_more_than("causes", given_.causes.size(), kMostCauses);
    bool some_weight = false;
    for (std::size_t i = 0; i < given_.causes.size(); ++i) {
      const double weight = given_.causes[i].weight;
      // Weights are only ever compared with one another, so any finite size will do.
      not_negative(fmt::format("causes[{}].weight", i), weight, std::numeric_limits<double>::max());
      some_weight = some_weight || weight != 0;  // one that is refused already is not reported twice
    }
    if (!some_weight)
      report("causes", "0", "have weights that add up to 0; at least one weight must be more than 0.");
  }

  /// What a test and a repair have in common.
  template <class Step>
  void check_costs(const std::string& at, const Step& step) {
    not_negative(at + ".cost", step.cost);
    not_negative(at + ".minutes", step.minutes);
    not_negative(at + ".days", step.days);
  }

  void check_row(const std::string& field, const std::vector<double>& row, const Test& test) {
    if (row.size() != test.outcomes.size()) {
      report(field, std::to_string(row.size()),
             fmt::format("has {} numbers; there must be {}, one for each outcome.", row.size(),
                         test.outcomes.size()));
      return;
    }
    bool all_right = true;
    for (std::size_t o = 0; o < row.size(); ++o)
      all_right = probability(fmt::format("{}[{}]", field, o), row[o]) && all_right;
    const double sum = std::accumulate(row.begin(), row.end(), 0.0);
    if (all_right && std::abs(sum - 1) > row_tolerance)
      report(field, number(sum),
             fmt::format("adds up to {}; its probabilities must add up to 1.", number(sum)));
  }

  void check_outcomes(const std::string& field, const std::vector<std::string>& outcomes) {
    if (outcomes.empty()) report(field, "", "is empty; a test needs at least one outcome.");
    no_more_than(field, outcomes.size(), kMostOutcomes);
    Places seen;
    for (std::size_t o = 0; o < outcomes.size(); ++o) {
      const std::string at = fmt::format("{}[{}]", field, o);
      if (outcomes[o].empty())
        report(at, "", "is empty; an outcome needs a name.");
      else if (!seen.emplace(outcomes[o], o).second)
        report(at, outcomes[o],
               fmt::format("is \"{}\", which stands there already; outcomes of a test must differ.",
                           outcomes[o]));
    }
  }

  void check_tests() {
    tests_ = check_ids("tests", given_.tests);
    no_more_than("tests", given_.tests.size(), kMostSteps);
    for (std::size_t i = 0; i < given_.tests.size(); ++i) {
      const Test& test = given_.tests[i];
      const std::string at = fmt::format("tests[{}]", i);
      check_costs(at, test);
      check_outcomes(at + ".outcomes", test.outcomes);
      check_keys(at + ".likelihood", test.likelihood);
      if (test.outcomes.empty()) continue;
      for (const auto& [cause, row] : test.likelihood)
        check_row(fmt::format("{}.likelihood.{}", at, cause), row, test);
      if (test.otherwise) check_row(at + ".otherwise", *test.otherwise, test);
    }
  }

  void check_repairs() {
    repairs_ = check_ids("repairs", given_.repairs);
    no_more_than("repairs", given_.repairs.size(), kMostSteps);
    for (std::size_t i = 0; i < given_.repairs.size(); ++i) {
      const Repair& repair = given_.repairs[i];
      const std::string at = fmt::format("repairs[{}]", i);
      check_costs(at, repair);
      if (repair.tries < 1 || repair.tries > kMostTries)
        report(at + ".tries", std::to_string(repair.tries),
               fmt::format("is {}; it must be from 1 to {}.", repair.tries, kMostTries));
      check_keys(at + ".cures", repair.cures);
      for (const auto& [cause, chance] : repair.cures)
        probability(fmt::format("{}.cures.{}", at, cause), chance);
    }
  }

  void check_revived() {
    const Revived& revived = given_.revived;
    not_negative("revived.price", revived.price);
    not_negative("revived.spread", revived.spread, kLargestSpread);
    probability("revived.fee_rate", revived.fee_rate);
    not_negative("revived.fee_fixed", revived.fee_fixed);
    not_negative("revived.hours", revived.hours);
    not_negative("revived.days", revived.days);
    probability("revived.comeback_chance", revived.comeback_chance);
    not_negative("revived.comeback_cost", revived.comeback_cost);
    no_more_than("revived.known_work", revived.known_work.size(), kMostSteps);
    for (std::size_t i = 0; i < revived.known_work.size(); ++i) {
      not_negative(fmt::format("revived.known_work[{}].cost", i), revived.known_work[i].cost);
      not_negative(fmt::format("revived.known_work[{}].minutes", i), revived.known_work[i].minutes);
    }
  }

  void check_stops() {
    if (given_.stops.empty())
      report("stops", "",
             "is empty; a case needs at least one way to stop, be it to scrap the machine for 0.");
    check_ids("stops", given_.stops);
    no_more_than("stops", given_.stops.size(), kMostSteps);
    for (std::size_t i = 0; i < given_.stops.size(); ++i) {
      const Stop& stop = given_.stops[i];
      const std::string at = fmt::format("stops[{}]", i);
      for (const std::string_view word : kReservedStops)
        if (stop.id == word)
          report(at + ".id", stop.id,
                 fmt::format("is \"{}\", which is the word for a machine that runs; call the stop otherwise.",
                             word));
      money_either_way(at + ".value", stop.value);
      not_negative(at + ".hours", stop.hours);
      not_negative(at + ".days", stop.days);
      check_keys(at + ".value_by_cause", stop.value_by_cause);
      for (const auto& [cause, value] : stop.value_by_cause)
        money_either_way(fmt::format("{}.value_by_cause.{}", at, cause), value);
    }
  }

  void check_test_line(const std::string& at, const TestShowed& line, Places& shown) {
    const auto known = tests_.find(line.test);
    if (known == tests_.end()) {
      report(at + ".test", line.test, fmt::format("is \"{}\", which is not among the tests.", line.test));
      return;
    }
    const Test& test = given_.tests[known->second];
    if (std::find(test.outcomes.begin(), test.outcomes.end(), line.outcome) == test.outcomes.end())
      report(at + ".outcome", line.outcome,
             fmt::format("is \"{}\", which is not an outcome of \"{}\".", line.outcome, line.test));
    if (++shown[line.test] > 1 && test.group.empty())
      report(at + ".test", line.test,
             fmt::format("is \"{}\", which stands in the evidence already; a test is made once.", line.test));
  }

  void check_repair_line(const std::string& at, const RepairFailed& line, Places& failed) {
    const auto known = repairs_.find(line.repair);
    if (known == repairs_.end()) {
      report(at + ".repair", line.repair,
             fmt::format("is \"{}\", which is not among the repairs.", line.repair));
      return;
    }
    const int tries = given_.repairs[known->second].tries;
    const std::size_t times = ++failed[line.repair];
    if (static_cast<std::int64_t>(times) > tries)
      report(at + ".repair", line.repair,
             fmt::format("is \"{}\", which has failed {} times already; that is all its tries.", line.repair,
                         times - 1));
  }

  void check_evidence() {
    Places shown;   // how often a test was, so far
    Places failed;  // how often a repair has
    for (std::size_t i = 0; i < given_.evidence.size(); ++i) {
      const std::string at = fmt::format("evidence[{}]", i);
      if (const auto* test = std::get_if<TestShowed>(&given_.evidence[i]))
        check_test_line(at, *test, shown);
      else
        check_repair_line(at, std::get<RepairFailed>(given_.evidence[i]), failed);
    }
    if (problems_.empty()) check_possible();
  }

  /// That the evidence can have been seen; the first line that cannot is reported.
  void check_possible() {
    std::vector<double> belief = prior(given_.causes);
    for (const std::size_t line : counting_lines(given_)) {
      Update next = update(given_, std::move(belief), given_.evidence[line]);
      if (!next.possible) {
        report_impossible(line);
        return;
      }
      belief = std::move(next.belief);
    }
  }

  void report_impossible(std::size_t line) {
    const std::string at = fmt::format("evidence[{}]", line);
    constexpr std::string_view why =
        "has probability 0 together with the lines before it: no cause of the case could bring it about.";
    if (const auto* showed = std::get_if<TestShowed>(&given_.evidence[line]))
      report(at, showed->outcome,
             fmt::format("(\"{}\" showing \"{}\") {}", showed->test, showed->outcome, why));
    else
      report(at, std::get<RepairFailed>(given_.evidence[line]).repair,
             fmt::format("(\"{}\" having failed) {}", std::get<RepairFailed>(given_.evidence[line]).repair,
                         why));
  }
};

}  // namespace

std::vector<Problem> problems_of(const Case& given) {
  return Inspection{given}.all();
}

}  // namespace secondpull::diagnosis
