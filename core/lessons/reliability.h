#pragma once

#include <span>
#include <vector>

#include "core/learning/beta.h"
#include "core/lessons/mean.h"

namespace secondpull::lessons {

/// Something that was said to happen with a chance, and whether it did.
struct Said {
  double chance = 0;  ///< [0, 1]
  bool came = false;
};

/// What was said with a chance in the same tenth.
struct Tenth {
  int from = 0;          ///< tenths: chances from this up to the next; the last has 1 in it
  learning::Tries seen;  ///< how often said, and how often it came
  double said = 0;       ///< the mean of the chances
  Interval range;        ///< Jeffreys' of what came, with kShownLevel
  double share() const { return static_cast<double>(seen.cured) / static_cast<double>(seen.tried); }
};

/// Whether chances kept what they promised.
struct Reliability {
  learning::Tries all;
  double said = 0;            ///< the mean chance; of as many as `all.tried`
  std::vector<Tenth> tenths;  ///< those in which anything was said, from low to high
  /// The mean of (chance - what came, 0 or 1)^2: 0 at best; always saying one half gives 1/4. Source: G. W.
  /// Brier, Verification of forecasts expressed in terms of probability, Monthly Weather Review 78 (1950),
  /// for one of two events (from memory).
  double brier = 0;
  /// The same had the share that came been said each time: what knowing nothing of the single case scores.
  double brier_of_the_share = 0;
  /// If the chances were right and the cases apart from each other, four in five times as many would have
  /// come: the middle four fifths of the sum of unlike coins, exactly. From memory: Poisson's binomial.
  double least_expected = 0;
  double most_expected = 0;
  /// Too few came (lower: the chances were too high) or too many, from kLeastCases on and outside of what the
  /// sum holds with kSayingLevel.
  Differs differs = Differs::no;
};
Reliability reliability(std::span<const Said> said);

/// The chances that 0, 1, 2... of them come, each with its own chance, apart from each other.
std::vector<double> how_many_come(std::span<const double> chances);

}  // namespace secondpull::lessons
