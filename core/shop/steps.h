#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/shop/bench.h"
#include "core/shop/stage.h"

namespace secondpull {

// Steps of the plan as they are made, and what is written down between the last repair and the sale. Each is
// one action.

/// A part that goes in with a repair.
struct PartUsed {
  PartChoice part;
  std::int64_t quantity = 1;
  /// Nothing: it is taken from the shelf, first in, first out. Else the shelf had it not, and it is taken in
  /// at this cost each.
  std::optional<Money> found_at;
};

/// What the plan promises before its first step is made.
struct Promise {
  Forecast figures;                                    ///< its machine, fault and day are those of the step
  std::vector<std::pair<std::string, double>> causes;  ///< how likely each is, by its id
};

/// A test or repair and what came of it.
struct StepMade {
  NewFinding finding;
  /// Opens a fault of this symptom that the finding is about, where none was opened yet.
  std::string opens;
  std::optional<PartUsed> part;
  /// Is kept with the step if it is the first one of its fault that follows a plan.
  std::optional<Promise> promise;
};
/// Writes down the finding, its hours, its part and the forecast together. Problems: those of open_fault,
/// record_finding, fit_part and fit_found_part.
Result<Change> record_step(const Shop& shop, const StepMade& step);

/// The fault that was last called mended since the machine came in; nullptr if there is none, or one is open.
const Fault* last_mended(const ByMachine::Lines& lines);

/// "Same trouble" after a test run: the fault that was last called mended is open again without its cause,
/// and the repair that was said to have mended it has failed. `run` is the test run that showed it. Problems:
/// none was called mended since the machine came in ("fault"), and those of record_finding.
Result<Change> same_trouble(const Shop& shop, NewFinding run);
/// "A new one": a fault of this symptom, with the test run that showed it. Problems: those of open_fault and
/// record_finding.
Result<Change> new_trouble(const Shop& shop, NewFinding run, const std::string& symptom);

// What is written down that is no test of the fault and no repair: a finding whose step begins with one of
// these words.
inline constexpr std::string_view kTestRun = "Test run";
inline constexpr std::string_view kRanThrough = "ran through";
inline constexpr std::string_view kDied = "died";
inline constexpr std::string_view kSafetyCheck = "Safety check: ";
inline constexpr std::string_view kLook = "Look before the sale: ";
inline constexpr std::string_view kPassed = "passed";
inline constexpr std::string_view kFailed = "failed";
inline constexpr std::string_view kCautionRead = "Caution read: ";
/// Is a finding of that step about the machine's care rather than its fault?
bool is_about_care(std::string_view step);

/// The latest finding of exactly that step since the machine came in; nullptr if there is none.
const Finding* latest_of(const ByMachine::Lines& lines, std::string_view step);

/// The caution of that name was read before a step: the acknowledgement that lets the step be made.
Result<Change> acknowledge_caution(const Shop& shop, MachineId machine, Date date, const std::string& name);
/// Was it, since the machine came in?
bool is_acknowledged(const ByMachine::Lines& lines, const std::string& name);

/// The step that a look before the sale is written down as: a failed one keeps the machine from being sold as
/// running (safety.h) if it is a must.
std::string check_step(const std::string& name, bool must);
/// A look before the sale: passed, failed, or explained (any other outcome, in the person's words). `step`:
/// see check_step.
Result<Change> record_check(const Shop& shop, MachineId machine, Date date, const std::string& step,
                            const std::string& outcome, const std::string& note);

}  // namespace secondpull
