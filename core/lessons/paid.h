#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/books/books.h"
#include "core/books/earned.h"
#include "core/learning/knowledge.h"
#include "core/lessons/mean.h"

namespace secondpull::lessons {

/// What machines have in common.
enum class PaidBy { kind, make, source, symptom, month };

/// Machines that have a word in common, and what they paid. Amounts in whole units of the currency but for
/// `together`, which is the books' own sum.
struct Paid {
  /// The word of the kind or source; the make as written first; the symptom's name, or as written where the
  /// knowledge base has no such symptom; of a month its number from "01" on, of whatever year. Empty: not
  /// given.
  std::string name;
  std::vector<MachineId> machines;  ///< those with a profit, in order of tag
  Earned together;
  std::optional<double> hourly;          ///< all profit / all hours; absent without hours
  std::optional<Interval> hourly_range;  ///< of that, with kShownLevel; absent of fewer than two with hours
  std::optional<Interval> middle_half;   ///< half of the machines paid between these by the hour
  Mean profit;                           ///< of a machine
  Differs differs = Differs::no;         ///< the hours' pay against that of all other machines
};

/// Every machine with a profit in exactly one group, the best paid hour first, groups without hours last. A
/// machine is of the month in which it left.
///
/// The range of the hours' pay is that of a ratio of sums: R = sum of profits / sum of hours, with variance
/// n / (n - 1) x sum((profit - R x hours)^2) / (sum of hours)^2 and Student's t of n - 1 degrees. Source: W.
/// G. Cochran, Sampling Techniques, chapter 6 (from memory).
///
/// A group differs from all others when both have kLeastCases machines with hours and the difference of the
/// two ratios is beyond Welch's t at 1 - (1 - kPayLevel) / (number of groups so large). Source: B. L. Welch,
/// Biometrika 34 (1947), with Bonferroni's correction (both from memory).
std::vector<Paid> paid_by(const Books& books, const learning::Knowledge& knowledge, PaidBy by);

/// In shops where no group differs, at most one in ten hears that one does. Common practice, no source.
inline constexpr double kPayLevel = 0.9;

}  // namespace secondpull::lessons
