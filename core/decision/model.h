#pragma once

#include <cstddef>
#include <vector>

#include "core/diagnosis/case.h"

/// The planner: what to do next, what it is worth, when to stop.
namespace secondpull::decision {

/// Chances no larger than this do not come about: nothing that could come of them shows in any sum, and what
/// is left of their digits would not bear a division.
inline constexpr double negligible = 1e-200;

/// Money, hours and days of one step, and the three together at the case's hour value and day cost.
struct StepCost {
  double cash = 0;
  double hours = 0;
  double days = 0;
  double full = 0;
};

/// A case as numbers: the evidence is worked in, ids are places, every cost is one number. Causes that the
/// evidence has ruled out are left out, as are tests and tries used up. Places of causes, tests, repairs and
/// stops here are places in these vectors; `in_case` is the place in the case's own list.
struct Model {
  struct Cause {
    std::size_t in_case = 0;
    double weight = 0;  ///< p(cause | evidence), > negligible; they add up to 1
  };
  struct Test {
    std::size_t in_case = 0;
    StepCost cost;
    std::size_t slot = 0;                         ///< tests of one group share a slot
    std::vector<std::vector<double>> likelihood;  ///< [outcome as in the case][cause]
  };
  struct Repair {
    std::size_t in_case = 0;
    StepCost cost;
    int tries = 1;              ///< left
    std::vector<double> cures;  ///< [cause]
  };
  struct Stop {
    std::size_t in_case = 0;
    StepCost cost;              ///< cash is 0: the value is apart
    bool by_cause = false;      ///< whether `worth` differs between causes
    std::vector<double> cash;   ///< [cause] money now
    std::vector<double> worth;  ///< [cause] money now less hours and days
  };
  std::vector<Cause> causes;
  std::vector<Test> tests;                           ///< in the case's order
  std::vector<Repair> repairs;                       ///< in the case's order
  std::vector<Stop> stops;                           ///< in the case's order; never empty
  std::vector<std::vector<std::size_t>> slot_tests;  ///< [slot] its tests, rising
  StepCost running;  ///< hours and days that the sale of a running machine takes, known work included; cash
                     ///< is what it costs beside the fee
  double running_worth = 0;  ///< R: net money of a running machine less its hours and days
};

/// The model of a case. `of` has no problems (diagnosis::problems_of).
Model model_of(const diagnosis::Case& of);

}  // namespace secondpull::decision
