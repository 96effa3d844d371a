#include "core/lessons/mean.h"

#include <gmock/gmock.h>

namespace secondpull::lessons {
namespace {

TEST(Mean, OfNothingIsNothingAndOfOneHasNoSpread) {
  EXPECT_EQ(mean_of({}), Mean{});
  const double one[] = {12};
  EXPECT_EQ(mean_of(one), (Mean{.count = 1, .mean = 12}));
  EXPECT_EQ(mean_of(one).interval(), std::nullopt);
}

// R: t.test(c(4, 6, 8, 10, 12), conf.level = 0.8).
TEST(Mean, HasItsIntervalOfStudentsT) {
  const double numbers[] = {12, 4, 8, 6, 10};
  const Mean mean = mean_of(numbers);
  EXPECT_EQ(mean.mean, 8);
  EXPECT_NEAR(mean.deviation, 3.16227766016838, 1e-14);
  const double half = 1.53320627405894 * 3.16227766016838 / 2.23606797749979;
  EXPECT_NEAR(mean.interval()->low, 8 - half, 1e-12);
  EXPECT_NEAR(mean.interval()->high, 8 + half, 1e-12);
}

TEST(Mean, DiffersOnlyFromFiveNumbersOnAndBeyondItsInterval) {
  const double four[] = {10, 10.1, 9.9, 10};
  EXPECT_EQ(differs(mean_of(four), 60), Differs::no);
  const double five[] = {10, 10.1, 9.9, 10, 10};
  EXPECT_EQ(differs(mean_of(five), 60), Differs::lower);
  EXPECT_EQ(differs(mean_of(five), 2), Differs::higher);
  const double wide[] = {0, 20, 5, 15, 10};
  EXPECT_EQ(differs(mean_of(wide), 15), Differs::no);
}

// R: quantile(x, c(.25, .5, .9), type = 7).
TEST(Quantile, LiesOnTheLineBetweenTwoNumbers) {
  const double numbers[] = {1.2, 2.4, 1.3, 1.3, 0, 1, 1.8, 0.8, 4.6, 1.4};
  EXPECT_NEAR(*quantile_of(numbers, 0.25), 1.05, 1e-12);
  EXPECT_NEAR(*quantile_of(numbers, 0.5), 1.3, 1e-12);
  EXPECT_NEAR(*quantile_of(numbers, 0.9), 2.62, 1e-12);
  EXPECT_EQ(quantile_of(numbers, 0), 0);
  EXPECT_EQ(quantile_of(numbers, 1), 4.6);
  EXPECT_EQ(quantile_of({}, 0.5), std::nullopt);
}

}  // namespace
}  // namespace secondpull::lessons
