#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "core/decision/state_space.h"

namespace secondpull::decision {

/// The points at which functions of a two-cause belief are tabulated: equally spaced in the logarithm of the
/// odds, so that what a test shows moves every point by the same number of places. A function is
/// *homogeneous* here: f(w_c, w_d) = (w_c + w_d) f(x) with x = w_d / (w_c + w_d), concave and not negative.
struct OddsGrid {
  static constexpr std::size_t points = 24;
  static constexpr double span = 4.5;  ///< log odds from -span to span
  static constexpr double step = 2 * span / (points - 1);
  using Line = std::array<float, points>;
  /// A line with what lies beyond both ends: straight down to 0 at certainty.
  using Padded = std::array<float, 3 * points>;

  OddsGrid();
  Padded padded(const Line& line) const;
  /// A lower bound on f(w_c, w_d), by straight lines between the points; `log_odds` = log(w_d / w_c), both
  /// weights > 0.
  double between(const Line& line, double w_c, double w_d, double log_odds) const {
    const double place = (log_odds + span) * (1 / step);
    if (!(place > 0)) return static_cast<double>(line.front()) * w_d / x.front();
    if (place >= static_cast<double>(points - 1)) return static_cast<double>(line.back()) * w_c / y.back();
    const auto i = static_cast<std::size_t>(static_cast<int>(place));
    const double mass = w_c + w_d;
    const double upper = std::clamp((w_d - mass * x[i]) * per_width_[i], 0.0, mass);
    const auto left = static_cast<double>(line[i]);
    return mass * left + upper * (static_cast<double>(line[i + 1]) - left);
  }

  std::array<double, points> x;  ///< share of the second cause
  std::array<double, points> y;  ///< 1 - x
  Line x_line, y_line;

 private:
  std::array<double, points> per_width_;  ///< 1 / (x[i + 1] - x[i])
  Line below_, above_;                    ///< the padding's factors
};

/// What an outcome does to a line: f(w_c p, w_d q) at every point, from the padded line of f.
struct OddsShift {
  bool certain = false;  ///< only one of the two causes is left: f is 0
  std::size_t from = 0;  ///< place in the padded line that the first point needs
  OddsGrid::Line at, next;
};
OddsShift odds_shift(const OddsGrid& grid, double p, double q);

/// Every two causes as a small problem of their own: the repairs that can cure one of them and the tests that
/// tell them apart. What is used up of these is one number, the pair's *index*; each step has its stride.
class CausePairs {
 public:
  using Index = std::uint32_t;
  struct Repair {
    std::size_t repair = 0;
    Index stride = 0;
    Index values = 0;  ///< tries + 1
    double cures_c = 0, cures_d = 0;
    double rest = 0;  ///< after a failure at least this part of either cause's weight is left
    OddsShift failed;
  };
  struct Test {
    std::size_t test = 0;
    double rest = 0;  ///< overlap of the two rows
    std::vector<OddsShift> outcomes;
  };
  struct Slot {
    std::size_t slot = 0;
    Index stride = 0;
    std::vector<Test> tests;  ///< those that tell the two apart
  };
  struct Pair {
    std::size_t c = 0, d = 0;  ///< c < d
    std::vector<Repair> repairs;
    std::vector<Slot> slots;
    /// What of the pair's regret is left, whatever the tests beyond those in `slots` show; 0 leaves the pair
    /// out altogether.
    double factor = 1;
  };
  /// A pair for which a step matters.
  struct Touched {
    std::size_t pair = 0;
    Index stride = 0;
    bool apart = true;  ///< false: a test that cannot tell them apart takes the place of one that can
  };

  explicit CausePairs(const StateSpace& space);

  const OddsGrid& grid() const { return grid_; }
  const std::vector<Pair>& pairs() const { return pairs_; }
  const std::vector<Touched>& touched(std::size_t step) const { return touched_[step]; }
  /// By step and causes: how far the test is from telling nothing, 1 - overlap of the two rows.
  double apartness(std::size_t test, std::size_t c, std::size_t d) const;
  Index index(const Pair& pair, const State& at) const;

 private:
  Pair pair_of(const StateSpace& space, std::size_t c, std::size_t d) const;

  OddsGrid grid_;
  std::size_t causes_ = 0;
  std::vector<double> apart_;  ///< [test][c][d]
  std::vector<Pair> pairs_;
  std::vector<std::vector<Touched>> touched_;
};

}  // namespace secondpull::decision
