#include "core/market/linear_fit.h"

#include <cmath>

#include <gmock/gmock.h>
#include <rapidcheck.h>

#include "core/learning/shrink.h"

namespace secondpull::market {
namespace {

double number_in(int low, int high) {
  return *rc::gen::inRange(low * 1000, high * 1000) / 1000.0;
}
std::vector<double> numbers(std::size_t count, int low, int high) {
  std::vector<double> all;
  for (std::size_t i = 0; i < count; ++i)
    all.push_back(number_in(low, high));
  return all;
}
Rows any_rows(std::size_t count, std::size_t columns) {
  Rows rows;
  for (std::size_t i = 0; i < count; ++i)
    rows.push_back(numbers(columns, -3, 3));
  return rows;
}
/// About `mean`, each coefficient on its own with a precision of 0.1 to 3.
FitBelief any_belief(std::size_t columns) {
  FitBelief belief{.mean = numbers(columns, -3, 3), .degrees = number_in(1, 9), .scale = number_in(1, 3)};
  for (std::size_t j = 0; j < columns; ++j) {
    belief.precision.emplace_back(columns, 0.0);
    belief.precision[j][j] = number_in(0, 3) + 0.1;
  }
  return belief;
}

TEST(LeastSquares, RefusesWhatCannotBeFittedAndNamesIt) {
  const std::vector<double> y{1, 2, 3};
  EXPECT_EQ(least_squares({}, {}).error().field, "x");
  EXPECT_EQ(least_squares({{1, 2}, {1}, {1, 3}}, y).error().value, "1");
  EXPECT_EQ(least_squares({{1, 2}, {1, 3}}, y).error().field, "y");
  EXPECT_EQ(least_squares({{1, 2}}, std::vector<double>{1.0}).error().sentence,
            "1 rows cannot tell 2 numbers.");
  EXPECT_EQ(least_squares({{1, 2}, {1, NAN}, {1, 4}}, y).error().field, "x[1][1]");
  EXPECT_EQ(least_squares({{1, 2}, {1, 3}, {1, 4}}, std::vector<double>{1, INFINITY, 3}).error().field,
            "y[1]");
  // The third column is the sum of the others; a column of nothing; of hugely different sizes.
  const auto dependent =
      least_squares({{1, 2, 3}, {1, 5, 6}, {1, 7, 8}, {1, 9, 10}}, std::vector<double>{1, 2, 3, 4});
  ASSERT_FALSE(dependent);
  EXPECT_EQ(dependent.error(), (Problem{"Only 2 of the 3 columns say something of their own.", "x", "2"}));
  EXPECT_FALSE(least_squares({{1, 0}, {1, 0}, {1, 0}}, y));
  EXPECT_FALSE(least_squares({{1e12, 2e-9}, {2e12, 4e-9}, {3e12, 6e-9}}, y));
  EXPECT_TRUE(least_squares({{1e12, 2e-9}, {2e12, 4e-9}, {3e12, 7e-9}}, y));
}

TEST(LeastSquares, FindsTheLawThatTheNumbersCameFrom) {
  EXPECT_TRUE(rc::check("y = x . b exactly gives b and no residual", [] {
    const auto columns = *rc::gen::inRange<std::size_t>(1, 5);
    const Rows x = any_rows(columns + 6, columns);
    const std::vector<double> law = numbers(columns, -9, 9);
    std::vector<double> y;
    for (const auto& row : x) {
      y.push_back(0);
      for (std::size_t j = 0; j < columns; ++j)
        y.back() += row[j] * law[j];
    }
    const auto fit = least_squares(x, y);
    if (!fit) return;  // rows of almost nothing
    for (std::size_t j = 0; j < columns; ++j)
      RC_ASSERT(std::abs(fit->coefficients[j] - law[j]) < 1e-6);
    RC_ASSERT(fit->residual_deviation < 1e-10);
  }));
}

TEST(FitBelief, OfAMeanAloneIsTheConjugateNormal) {
  // The price after own sales (shrunk_price) is the same law with one column of ones.
  const learning::PriceBelief known{std::exp(2.0), 0.4};
  const std::vector<double> own{2.5, 1.9, 3.0};
  std::vector<double> prices;
  for (const double x : own)
    prices.push_back(std::exp(x));
  const auto after = updated({.mean = {2}, .precision = {{std::sqrt(5.0)}}, .degrees = 5, .scale = 0.4},
                             {{1}, {1}, {1}}, own);
  ASSERT_TRUE(after);
  const learning::PriceBelief same = learning::shrunk_price(known, prices, 5);
  EXPECT_NEAR(after->mean[0], std::log(same.median), 1e-14);
  EXPECT_NEAR(after->scale, same.spread, 1e-14);
  EXPECT_EQ(after->degrees, 8);
  const StudentT next = predicted(*after, std::vector<double>{1.0});
  EXPECT_NEAR(next.scale, same.spread * std::sqrt(1 + 1.0 / 8), 1e-14);
  EXPECT_NEAR(predicted(*after, std::vector<double>{1.0}, 0).scale, same.spread * std::sqrt(1.0 / 8), 1e-14);
}

TEST(FitBelief, IsTheSameInWhateverPiecesTheObservationsCome) {
  EXPECT_TRUE(rc::check("two updates are one of both", [] {
    const auto columns = *rc::gen::inRange<std::size_t>(1, 5);
    const FitBelief prior = any_belief(columns);
    const Rows first = any_rows(*rc::gen::inRange<std::size_t>(0, 8), columns);
    const Rows second = any_rows(*rc::gen::inRange<std::size_t>(0, 8), columns);
    const std::vector<double> y1 = numbers(first.size(), -9, 9);
    const std::vector<double> y2 = numbers(second.size(), -9, 9);
    Rows both = first;
    both.insert(both.end(), second.begin(), second.end());
    std::vector<double> y = y1;
    y.insert(y.end(), y2.begin(), y2.end());
    const auto apart = updated(*updated(prior, first, y1), second, y2);
    const auto together = updated(prior, both, y);
    RC_ASSERT(apart && together);
    const std::vector<double> at = numbers(columns, -3, 3);
    const StudentT a = predicted(*apart, at);
    const StudentT b = predicted(*together, at);
    RC_ASSERT(std::abs(a.location - b.location) < 1e-8);
    RC_ASSERT(std::abs(a.scale - b.scale) < 1e-8);
    RC_ASSERT(std::abs(a.degrees - b.degrees) < 1e-12);
  }));
}

TEST(FitBelief, WithWeakBeliefIsTheLeastSquaresFit) {
  const Rows x{{1, 1}, {1, 2}, {1, 4}, {1, 7}};
  const std::vector<double> y{2, 3, 7, 10};
  const auto fit = least_squares(x, y);
  const auto after =
      updated({.mean = {0, 0}, .precision = {{1e-7, 0}, {0, 1e-7}}, .degrees = 1e-9, .scale = 1}, x, y);
  ASSERT_TRUE(fit && after);
  EXPECT_NEAR(after->mean[0], fit->coefficients[0], 1e-9);
  EXPECT_NEAR(after->mean[1], fit->coefficients[1], 1e-9);
  EXPECT_NEAR(after->scale * std::sqrt(4.0), fit->residual_deviation * std::sqrt(2.0), 1e-9);
}

TEST(FitBelief, ThatSaysNothingOfANumberIsRefused) {
  const FitBelief sound{.mean = {0, 0}, .precision = {{1, 0}, {0, 1}}};
  const auto field = [&](auto change) {
    FitBelief wrong = sound;
    change(wrong);
    return updated(wrong, {}, {}).error().field;
  };
  EXPECT_EQ(field([](FitBelief& b) { b.precision = {{1, 0}, {2, 0}}; }), "precision");
  EXPECT_EQ(field([](FitBelief& b) { b.precision = {{1, 0}}; }), "precision");
  EXPECT_EQ(field([](FitBelief& b) { b.precision[1][0] = NAN; }), "precision[1][0]");
  EXPECT_EQ(field([](FitBelief& b) { b.mean = {}; }), "mean");
  EXPECT_EQ(field([](FitBelief& b) { b.mean[1] = NAN; }), "mean[1]");
  EXPECT_EQ(field([](FitBelief& b) { b.degrees = 0; }), "degrees");
  EXPECT_EQ(field([](FitBelief& b) { b.scale = -1; }), "scale");
  EXPECT_EQ(updated(sound, {{1, 2, 3}}, std::vector<double>{1.0}).error().field, "x");
}

TEST(StudentT, HasTheQuantilesOfThePublishedTable) {
  // Any table of Student's t: 90 % at 5 degrees is 1.476, 97.5 % at 10 degrees 2.228 (from memory).
  EXPECT_NEAR((StudentT{0, 1, 5}.quantile(0.9)), 1.476, 5e-4);
  EXPECT_NEAR((StudentT{10, 2, 10}.quantile(0.975)), 10 + 2 * 2.228, 1e-3);
  EXPECT_NEAR((StudentT{10, 2, 10}.probability_below(10 + 2 * 2.228)), 0.975, 1e-4);
}

}  // namespace
}  // namespace secondpull::market
