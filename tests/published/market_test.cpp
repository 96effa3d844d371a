#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>

#include "core/market/backward.h"
#include "core/market/linear_fit.h"
#include "core/market/price_path.h"
#include "core/market/survival.h"

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

/// Weeks in remission of the children given 6-MP: Freireich et al. 1963, Blood 21 (data as in R's
/// MASS::gehan).
std::vector<Wait> freireich() {
  std::vector<Wait> waits;
  for (const double weeks : {6, 6, 6, 7, 10, 13, 16, 22, 23})
    waits.push_back({weeks, true});
  for (const double weeks : {6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35})
    waits.push_back({weeks, false});
  return waits;
}

// The estimates recomputed with R's survival.
TEST(PublishedMarket, HasTheRemissionsOfFreireich) {
  const auto survival = kaplan_meier(freireich(), 0.95);
  ASSERT_TRUE(survival);
  const std::array weeks{6.0, 7.0, 10.0, 13.0, 16.0, 22.0, 23.0};
  const std::array still{0.857143, 0.806723, 0.752941, 0.690196, 0.627451, 0.537815, 0.448179};
  ASSERT_EQ(survival->steps.size(), weeks.size());
  for (std::size_t i = 0; i < weeks.size(); ++i) {
    EXPECT_EQ(survival->steps[i].days, weeks[i]);
    EXPECT_NEAR(survival->steps[i].still, still[i], 5e-7);
  }
  EXPECT_NEAR(survival->steps.front().deviation, 0.076360, 5e-7);
  EXPECT_NEAR(survival->steps.back().deviation, 0.134592, 1e-6);  // rounded up; R has 0.1345915
  EXPECT_EQ(survival->quantile(0.5).days, 23);
}

struct RowOfR {
  double days, waiting, came, still, deviation, low, high;
};

/// The steps of R's survfit for some waits, and the day, and its bounds, of each of these parts (-1: none).
struct AnswerOfR {
  std::vector<RowOfR> steps;
  std::vector<std::array<double, 3>> quantiles;
};
constexpr std::array kParts{0.1, 0.25, 0.5, 0.75, 0.9};

/// One run of R for all sets of waits; empty if it did not answer.
std::vector<AnswerOfR> survfit_of(const std::vector<std::vector<Wait>>& sets) {
  const std::string asked = testing::TempDir() + "secondpull_waits.txt";
  const std::string answered = testing::TempDir() + "secondpull_waits_in_r.txt";
  std::FILE* const file = std::fopen(asked.c_str(), "w");
  if (file == nullptr) return {};
  for (std::size_t set = 0; set < sets.size(); ++set)
    for (const Wait& wait : sets[set])
      std::fprintf(file, "%zu %.17g %d\n", set, wait.days, wait.came ? 1 : 0);
  std::fclose(file);
  const std::string command = "Rscript --vanilla '" SECONDPULL_SOURCE_DIR
                              "/tests/published/waits_against_r.R' 0.1 0.25 0.5 0.75 0.9 < '" +
                              asked + "' > '" + answered + "'";
  if (std::system(command.c_str()) != 0) return {};
  std::ifstream answers{answered};
  std::vector<AnswerOfR> all;
  for (std::size_t count = 0; answers >> count;) {
    AnswerOfR& answer = all.emplace_back();
    RowOfR row{};
    while (answer.steps.size() < count && answers >> row.days >> row.waiting >> row.came >> row.still >>
                                              row.deviation >> row.low >> row.high)
      answer.steps.push_back(row);
    std::array<double, 3> part{};
    while (answer.quantiles.size() < kParts.size() && answers >> part[0] >> part[1] >> part[2])
      answer.quantiles.push_back(part);
  }
  std::remove(asked.c_str());
  std::remove(answered.c_str());
  return all;
}

/// Waits of every length with many on one day, two in five of them censored; the same each time.
std::vector<Wait> scattered(std::size_t count, std::uint32_t seed) {
  std::vector<Wait> waits;
  for (std::size_t i = 0; i < count; ++i) {
    seed = seed * 1664525U + 1013904223U;
    waits.push_back({static_cast<double>(1 + (seed >> 16) % 40), (seed >> 8) % 5 >= 2});
  }
  return waits;
}

// R's survival: survfit with conf.type "log-log".
TEST(PublishedMarket, AgreesWithRInStepsBoundsAndQuantilesOfWaits) {
  const std::vector<std::vector<Wait>> sets{freireich(), scattered(7, 3), scattered(60, 1),
                                            scattered(400, 2)};
  const std::vector<AnswerOfR> answers = survfit_of(sets);
  ASSERT_EQ(answers.size(), sets.size()) << "Rscript did not answer";
  for (std::size_t set = 0; set < sets.size(); ++set) {
    const auto ours = kaplan_meier(sets[set], 0.8);
    const AnswerOfR& r = answers[set];
    ASSERT_TRUE(ours);
    ASSERT_EQ(r.steps.size(), ours->steps.size());
    ASSERT_EQ(r.quantiles.size(), kParts.size());
    for (std::size_t i = 0; i < r.steps.size(); ++i) {
      const SurvivalStep& step = ours->steps[i];
      EXPECT_EQ(step.days, r.steps[i].days);
      EXPECT_EQ(static_cast<double>(step.waiting), r.steps[i].waiting);
      EXPECT_EQ(static_cast<double>(step.came), r.steps[i].came);
      EXPECT_NEAR(step.still, r.steps[i].still, 1e-12);
      if (r.steps[i].still <= 0) continue;  // R has no deviation there
      EXPECT_NEAR(step.deviation, r.steps[i].deviation, 1e-12);
      EXPECT_NEAR(step.interval.low, r.steps[i].low, 1e-12);
      EXPECT_NEAR(step.interval.high, r.steps[i].high, 1e-12);
    }
    for (std::size_t i = 0; i < kParts.size(); ++i) {
      const WaitQuantile part = ours->quantile(kParts[i]);
      EXPECT_EQ(part.days.value_or(-1), r.quantiles[i][0]) << kParts[i];
      EXPECT_EQ(part.low.value_or(-1), r.quantiles[i][1]) << kParts[i];
      EXPECT_EQ(part.high.value_or(-1), r.quantiles[i][2]) << kParts[i];
    }
  }
}

/// Value of n pieces with time t left where buyers come at the rate a exp(-price), and the best price then.
double gallego_van_ryzin(double a, double t, int n) {
  double sum = 0;
  double term = 1;
  for (int i = 0; i <= n; ++i) {
    sum += term;
    term *= a * t / std::numbers::e / (i + 1);
  }
  return std::log(sum);
}

/// The solver's value and price for 1 to n pieces with so many steps.
std::vector<SellingStep> stepwise(double a, double t, int n, int steps_of_day) {
  const Buyers buyers = [a](double, double floor, double) {
    return BestPrice{floor + 1, a * std::exp(-(floor + 1)), floor + 1};
  };
  std::vector<SellingStep> first;
  const auto paths =
      sell_by_a_last_day({.days = t, .steps_of_day = steps_of_day, .pieces = n}, buyers).value();
  for (const auto& path : paths)
    first.push_back(path.front());
  return first;
}

// G. Gallego, G. van Ryzin, Management Science 40 (1994): J(n, t) = ln sum (a t / e)^i / i!, p* = 1 + J(n, t)
// - J(n - 1, t). The formula is from memory, the figures recomputed.
TEST(PublishedMarket, ApproachesThePricesOfGallegoAndVanRyzinAsStepsShrink) {
  const std::array value{1.543040, 2.437602, 2.982819};
  const std::array price{2.543040, 1.894561, 1.545218};
  const auto coarse = stepwise(10, 1, 3, 1'000);
  const auto fine = stepwise(10, 1, 3, 2'000);
  for (std::size_t n = 0; n < value.size(); ++n) {
    EXPECT_NEAR(gallego_van_ryzin(10, 1, static_cast<int>(n) + 1), value[n], 5e-7);
    EXPECT_NEAR(fine[n].value, value[n], 2e-3);
    // The error halves with the step, so that twice the finer less the coarser is without it (Richardson).
    EXPECT_LT(std::abs(fine[n].value - value[n]), 0.6 * std::abs(coarse[n].value - value[n]) + 1e-6);
    EXPECT_NEAR(2 * fine[n].value - coarse[n].value, value[n], 5e-6);
    EXPECT_NEAR(2 * fine[n].price - coarse[n].price, price[n], 5e-4);
  }
  for (const auto& [a, t] : {std::pair{3.7, 2.5}, {0.4, 10.0}, {25.0, 0.3}}) {
    const auto rough = stepwise(a, t, 5, 1'000);
    const auto better = stepwise(a, t, 5, 2'000);
    for (int n = 1; n <= 5; ++n) {
      const auto at = static_cast<std::size_t>(n - 1);
      EXPECT_NEAR(2 * better[at].value - rough[at].value, gallego_van_ryzin(a, t, n), 2e-4) << a << ' ' << n;
    }
  }
}

// J. J. McCall, Quarterly Journal of Economics 84 (1970): offers evenly on 0 to 100, each at a cost of 1:
// what is below 100 - sqrt(200) is refused (from memory; recomputed).
TEST(PublishedMarket, RefusesOffersBelowTheReservationPrice) {
  const double floor = 100 - std::sqrt(200.0);
  const auto standing = standing_floor([](double v) { return (100 - v) * (100 - v) / 200; }, 1, 1, 0, 100);
  ASSERT_TRUE(standing);
  EXPECT_NEAR(*standing, 85.857864, 5e-7);
  EXPECT_NEAR(*standing, floor, 1e-9);
  // The same by going backwards from a far last day.
  const Buyers evenly = [](double, double v, double) {
    return BestPrice{100, std::clamp((100 - v) / 100, 0.0, 1.0), (100 + std::clamp(v, 0.0, 100.0)) / 2};
  };
  const auto first = [&](int steps) {
    return sell_by_a_last_day({.days = 300, .steps_of_day = steps, .holding_cost = 1}, evenly)
        ->front()
        .front();
  };
  const double coarse = first(50).floor;
  const double fine = first(100).floor;
  EXPECT_NEAR(fine, floor, 0.05);
  EXPECT_NEAR(2 * fine - coarse, floor, 1e-4);
}

}  // namespace
}  // namespace secondpull::market
