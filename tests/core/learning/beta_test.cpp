#include "core/learning/beta.h"

#include <cmath>
#include <limits>
#include <stdexcept>

#include <gmock/gmock.h>
#include <rapidcheck.h>

namespace secondpull::learning {
namespace {

Beta any_beta() {
  return {0.1 + *rc::gen::inRange(0, 10'000) / 100.0, 0.1 + *rc::gen::inRange(0, 10'000) / 100.0};
}
Tries any_tries() {
  const auto tried = *rc::gen::inRange<std::int64_t>(0, 200);
  return {tried, *rc::gen::inRange<std::int64_t>(0, tried + 1)};
}

TEST(Beta, CountsWhatWorkedAndWhatDidNot) {
  // The mean that the decision model asks for: (a0 + cured) / (a0 + b0 + tried).
  const Beta after = Beta{12, 8}.updated({.tried = 5, .cured = 4});
  EXPECT_EQ(after, (Beta{16, 9}));
  EXPECT_DOUBLE_EQ(after.mean(), 16.0 / 25.0);
  EXPECT_EQ((Beta{12, 8}.updated({})), (Beta{12, 8}));
}

TEST(Beta, IsTheSameInWhateverPiecesTheTriesComeIn) {
  EXPECT_TRUE(rc::check("two updates are one of both", [] {
    const Beta prior = any_beta();
    const Tries one = any_tries(), two = any_tries();
    const Beta apart = prior.updated(one).updated(two);
    const Beta together = prior.updated({one.tried + two.tried, one.cured + two.cured});
    RC_ASSERT(std::abs(apart.mean() - together.mean()) < 1e-14);
    RC_ASSERT(apart.updated({}) == apart);
  }));
}

TEST(Beta, DrawsItsMeanTowardsTheShareSeenAndGetsSurer) {
  EXPECT_TRUE(rc::check("the mean lies between prior and share; a try more of either kind moves it", [] {
    const Beta prior = any_beta();
    Tries seen = any_tries();
    ++seen.tried;
    const double share = static_cast<double>(seen.cured) / static_cast<double>(seen.tried);
    const Beta after = prior.updated(seen);
    RC_ASSERT(after.mean() >= std::min(prior.mean(), share) - 1e-15);
    RC_ASSERT(after.mean() <= std::max(prior.mean(), share) + 1e-15);
    RC_ASSERT(after.updated({1, 1}).mean() > after.mean());
    RC_ASSERT(after.updated({1, 0}).mean() < after.mean());
  }));
}

TEST(Beta, HasQuantilesThatUndoItsProbabilities) {
  EXPECT_TRUE(rc::check("P(x <= quantile(p)) = p, rising in p, mirrored with a and b", [] {
    const Beta beta = any_beta();
    const double p = *rc::gen::inRange(1, 1000) / 1000.0;
    const double x = beta.quantile(p);
    RC_ASSERT(x >= 0 && x <= 1);
    // A double near 1 cannot say how near: its probability is only as good as its spacing allows.
    if (x < 0.999) RC_ASSERT(std::abs(beta.probability_below(x) - p) < 1e-10);
    RC_ASSERT(beta.quantile(p / 2) <= x);
    RC_ASSERT(std::abs(Beta{beta.b, beta.a}.quantile(1 - p) - (1 - x)) < 1e-9);
  }));
}

TEST(Beta, HasTheBoundsItsNameSays) {
  EXPECT_EQ((Beta{3, 4}.quantile(0)), 0);
  EXPECT_EQ((Beta{3, 4}.quantile(1)), 1);
  EXPECT_EQ((Beta{3, 4}.probability_below(-1)), 0);
  EXPECT_EQ((Beta{3, 4}.probability_below(2)), 1);
  // Beta(1, 1) is uniform, and Beta(1, 2) has the distribution 1 - (1 - x)^2.
  EXPECT_NEAR((Beta{1, 1}.quantile(0.3)), 0.3, 1e-15);
  EXPECT_NEAR((Beta{1, 2}.quantile(0.75)), 0.5, 1e-15);
  EXPECT_NEAR((Beta{1, 1}.deviation()), std::sqrt(1.0 / 12), 1e-15);
  const Interval middle = Beta{1, 1}.central(kShownLevel);
  EXPECT_NEAR(middle.low, 0.1, 1e-15);
  EXPECT_NEAR(middle.high, 0.9, 1e-15);
}

TEST(Beta, IsRefusedWhereItIsNone) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const Beta none : {Beta{0, 1}, Beta{1, 0}, Beta{-1, 2}, Beta{nan, 1}, Beta{1, 1 / 0.0}}) {
    EXPECT_FALSE(none.is_proper());
    EXPECT_THROW(none.quantile(0.5), std::invalid_argument);
    EXPECT_THROW(none.probability_below(0.5), std::invalid_argument);
  }
  EXPECT_THROW((Beta{1, 1}.quantile(1.01)), std::invalid_argument);
  EXPECT_THROW((Beta{1, 1}.quantile(nan)), std::invalid_argument);
}

}  // namespace
}  // namespace secondpull::learning
