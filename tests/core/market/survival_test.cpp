#include "core/market/survival.h"

#include <cmath>

#include <gmock/gmock.h>
#include <rapidcheck.h>

namespace secondpull::market {
namespace {

using learning::Range;

std::vector<Wait> any_waits(int most) {
  std::vector<Wait> waits;
  const auto count = *rc::gen::inRange(0, most);
  for (int i = 0; i < count; ++i)
    waits.push_back({*rc::gen::inRange(0, 200) / 4.0, *rc::gen::arbitrary<bool>()});
  return waits;
}
KnownWait any_known() {
  const double low = *rc::gen::inRange(0, 40) / 4.0;
  const double typical = low + *rc::gen::inRange(0, 80) / 4.0;
  return KnownWait{{low, typical, typical + *rc::gen::inRange(0, 160) / 4.0}};
}
std::vector<Wait> repeated(const std::vector<Wait>& waits, int times) {
  std::vector<Wait> all;
  for (int i = 0; i < times; ++i)
    all.insert(all.end(), waits.begin(), waits.end());
  return all;
}

TEST(KaplanMeier, CountsAWaitCensoredOnADayAsWaitingOnIt) {
  const auto of = kaplan_meier(std::vector<Wait>{{3, true}, {3, false}, {5, true}, {9, false}}, 0.8).value();
  ASSERT_EQ(of.steps.size(), 2U);
  EXPECT_EQ(of.steps[0].waiting, 4U);
  EXPECT_DOUBLE_EQ(of.steps[0].still, 0.75);
  EXPECT_DOUBLE_EQ(of.steps[1].still, 0.375);
  EXPECT_EQ(of.still(2.9), 1);
  EXPECT_DOUBLE_EQ(of.still(3), 0.75);
  EXPECT_DOUBLE_EQ(of.still(100), 0.375);
  EXPECT_EQ(of.quantile(0.25).days, 3);  // exactly a quarter
  EXPECT_EQ(of.quantile(0.5).days, 5);
  EXPECT_EQ(of.quantile(0.9).days, std::nullopt);
}

TEST(KaplanMeier, OfNothingAndOfACertainEnd) {
  EXPECT_TRUE(kaplan_meier({}, 0.8)->steps.empty());
  EXPECT_EQ(kaplan_meier({}, 0.8)->quantile(0.5).days, std::nullopt);
  const auto all = kaplan_meier(std::vector<Wait>{{2, true}, {2, true}}, 0.8).value();
  EXPECT_EQ(all.steps[0].still, 0);
  EXPECT_EQ(all.steps[0].interval, (Interval{0, 1}));
  EXPECT_EQ(all.quantile(0.5).days, 2);
  EXPECT_EQ(all.quantile(0.5).low, std::nullopt);
}

TEST(KaplanMeier, RefusesWhatIsNoWait) {
  const auto negative = kaplan_meier(std::vector<Wait>{{-1, true}}, 0.8);
  EXPECT_EQ(negative.error(), (Problem{"A wait takes no less than 0 days.", "days", "-1"}));
  EXPECT_EQ(kaplan_meier(std::vector<Wait>{{NAN, true}}, 0.8).error().field, "days");
  EXPECT_EQ(kaplan_meier({}, 1).error().field, "level");
}

TEST(KaplanMeier, NeverRisesAndLiesWithinItsBounds) {
  EXPECT_TRUE(rc::check("each step is lower, between its bounds; a wait that had not come would lift it", [] {
    std::vector<Wait> waits = any_waits(40);
    const auto of = kaplan_meier(waits, 0.8).value();
    double before = 1;
    for (const SurvivalStep& step : of.steps) {
      RC_ASSERT(step.still < before && step.still >= 0);
      RC_ASSERT(step.interval.low <= step.still + 1e-12 && step.still <= step.interval.high + 1e-12);
      before = step.still;
    }
    if (waits.empty()) return;
    waits[*rc::gen::inRange<std::size_t>(0, waits.size())].came = false;
    const auto lifted = kaplan_meier(waits, 0.8).value();
    for (double days = 0; days < 60; days += 2.5)
      RC_ASSERT(lifted.still(days) >= of.still(days) - 1e-12);
  }));
}

TEST(KnownWait, HasATenthHalfAndNineTenthsGoneAtItsThreeNumbers) {
  const KnownWait known{{3, 5, 14}};
  EXPECT_EQ(known.still(0), 1);
  EXPECT_NEAR(known.still(3), 0.9, 1e-12);
  EXPECT_NEAR(known.still(5), 0.5, 1e-12);
  EXPECT_NEAR(known.still(14), 0.1, 1e-12);
  EXPECT_NEAR(known.still(23), 0.02, 1e-12);  // a fifth is left of each 9 days
  const KnownWait one_number{{5, 5, 5}};
  EXPECT_NEAR(one_number.still(5.5), 0.5, 1e-12);
}

TEST(MixedWait, WithoutOwnWaitsIsWhatWasKnown) {
  const MixedWait mixed{KnownWait{{3, 5, 14}}, 5, {}};
  EXPECT_NEAR(mixed.still(4), KnownWait({3, 5, 14}).still(4), 1e-12);
  EXPECT_NEAR(mixed.quantile(0.5), 5, 1e-9);
  EXPECT_NEAR(mixed.quantile(0.1), 3, 1e-9);
  EXPECT_NEAR(mixed.quantile(0.9), 14, 1e-9);
  const Interval median = mixed.quantile_interval(0.5, 0.8);
  EXPECT_LT(median.low, 5);
  EXPECT_GT(median.high, 5);
}

TEST(MixedWait, WithoutCensoredWaitsIsTheWeightedMeanAndItsChancesAreBeta) {
  EXPECT_TRUE(rc::check("S = (K S0 + longer) / (K + n), and Beta(K S0 + longer, the rest)", [] {
    std::vector<Wait> waits = any_waits(20);
    for (Wait& wait : waits)
      wait.came = true;
    const KnownWait known = any_known();
    const double believed = *rc::gen::inRange(1, 40) / 4.0;
    const MixedWait mixed{known, believed, waits};
    const double days = *rc::gen::inRange(1, 200) / 4.0;
    double longer = 0;
    for (const Wait& wait : waits)
      longer += wait.days > days ? 1 : 0;
    const double all = believed + static_cast<double>(waits.size());
    const double left = believed * known.still(days) + longer;
    RC_ASSERT(std::abs(mixed.still(days) - left / all) < 1e-12);
    const learning::Beta chance = mixed.chance_still(days);
    RC_ASSERT(std::abs(chance.a - left) < 1e-6 * all);
    RC_ASSERT(std::abs(chance.b - (all - left)) < 1e-6 * all);
  }));
}

TEST(MixedWait, GoesOverToKaplanAndMeierAsWaitsGrow) {
  EXPECT_TRUE(rc::check("with the same waits a thousand times over, or hardly any belief, it is theirs", [] {
    std::vector<Wait> waits = any_waits(12);
    waits.push_back({60, false});  // so that somebody still waits
    const KnownWait known = any_known();
    const auto alone = kaplan_meier(waits, 0.8).value();
    const MixedWait many{known, 5, repeated(waits, 1'000)};
    const MixedWait unbelieved{known, 1e-6, waits};
    for (double days = 0.1; days < 60; days += 3.7) {
      RC_ASSERT(std::abs(many.still(days) - alone.still(days)) < 0.01);
      RC_ASSERT(std::abs(unbelieved.still(days) - alone.still(days)) < 1e-4);
    }
  }));
}

TEST(MixedWait, NeverRisesAndItsQuantilesUndoIt) {
  EXPECT_TRUE(rc::check("falling, quantiles within their bounds, surer with the same waits again", [] {
    const std::vector<Wait> waits = any_waits(20);
    const MixedWait mixed{any_known(), 5, waits};
    double before = 1;
    for (double days = 0; days < 60; days += 0.5) {
      const double still = mixed.still(days);
      RC_ASSERT(still <= before + 1e-12 && still >= 0);
      before = still;
    }
    const double p = *rc::gen::inRange(5, 95) / 100.0;
    const double day = mixed.quantile(p);
    RC_ASSERT(mixed.still(day * (1 + 1e-9) + 1e-9) <= 1 - p + 1e-9);
    if (day > 0) RC_ASSERT(mixed.still(day * (1 - 1e-9) - 1e-9) >= 1 - p - 1e-9);
    const Interval bounds = mixed.quantile_interval(p, 0.8);
    RC_ASSERT(bounds.low <= bounds.high);
  }));
}

TEST(MixedWait, IsLongerWhenOwnWaitsAre) {
  const KnownWait known{{3, 5, 14}};
  const std::vector<Wait> slow(6, Wait{30, true});
  const std::vector<Wait> quick(6, Wait{1, true});
  const std::vector<Wait> waiting(6, Wait{30, false});
  EXPECT_GT((MixedWait{known, 5, slow}.quantile(0.5)), 14);
  EXPECT_LT((MixedWait{known, 5, quick}.quantile(0.5)), 3);
  EXPECT_GT((MixedWait{known, 5, waiting}.quantile(0.5)), (MixedWait{known, 5, slow}.quantile(0.5)));
}

}  // namespace
}  // namespace secondpull::market
