#include "core/market/price_path.h"

#include <cmath>
#include <random>

#include <gmock/gmock.h>
#include <rapidcheck.h>

#include "tests/core/learning/small_knowledge.h"

namespace secondpull::market {
namespace {

using learning::Season;
using test::day;

const Date kToday = test::day("2026-06-15");

ToSell mower() {
  return {.suggestion = 100,
          .offers = {.rate = 0.4, .share = 0.9, .spread = 0.2, .shows = 0.8},
          .holding_cost = 0.5,
          .salvage = 20,
          .days = 30};
}
PricePath path_of(const ToSell& machine, const Season& season = {}, Date today = kToday) {
  return price_path(machine, season, today).value();
}
ToSell any_machine() {
  return {.suggestion = *rc::gen::inRange(10, 2'000) / 1.0,
          .offers = {.rate = *rc::gen::inRange(1, 200) / 100.0,
                     .share = *rc::gen::inRange(50, 110) / 100.0,
                     .spread = *rc::gen::inRange(0, 50) / 100.0,
                     .shows = *rc::gen::inRange(1, 11) / 10.0},
          .as = *rc::gen::element(SoldAs::running, SoldAs::as_is),
          .holding_cost = *rc::gen::inRange(0, 40) / 10.0,
          .salvage = *rc::gen::inRange(0, 10) / 1.0,
          .days = *rc::gen::inRange(0, 25),
          .steps_of_day = *rc::gen::inRange(1, 4)};
}
Season any_season() {
  Season season;
  for (double& share : season.price)
    share = *rc::gen::inRange(80, 120) / 100.0;
  for (double& times : season.days)
    times = *rc::gen::inRange(100, 400) / 100.0;
  return season;
}

TEST(PricePath, AsksLessAsTheLastDayComesNearer) {
  const PricePath path = path_of(mower());
  ASSERT_EQ(path.days.size(), 31U);
  EXPECT_EQ(path.days.front().date, kToday);
  EXPECT_EQ(path.days.back().date, day("2026-07-15"));
  EXPECT_TRUE(path.days.back().give_up);
  for (std::size_t i = 0; i + 2 < path.days.size(); ++i) {
    EXPECT_GE(path.days[i].asking, path.days[i + 1].asking);
    EXPECT_GE(path.days[i].floor, path.days[i + 1].floor);
    EXPECT_GT(path.days[i].asking, path.days[i].floor);
    EXPECT_LT(path.days[i].sold_by, path.days[i + 1].sold_by);
  }
  EXPECT_EQ(path.days.front().sold_by, 0);
  EXPECT_GT(path.value, 70);
  EXPECT_LT(path.value, 100);
  EXPECT_GT(path.chance_sold, 0.9);
}

/// What following the path earns in the mean, played through with chance, its prices times `times`.
double played(const PricePath& path, const ToSell& machine, double times) {
  std::mt19937_64 chance{7};
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> even;
  constexpr int kRuns = 60'000;
  double sum = 0;
  for (int run = 0; run < kRuns; ++run) {
    double earned = machine.salvage;
    double paid = 0;
    for (const PathDay& now : path.days) {
      if (now.give_up) break;
      const double asked = now.asking * times;
      const double come = 1 - std::exp(-machine.offers.rate * machine.offers.shows *
                                       std::pow(asked / machine.suggestion, -kPriceDeters));
      paid += machine.holding_cost;
      if (even(chance) >= come) continue;
      const double offer =
          machine.suggestion * machine.offers.share * std::exp(machine.offers.spread * normal(chance));
      if (std::min(offer, asked) < now.floor) continue;
      earned = std::min(offer, asked);
      break;
    }
    sum += earned - paid;
  }
  return sum / kRuns;
}

TEST(PricePath, IsWorthWhatFollowingItEarnsAndOtherPricesEarnLess) {
  ToSell machine = mower();
  machine.steps_of_day = 1;
  machine.offers.rate = 0.1;  // so that a second buyer on one day, whom the play leaves out, hardly matters
  const PricePath path = path_of(machine);
  const double earned = played(path, machine, 1);
  EXPECT_NEAR(earned, path.value, 0.5);  // 60,000 runs: deviation about 0.15
  EXPECT_LT(played(path, machine, 1.5), earned);
  EXPECT_LT(played(path, machine, 0.8), earned);
}

TEST(PricePath, GoesOverToOneValueAsStepsShrink) {
  ToSell machine = mower();
  std::vector<double> values;
  for (const int steps : {4, 8, 16}) {
    machine.steps_of_day = steps;
    values.push_back(path_of(machine).value);
  }
  EXPECT_LT(std::abs(values[2] - values[1]), 0.6 * std::abs(values[1] - values[0]));
  EXPECT_LT(std::abs(values[1] - values[0]), 0.5);
}

TEST(PricePath, WithoutBuyersIsWhatItBringsAtOnce) {
  ToSell machine = mower();
  machine.offers.rate = 0;
  const PricePath path = path_of(machine);
  EXPECT_EQ(path.value, 20);
  EXPECT_EQ(path.chance_sold, 0);
  ASSERT_EQ(path.days.size(), 1U);
  EXPECT_TRUE(path.days[0].give_up);
  machine = mower();
  machine.days = 0;
  EXPECT_EQ(path_of(machine).value, 20);
}

TEST(PricePath, NeverHasAHigherFloorWithAHigherHoldingCost) {
  EXPECT_TRUE(rc::check("value and floors fall with the cost of a day", [] {
    ToSell machine = any_machine();
    const Season season = any_season();
    const PricePath cheap = path_of(machine, season);
    machine.holding_cost += *rc::gen::inRange(1, 50) / 10.0;
    const PricePath dear = path_of(machine, season);
    RC_ASSERT(dear.value <= cheap.value + 1e-9);
    RC_ASSERT(dear.days.size() <= cheap.days.size());
    for (std::size_t i = 0; i < dear.days.size(); ++i)
      RC_ASSERT(dear.days[i].floor <= cheap.days[i].floor + 1e-9);
  }));
}

TEST(PricePath, IsNeverWorthLessWithMoreDaysOrMoreBuyers) {
  EXPECT_TRUE(rc::check("a longer horizon, a higher rate, a higher salvage never lower the value", [] {
    const ToSell machine = any_machine();
    const Season season = any_season();
    const double value = path_of(machine, season).value;
    RC_ASSERT(value >= machine.salvage);
    const auto with = [&](auto change) {
      ToSell other = machine;
      change(other);
      return path_of(other, season).value;
    };
    const double error = 1e-9 * machine.suggestion;
    RC_ASSERT(with([](ToSell& m) { m.days += *rc::gen::inRange(1, 10); }) >= value - error);
    RC_ASSERT(with([](ToSell& m) { m.offers.rate *= 1.3; }) >= value - error);
    RC_ASSERT(with([](ToSell& m) { m.salvage += 3; }) >= value - error);
  }));
}

TEST(PricePath, ScalesWithAllMoney) {
  EXPECT_TRUE(rc::check("ten times the money is ten times every amount", [] {
    ToSell machine = any_machine();
    const Season season = any_season();
    const PricePath before = path_of(machine, season);
    machine.suggestion *= 10;
    machine.holding_cost *= 10;
    machine.salvage *= 10;
    const PricePath after = path_of(machine, season);
    RC_ASSERT(after.days.size() == before.days.size());
    for (std::size_t i = 0; i < before.days.size(); ++i) {
      RC_ASSERT(std::abs(after.days[i].value - 10 * before.days[i].value) < 1e-6 * machine.suggestion);
      RC_ASSERT(std::abs(after.days[i].floor - 10 * before.days[i].floor) < 1e-6 * machine.suggestion);
      RC_ASSERT(std::abs(after.days[i].sold_by - before.days[i].sold_by) < 1e-4);
    }
  }));
}

TEST(PricePath, WaitsForTheSeasonWhereThatIsWorthIt) {
  Season season;
  season.price = {0.85, 0.9, 1, 1.15, 1.15, 1.1, 1, 1, 0.95, 0.9, 0.85, 0.85};
  season.days = {12, 8, 3, 1, 1, 1, 2, 4, 6, 10, 12, 12};
  ToSell machine = mower();
  machine.holding_cost = 0.02;
  const Date december = day("2026-12-15");
  const HoldOrSell cheap = hold_or_sell(machine, season, december, day("2027-04-15")).value();
  EXPECT_GT(cheap.gained, 0);
  EXPECT_NEAR(cheap.gained, cheap.hold - cheap.sell_now, 1e-12);
  EXPECT_GT(cheap.asking_then, 115);
  machine.holding_cost = 1;
  EXPECT_LT(hold_or_sell(machine, season, december, day("2027-04-15"))->gained, 0);
  // With nothing to wait for, and a cost, it never is.
  machine.holding_cost = 0.1;
  EXPECT_NEAR(hold_or_sell(machine, {}, december, day("2026-12-25"))->gained, -1, 1e-9);
  EXPECT_EQ(hold_or_sell(machine, season, december, december)->gained, 0);
  // A machine sold as is follows no price of the season.
  machine.as = SoldAs::as_is;
  season.days = learning::kAllYear;
  EXPECT_NEAR(hold_or_sell(machine, season, december, day("2026-12-25"))->gained, -1, 1e-9);
}

TEST(PricePath, RefusesWhatCannotBeAndNamesIt) {
  const auto wrong = [](auto change) {
    ToSell machine = mower();
    change(machine);
    return price_path(machine, {}, kToday).error();
  };
  EXPECT_EQ(wrong([](ToSell& m) { m.suggestion = 0; }).field, "suggestion");
  EXPECT_EQ(wrong([](ToSell& m) { m.offers.rate = -0.5; }),
            (Problem{"Offers come at a rate of 0 or more a day.", "rate", "-0.5"}));
  EXPECT_EQ(wrong([](ToSell& m) { m.offers.share = 0; }).field, "share");
  EXPECT_EQ(wrong([](ToSell& m) { m.offers.spread = -1; }).field, "spread");
  EXPECT_EQ(wrong([](ToSell& m) { m.offers.shows = 1.1; }).field, "shows");
  EXPECT_EQ(wrong([](ToSell& m) { m.holding_cost = -1; }).field, "holding_cost");
  EXPECT_EQ(wrong([](ToSell& m) { m.salvage = INFINITY; }).field, "salvage");
  EXPECT_EQ(wrong([](ToSell& m) { m.days = -1; }).value, "-1");
  EXPECT_EQ(wrong([](ToSell& m) { m.steps_of_day = 0; }).field, "steps_of_day");
  EXPECT_EQ(hold_or_sell(mower(), {}, kToday, day("2026-06-14")).error().field, "until");
  const auto excess = [](double) { return 1.0; };
  EXPECT_EQ(standing_floor(excess, 0, 1, 0, 1).error().field, "rate");
  EXPECT_EQ(standing_floor(excess, 1, -1, 0, 1).error().field, "holding_cost");
}

}  // namespace
}  // namespace secondpull::market
