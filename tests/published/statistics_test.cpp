#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>
#include <vector>

#include <gmock/gmock.h>

#include "core/learning/beta.h"

namespace secondpull::learning {
namespace {

// Jeffreys intervals at 95 %, from the published method (Brown, Cai, DasGupta 2001), recomputed with R's
// qbeta.
TEST(PublishedStatistics, HasTheJeffreysIntervals) {
  const Interval most = jeffreys_interval({.tried = 20, .cured = 18}, 0.95);
  EXPECT_NEAR(most.low, 0.716146742695748, 1e-13);
  EXPECT_NEAR(most.high, 0.978627511977550, 1e-13);
  const Interval few = jeffreys_interval({.tried = 10, .cured = 2}, 0.95);
  EXPECT_NEAR(few.low, 0.0440594, 5e-8);
  EXPECT_NEAR(few.high, 0.5027745, 5e-8);
  const Interval none = jeffreys_interval({.tried = 10, .cured = 0}, 0.95);
  EXPECT_EQ(none.low, 0);
  EXPECT_NEAR(none.high, 0.2171963, 5e-8);
  const Interval all = jeffreys_interval({.tried = 10, .cured = 10}, 0.95);
  EXPECT_NEAR(all.low, 1 - none.high, 1e-14);
  EXPECT_EQ(all.high, 1);
}

// Gelman et al., Bayesian Data Analysis: girls among 980 births with placenta previa, uniform prior (from
// memory; recomputed).
TEST(PublishedStatistics, HasThePosteriorOfThePlacentaPreviaBirths) {
  const Beta girls = Beta{1, 1}.updated({.tried = 980, .cured = 437});
  EXPECT_EQ(girls, (Beta{438, 544}));
  EXPECT_NEAR(girls.mean(), 0.4460285, 5e-8);
  EXPECT_NEAR(girls.deviation(), 0.0158543, 5e-8);
  const Interval middle = girls.central(0.95);
  EXPECT_NEAR(middle.low, 0.4150655, 5e-8);
  EXPECT_NEAR(middle.high, 0.4771998, 5e-8);
}

/// The grid: from chances that are nearly certain one way or the other to counts of a million.
constexpr std::array kShapes{0.01, 0.1, 0.5, 1.0, 1.6, 5.0, 18.4, 100.0, 438.0, 1e4, 1e6};
constexpr std::array kProbabilities{1e-12, 1e-6, 1e-3, 0.025, 0.1, 0.5, 0.9, 0.975, 0.999};
constexpr double kAgreement = 1e-12;  ///< relative

struct Row {
  double a, b, p, quantile;
  double in_r, below, above;
};

/// Our quantiles of the whole grid beside what one run of R says of them.
std::vector<Row> grid_beside_r() {
  const std::string asked = testing::TempDir() + "secondpull_beta_grid.txt";
  const std::string answered = testing::TempDir() + "secondpull_beta_grid_in_r.txt";
  std::vector<Row> rows;
  std::FILE* const file = std::fopen(asked.c_str(), "w");
  if (file == nullptr) return rows;
  for (const double a : kShapes)
    for (const double b : kShapes)
      for (const double p : kProbabilities) {
        const Row row{a, b, p, Beta{a, b}.quantile(p), 0, 0, 0};
        std::fprintf(file, "%.17g %.17g %.17g %.17g\n", row.a, row.b, row.p, row.quantile);
        rows.push_back(row);
      }
  std::fclose(file);
  char share[32];
  std::snprintf(share, sizeof share, "%g", kAgreement);
  const std::string command = "Rscript --vanilla '" SECONDPULL_SOURCE_DIR
                              "/tests/published/beta_against_r.R' " +
                              std::string{share} + " < '" + asked + "' > '" + answered + "'";
  if (std::system(command.c_str()) != 0) return {};
  std::ifstream answers{answered};
  for (Row& row : rows)
    if (!(answers >> row.in_r >> row.below >> row.above)) return {};
  std::remove(asked.c_str());
  std::remove(answered.c_str());
  return rows;
}

std::string said(const Row& row) {
  char text[120];
  std::snprintf(text, sizeof text, "Beta(%g, %g) at %g: %.17g, in R %.17g", row.a, row.b, row.p, row.quantile,
                row.in_r);
  return text;
}

// R's pbeta (TOMS 708) and qbeta, over the grid.
TEST(PublishedStatistics, AgreesWithRInTheQuantilesOfTheBetaDistribution) {
  const std::vector<Row> rows = grid_beside_r();
  ASSERT_EQ(rows.size(), kShapes.size() * kShapes.size() * kProbabilities.size()) << "Rscript did not answer";
  for (const Row& row : rows) {
    // The same again by R's pbeta, which finds a quantile that both programs have wrong.
    if (row.quantile > 0) {
      EXPECT_GE(row.above, row.p * (1 - kAgreement)) << said(row);
      EXPECT_LE(row.below, row.p * (1 + kAgreement)) << said(row);
    }
    EXPECT_NEAR(row.quantile, row.in_r, kAgreement * row.in_r) << said(row);
  }
}

}  // namespace
}  // namespace secondpull::learning
