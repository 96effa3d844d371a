#pragma once

#include <vector>

#include "core/decision/planner.h"

namespace secondpull::decision {

/// A stretch of hour values along which one plan is best.
struct HourPiece {
  double from = 0;   ///< hour value at which the stretch begins
  double hours = 0;  ///< E[hours] of the plan
  double value = 0;  ///< V at `from`
  NamedMove next;    ///< the plan's first move
};

/// V of a case as a function of the hour value: convex, piecewise linear, falling, with slope -E[hours].
/// Solves the case only at hour values that the lines known so far do not settle.
class HourCurve {
 public:
  /// `of` has no problems; its own hour value plays no part.
  HourCurve(diagnosis::Case of, Budget budget);

  /// What is best at an hour value.
  struct Point {
    double hour_value = 0;
    double value = 0;
    double hours = 0;  ///< E[hours] of a best plan; at a break one of several
    NamedMove next;
    double line_at(double other) const { return value - hours * (other - hour_value); }
  };
  Point at(double hour_value);

  /// The stretches from `from` to `to`, in order: the break-points of the hour value are where they begin.
  std::vector<HourPiece> pieces(double from, double to);

  bool exact() const { return exact_; }

 private:
  Point solve(double hour_value);
  /// Adds the breaks between two points: where their tangents meet there is one, or a lower line is found
  /// there.
  void add_breaks(const Point& left, const Point& right, std::vector<HourPiece>& out);

  diagnosis::Case case_;
  Budget budget_;
  std::vector<Point> known_;  ///< by hour value
  bool exact_ = true;
};

}  // namespace secondpull::decision
