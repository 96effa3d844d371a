#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include <gmock/gmock.h>

#include "core/market/linear_fit.h"

namespace secondpull::market {
namespace {

/// Digits in which two numbers agree.
double digits(double found, double certified) {
  return found == certified ? 16 : -std::log10(std::abs(found - certified) / std::abs(certified));
}

// Norris: NIST Statistical Reference Datasets, linear regression; certified values.
TEST(PublishedMarket, FitsTheLineOfNorris) {
  const std::array x{0.2, 337.4, 118.2, 884.6, 10.1,  226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4,
                     0.6, 775.5, 666.9, 338.0, 447.5, 11.6,  556.0, 228.1, 995.8, 887.6, 120.2, 0.3,
                     0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1,  118.3, 229.2, 669.1, 448.9, 0.5};
  const std::array y{0.1, 338.8, 118.1, 888.0, 9.2,   228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3,
                     0.1, 778.1, 668.8, 339.3, 448.9, 10.8,  557.7, 228.3, 998.0, 888.8, 119.6, 0.3,
                     0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2,  117.6, 228.9, 668.4, 449.2, 0.2};
  Rows rows;
  for (const double at : x)
    rows.push_back({1, at});
  const auto fit = least_squares(rows, y);
  ASSERT_TRUE(fit) << fit.error().sentence;
  EXPECT_GT(digits(fit->coefficients[0], -0.262323073774029), 12);
  EXPECT_GT(digits(fit->coefficients[1], 1.00211681802045), 12);
  EXPECT_GT(digits(fit->deviations[0], 0.232818234301152), 12);
  EXPECT_GT(digits(fit->deviations[1], 0.000429796848199937), 12);
  EXPECT_GT(digits(fit->residual_deviation, 0.884796396144373), 12);
  EXPECT_EQ(fit->degrees, 34);
}

/// 1, price deflator, product, unemployed, armed forces, population, year; employed.
const Rows kLongley{
    {1, 83, 234289, 2356, 1590, 107608, 1947},    {1, 88.5, 259426, 2325, 1456, 108632, 1948},
    {1, 88.2, 258054, 3682, 1616, 109773, 1949},  {1, 89.5, 284599, 3351, 1650, 110929, 1950},
    {1, 96.2, 328975, 2099, 3099, 112075, 1951},  {1, 98.1, 346999, 1932, 3594, 113270, 1952},
    {1, 99, 365385, 1870, 3547, 115094, 1953},    {1, 100, 363112, 3578, 3350, 116219, 1954},
    {1, 101.2, 397469, 2904, 3048, 117388, 1955}, {1, 104.6, 419180, 2822, 2857, 118734, 1956},
    {1, 108.4, 442769, 2936, 2798, 120445, 1957}, {1, 110.8, 444546, 4681, 2637, 121950, 1958},
    {1, 112.6, 482704, 3813, 2552, 123366, 1959}, {1, 114.2, 502601, 3931, 2514, 125368, 1960},
    {1, 115.7, 518173, 4806, 2572, 127852, 1961}, {1, 116.9, 554894, 4007, 2827, 130081, 1962}};
const std::vector<double> kEmployed{60323, 61122, 60171, 61187, 63221, 63639, 64989, 63761,
                                    66019, 67857, 68169, 66513, 68655, 69564, 69331, 70551};
constexpr std::array kLongleyCoefficients{-3482258.63459582, 15.0618722713733,  -0.0358191792925910,
                                          -2.02022980381683, -1.03322686717359, -0.0511041056535807,
                                          1829.15146461355};
constexpr std::array kLongleyDeviations{890420.383607373,  84.9149257747669,  0.0334910077722432,
                                        0.488399681651699, 0.214274163161675, 0.226073200069370,
                                        455.478499142212};

/// The coefficients by the normal equations, eliminated in turn.
std::vector<double> by_normal_equations(const Rows& x, const std::vector<double>& y) {
  const std::size_t n = x.front().size();
  Rows a(n, std::vector<double>(n + 1, 0.0));
  for (std::size_t row = 0; row < x.size(); ++row)
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t j = 0; j < n; ++j)
        a[i][j] += x[row][i] * x[row][j];
      a[i][n] += x[row][i] * y[row];
    }
  for (std::size_t k = 0; k < n; ++k)
    for (std::size_t i = 0; i < n; ++i)
      if (i != k) {
        const double share = a[i][k] / a[k][k];
        for (std::size_t j = k; j <= n; ++j)
          a[i][j] -= share * a[k][j];
      }
  std::vector<double> found;
  for (std::size_t i = 0; i < n; ++i)
    found.push_back(a[i][n] / a[i][i]);
  return found;
}

// Longley: NIST Statistical Reference Datasets, higher difficulty. The data are those of R's `datasets`; the
// certified values are from memory, and R's lm gives the same to 13 digits.
TEST(PublishedMarket, FitsTheEmploymentOfLongleyWhereNormalEquationsLoseTheirDigits) {
  const auto fit = least_squares(kLongley, kEmployed);
  ASSERT_TRUE(fit) << fit.error().sentence;
  const std::vector<double> squared = by_normal_equations(kLongley, kEmployed);
  double worst = 16;
  double worst_squared = 16;
  for (std::size_t i = 0; i < kLongleyCoefficients.size(); ++i) {
    worst = std::min(worst, digits(fit->coefficients[i], kLongleyCoefficients[i]));
    worst_squared = std::min(worst_squared, digits(squared[i], kLongleyCoefficients[i]));
    EXPECT_GT(digits(fit->deviations[i], kLongleyDeviations[i]), 11) << i;
  }
  EXPECT_GT(digits(fit->residual_deviation, 304.854073561965), 11);
  EXPECT_EQ(fit->degrees, 9);
  EXPECT_GT(worst, 11);
  EXPECT_LT(worst_squared, 9);
  RecordProperty("digits", static_cast<int>(worst));
  RecordProperty("digits_of_normal_equations", static_cast<int>(worst_squared));
}

}  // namespace
}  // namespace secondpull::market
