#include "core/learning/case_maker.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/learning/units.h"

namespace secondpull::learning {
namespace {

using diagnosis::Case;
using diagnosis::Evidence;
using diagnosis::RepairFailed;
using diagnosis::TestShowed;

class CaseMaker {
 public:
  CaseMaker(const Knowledge& knowledge, const Tallies& tallies, const Question& question,
            const Circumstances& circumstances)
      : knowledge_{knowledge}, tallies_{tallies}, question_{question}, circumstances_{circumstances} {}

  Result<Case> make() {
    const auto symptom = std::find_if(knowledge_.symptoms.begin(), knowledge_.symptoms.end(),
                                      [&](const Symptom& entry) { return entry.id == question_.symptom; });
    if (symptom == knowledge_.symptoms.end())
      return problem(fmt::format("The knowledge base has no symptom \"{}\".", question_.symptom), "symptom",
                     question_.symptom);
    engine_ = question_.engine.value_or(symptom->engine);
    add_causes(*symptom);
    for (const Test& test : knowledge_.tests)
      if (was_made(test) || is_offered(test)) add_test(test);
    for (const Repair& repair : knowledge_.repairs)
      add_repair(repair);
    add_evidence();
    add_circumstances();
    if (auto wrong = diagnosis::problems_of(case_); !wrong.empty()) return tl::unexpected(wrong.front());
    return std::move(case_);
  }

 private:
  void add_causes(const Symptom& symptom) {
    Dirichlet counts = causes_of(symptom, tallies_);
    for (const std::string& cause : question_.left_out)
      if (cause != kUnlisted) counts.remove(cause);
    for (const auto& [cause, count] : counts.counts())
      if (count > 0) {
        case_.causes.push_back({cause, count});
        causes_.insert(cause);
      }
  }

  bool was_made(const Test& test) const {
    return std::any_of(question_.evidence.begin(), question_.evidence.end(), [&](const Evidence& line) {
      const auto* const showed = std::get_if<TestShowed>(&line);
      return showed != nullptr && showed->test == test.id;
    });
  }

  bool has_shown(const After& after) const {
    return std::any_of(question_.evidence.begin(), question_.evidence.end(), [&](const Evidence& line) {
      const auto* const showed = std::get_if<TestShowed>(&line);
      return showed != nullptr && showed->test == after.test &&
             std::find(after.outcomes.begin(), after.outcomes.end(), showed->outcome) != after.outcomes.end();
    });
  }

  bool is_offered(const Test& test) const {
    const bool for_symptom = test.symptoms.empty() || std::find(test.symptoms.begin(), test.symptoms.end(),
                                                                question_.symptom) != test.symptoms.end();
    return for_symptom && fits(test.kinds, question_.kind) && can_be_made(test.needs, engine_) &&
           std::all_of(test.after.begin(), test.after.end(),
                       [&](const After& after) { return has_shown(after); }) &&
           tells_causes_apart(test);
  }

  bool tells_causes_apart(const Test& test) const {
    const std::vector<double> even(test.outcomes.size(), 1 / static_cast<double>(test.outcomes.size()));
    const auto row = [&](const std::string& cause) -> const std::vector<double>& {
      for (const auto& [listed, chances] : test.likelihood)
        if (listed == cause) return chances;
      return test.otherwise ? *test.otherwise : even;
    };
    const std::vector<double>& first = row(case_.causes.front().id);
    return std::any_of(case_.causes.begin(), case_.causes.end(),
                       [&](const diagnosis::Cause& cause) { return row(cause.id) != first; });
  }

  void add_test(const Test& test) {
    diagnosis::Test& added = case_.tests.emplace_back();
    added.id = test.id;
    added.cost = in_units(test.cost, circumstances_.currency);
    added.minutes = minutes_of(test.id, test.minutes, tallies_);
    added.group = test.group;
    for (const Outcome& shown : test.outcomes)
      added.outcomes.push_back(shown.id);
    for (const auto& row : test.likelihood)
      if (causes_.contains(row.first)) added.likelihood.push_back(row);
    added.otherwise = test.otherwise;
  }

  int times_failed(const Repair& repair) const {
    return static_cast<int>(
        std::count_if(question_.evidence.begin(), question_.evidence.end(), [&](const Evidence& line) {
          const auto* const failed = std::get_if<RepairFailed>(&line);
          return failed != nullptr && failed->repair == repair.id;
        }));
  }

  void add_repair(const Repair& repair) {
    const int failed = times_failed(repair);
    if (failed == 0 && !fits(repair.kinds, question_.kind)) return;
    diagnosis::Repair added{.id = repair.id};
    for (const diagnosis::Cause& cause : case_.causes)
      if (const auto chance = cure(repair, cause.id, tallies_))
        added.cures.emplace_back(cause.id, chance->mean());
    if (added.cures.empty()) {
      says_nothing_.insert(repair.id);
      return;
    }
    const auto supply = circumstances_.supply.find(repair.id);
    const bool known = supply != circumstances_.supply.end();
    added.cost = known ? to_the_cent(supply->second.cost, circumstances_.currency)
                       : in_units(repair.parts.typical, circumstances_.currency);
    added.days = known ? supply->second.days : repair.days;
    added.minutes = minutes_of(repair.id, repair.minutes, tallies_);
    added.tries = std::max(repair.tries, failed);
    case_.repairs.push_back(std::move(added));
  }

  void add_evidence() {
    for (const Evidence& line : question_.evidence) {
      const auto* const failed = std::get_if<RepairFailed>(&line);
      if (failed == nullptr || !says_nothing_.contains(failed->repair)) case_.evidence.push_back(line);
    }
  }

  void add_circumstances() {
    case_.hour_value = circumstances_.hour_value;
    case_.day_cost = circumstances_.day_cost;
    case_.revived = circumstances_.revived;
    case_.stops = circumstances_.stops;
    case_.sunk = circumstances_.sunk;
    // A cause that it cannot be spoils nothing; one that nobody knows is a mistake, and stays to be refused.
    for (diagnosis::Stop& stop : case_.stops)
      std::erase_if(stop.value_by_cause, [&](const auto& row) {
        return !causes_.contains(row.first) && knowledge_.cause(row.first) != nullptr;
      });
  }

  const Knowledge& knowledge_;
  const Tallies& tallies_;
  const Question& question_;
  const Circumstances& circumstances_;
  Engine engine_ = Engine::unknown;
  Case case_;
  std::set<std::string, std::less<>> causes_;        // ids of the case's causes
  std::set<std::string, std::less<>> says_nothing_;  // repairs that cure none of them
};

}  // namespace

Result<Case> make_case(const Knowledge& knowledge, const Tallies& tallies, const Question& question,
                       const Circumstances& circumstances) {
  return CaseMaker{knowledge, tallies, question, circumstances}.make();
}

}  // namespace secondpull::learning
