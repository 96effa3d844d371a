#pragma once

#include <span>
#include <vector>

#include "core/result.h"

namespace secondpull::market {

// Straight-line laws between numbers: y = x . b + noise. Solved by reflections (Householder QR) of the rows
// themselves, never by the normal equations, which square the condition of the rows and lose twice the
// digits. Source: G. H. Golub, Numerical methods for solving linear least squares problems, Numerische
// Mathematik 7 (1965) (from memory).

/// A row of numbers for each observation, all of the same length.
using Rows = std::vector<std::vector<double>>;

struct LeastSquares {
  std::vector<double> coefficients;  ///< in the unit of y per unit of the column
  std::vector<double> deviations;    ///< standard deviation of each
  double residual_deviation = 0;     ///< sqrt(sum of squares / degrees), in the unit of y; 0 if degrees are 0
  double degrees = 0;                ///< rows less columns
};

/// The coefficients with the smallest sum of squares. A problem names `x` (no row, no column, rows of
/// different length, fewer rows than columns, columns of which one follows from others), `y` (not one for
/// each row) or the number that is none.
Result<LeastSquares> least_squares(const Rows& x, std::span<const double> y);

/// A Student-t distribution, moved and stretched.
struct StudentT {
  double location = 0;
  double scale = 1;                          ///< > 0
  double degrees = 1;                        ///< > 0
  double quantile(double p) const;           ///< p in (0, 1)
  double probability_below(double x) const;  ///< P(value <= x)
};

/// What is believed of a law: normal-inverse-gamma. Given the noise's deviation s, the coefficients are
/// normal about `mean` with the covariance s^2 (P'P)^-1, P the matrix `precision`; degrees x scale^2 / s^2 is
/// chi-squared with `degrees`. A row r of P says as much as an observation r . b = r . mean with noise s.
struct FitBelief {
  std::vector<double> mean;
  Rows precision;      ///< as many columns as `mean` has numbers, of full rank
  double degrees = 1;  ///< > 0: observations that the scale counts as
  double scale = 1;    ///< > 0, in the unit of y
};

/// The belief after these observations as well, each with the same noise (weigh the rows otherwise). In
/// whatever pieces the observations come, the outcome is the same. Without any it is the prior. A problem
/// names `mean`, `precision`, `degrees`, `scale`, `x` or `y`. Source: Gelman et al., Bayesian Data Analysis,
/// section 14.8, prior as additional rows (from memory).
Result<FitBelief> updated(const FitBelief& prior, const Rows& x, std::span<const double> y);

/// What a further observation at `x` comes to, whose noise is `noise` times that of the rows (0: the law
/// itself). The belief must be one that `updated` gave.
StudentT predicted(const FitBelief& belief, std::span<const double> x, double noise = 1);

}  // namespace secondpull::market
