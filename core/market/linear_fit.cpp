#include "core/market/linear_fit.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include <Eigen/Dense>
#include <boost/math/distributions/students_t.hpp>
#include <fmt/format.h>

namespace secondpull::market {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Columns of length 1 count as dependent where less than this is left of one beside the others, for each
/// row.
constexpr double kNothingLeft = 16 * std::numeric_limits<double>::epsilon();

std::string place(std::string_view name, std::size_t row, std::size_t column) {
  return fmt::format("{}[{}][{}]", name, row, column);
}

std::optional<Problem> problem_of_rows(const Rows& rows, std::size_t columns, std::string_view name) {
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].size() != columns)
      return Problem{fmt::format("Row {} has {} numbers in place of {}.", i + 1, rows[i].size(), columns),
                     std::string{name}, std::to_string(rows[i].size())};
    for (std::size_t j = 0; j < columns; ++j)
      if (!std::isfinite(rows[i][j]))
        return Problem{"Only numbers can be fitted.", place(name, i, j), fmt::format("{}", rows[i][j])};
  }
  return std::nullopt;
}

std::optional<Problem> problem_of_values(std::span<const double> y, std::size_t rows) {
  if (y.size() != rows)
    return Problem{fmt::format("There are {} values for {} rows.", y.size(), rows), "y",
                   std::to_string(y.size())};
  for (std::size_t i = 0; i < y.size(); ++i)
    if (!std::isfinite(y[i]))
      return Problem{"Only numbers can be fitted.", fmt::format("y[{}]", i), fmt::format("{}", y[i])};
  return std::nullopt;
}

void write_rows(const Rows& rows, MatrixXd& matrix, Index from) {
  for (std::size_t i = 0; i < rows.size(); ++i)
    for (std::size_t j = 0; j < rows[i].size(); ++j)
      matrix(from + static_cast<Index>(i), static_cast<Index>(j)) = rows[i][j];
}

std::vector<double> numbers_of(const VectorXd& vector) {
  return {vector.data(), vector.data() + vector.size()};
}

/// Divides each column by a power of two near its length, which changes no digit, and returns the divisors.
/// Columns of very different size (a year, a number of people) would else hide one another.
VectorXd levelled(MatrixXd& matrix) {
  VectorXd divisors = VectorXd::Ones(matrix.cols());
  for (Index j = 0; j < matrix.cols(); ++j) {
    const double length = matrix.col(j).stableNorm();
    if (length > 0) divisors(j) = std::exp2(std::round(std::log2(length)));
    matrix.col(j) /= divisors(j);
  }
  return divisors;
}

}  // namespace

Result<LeastSquares> least_squares(const Rows& x, std::span<const double> y) {
  if (x.empty() || x.front().empty()) return problem("There is nothing to fit.", "x", "0");
  const std::size_t columns = x.front().size();
  if (auto wrong = problem_of_rows(x, columns, "x")) return tl::unexpected(std::move(*wrong));
  if (auto wrong = problem_of_values(y, x.size())) return tl::unexpected(std::move(*wrong));
  if (x.size() < columns)
    return problem(fmt::format("{} rows cannot tell {} numbers.", x.size(), columns), "x",
                   std::to_string(x.size()));
  MatrixXd matrix(static_cast<Index>(x.size()), static_cast<Index>(columns));
  write_rows(x, matrix, 0);
  const VectorXd divisors = levelled(matrix);
  const VectorXd values = Eigen::Map<const VectorXd>(y.data(), static_cast<Index>(y.size()));
  Eigen::ColPivHouseholderQR<MatrixXd> qr(matrix);
  qr.setThreshold(kNothingLeft * static_cast<double>(x.size()));
  if (qr.rank() < matrix.cols())
    return problem(fmt::format("Only {} of the {} columns say something of their own.", qr.rank(), columns),
                   "x", std::to_string(qr.rank()));
  VectorXd solution = qr.solve(values);
  solution += qr.solve(VectorXd(values - matrix * solution));  // wins back what rounding took
  LeastSquares fit;
  fit.degrees = static_cast<double>(x.size() - columns);
  const double left = (values - matrix * solution).stableNorm();
  if (fit.degrees > 0) fit.residual_deviation = left / std::sqrt(fit.degrees);
  const MatrixXd inverse = qr.matrixR()
                               .topRows(matrix.cols())
                               .template triangularView<Eigen::Upper>()
                               .solve(MatrixXd::Identity(matrix.cols(), matrix.cols()));
  const VectorXd lengths = qr.colsPermutation() * VectorXd(inverse.rowwise().norm());
  fit.coefficients = numbers_of(solution.cwiseQuotient(divisors));
  fit.deviations = numbers_of(fit.residual_deviation * lengths.cwiseQuotient(divisors));
  return fit;
}

double StudentT::quantile(double p) const {
  return location + scale * boost::math::quantile(boost::math::students_t(degrees), p);
}

double StudentT::probability_below(double x) const {
  return boost::math::cdf(boost::math::students_t(degrees), (x - location) / scale);
}

Result<FitBelief> updated(const FitBelief& prior, const Rows& x, std::span<const double> y) {
  const std::size_t columns = prior.mean.size();
  if (columns == 0) return problem("There is nothing to fit.", "mean", "0");
  for (std::size_t j = 0; j < columns; ++j)
    if (!std::isfinite(prior.mean[j]))
      return problem("Only numbers can be fitted.", fmt::format("mean[{}]", j),
                     fmt::format("{}", prior.mean[j]));
  if (!(std::isfinite(prior.degrees) && prior.degrees > 0))
    return problem("A belief counts as more than no observation.", "degrees",
                   fmt::format("{}", prior.degrees));
  if (!(std::isfinite(prior.scale) && prior.scale > 0))
    return problem("The noise believed in is above 0.", "scale", fmt::format("{}", prior.scale));
  if (auto wrong = problem_of_rows(prior.precision, columns, "precision"))
    return tl::unexpected(std::move(*wrong));
  if (auto wrong = problem_of_rows(x, columns, "x")) return tl::unexpected(std::move(*wrong));
  if (auto wrong = problem_of_values(y, x.size())) return tl::unexpected(std::move(*wrong));

  const auto width = static_cast<Index>(columns);
  const auto believed = static_cast<Index>(prior.precision.size());
  MatrixXd stacked = MatrixXd::Zero(believed + static_cast<Index>(x.size()), width);
  write_rows(prior.precision, stacked, 0);
  {
    MatrixXd alone = stacked.topRows(believed);
    levelled(alone);
    if (believed < width || Eigen::ColPivHouseholderQR<MatrixXd>(alone).rank() < width)
      return problem("The belief says nothing of one of the numbers.", "precision",
                     std::to_string(prior.precision.size()));
  }
  write_rows(x, stacked, believed);
  // What is fitted is how far the law lies from the prior's mean: the prior's rows then aim at 0, and what
  // the observations do not touch stays exactly where it was.
  const VectorXd mean = Eigen::Map<const VectorXd>(prior.mean.data(), width);
  VectorXd aims = VectorXd::Zero(stacked.rows());
  aims.tail(static_cast<Index>(y.size())) =
      Eigen::Map<const VectorXd>(y.data(), static_cast<Index>(y.size())) -
      stacked.bottomRows(static_cast<Index>(y.size())) * mean;
  const Eigen::HouseholderQR<MatrixXd> qr(stacked);
  const VectorXd moved = qr.solve(aims);
  const double squares = (aims - stacked * moved).squaredNorm();

  FitBelief after;
  after.mean = numbers_of(mean + moved);
  after.degrees = prior.degrees + static_cast<double>(y.size());
  after.scale = std::sqrt((prior.degrees * prior.scale * prior.scale + squares) / after.degrees);
  for (Index i = 0; i < width; ++i) {
    std::vector<double> row(columns, 0.0);
    for (Index j = i; j < width; ++j)
      row[static_cast<std::size_t>(j)] = qr.matrixQR()(i, j);
    after.precision.push_back(std::move(row));
  }
  return after;
}

StudentT predicted(const FitBelief& belief, std::span<const double> x, double noise) {
  const auto width = static_cast<Index>(belief.mean.size());
  MatrixXd upper(width, width);
  write_rows(belief.precision, upper, 0);
  const VectorXd at = Eigen::Map<const VectorXd>(x.data(), width);
  const VectorXd unsure = upper.transpose().triangularView<Eigen::Lower>().solve(at);
  const double location = at.dot(Eigen::Map<const VectorXd>(belief.mean.data(), width));
  return {location, belief.scale * std::sqrt(noise * noise + unsure.squaredNorm()), belief.degrees};
}

}  // namespace secondpull::market
