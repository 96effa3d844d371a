#include "core/lessons/forecasts.h"

#include <gmock/gmock.h>

#include "tests/core/lessons/lesson_shop.h"

namespace secondpull::lessons {
namespace {

using learning::Tries;
using test::books_of;
using test::cents;
using test::day;
using test::LessonShop;
using test::small_knowledge;

/// A shop in which work on a fault began on 4 March with a forecast.
struct ForetoldShop : LessonShop {
  MachineId machine = bought("2026-03-01", 4'000);
  FaultId fault_id = fault(machine, "no-start");
  ForecastId forecast = add(Forecast{.machine = machine,
                                     .fault = fault_id,
                                     .date = day("2026-03-04"),
                                     .chance_revived = 0.9,
                                     .cash = 84.25,
                                     .low = 60,
                                     .high = 85,
                                     .hours = 2,
                                     .days = 30,
                                     .sunk_cash = 40,
                                     .sunk_hours = 0.5});
  ForetoldShop() {
    add(ForecastCause{.forecast = forecast, .cause = "jet", .chance = 0.7});
    add(ForecastCause{.forecast = forecast, .cause = "plug", .chance = 0.2});
    add(ForecastCause{.forecast = forecast, .cause = "unlisted", .chance = 0.1});
  }
  void end(FaultEnd how, std::string cause) {
    Fault ended = *shop.find(fault_id);
    ended.ended = day("2026-03-20");
    ended.how = how;
    ended.cause = std::move(cause);
    shop.all<Fault>().replace(ended);
  }
  ForecastOutcome outcome() const {
    const auto all = forecast_outcomes(books_of(*this), small_knowledge());
    return all.empty() ? ForecastOutcome{} : all.at(0);
  }
};

TEST(Forecasts, AreOpenWhileTheMachineIsWorkedOn) {
  const ForetoldShop s;
  const ForecastOutcome outcome = s.outcome();
  EXPECT_EQ(outcome.machine, s.machine);
  EXPECT_FALSE(outcome.revived);
  EXPECT_TRUE(outcome.causes.empty());
  EXPECT_FALSE(outcome.money);
  EXPECT_FALSE(outcome.hours);
}

TEST(Forecasts, OfAFaultThatWasMendedCameTrueAsToRunningAndCause) {
  ForetoldShop s;
  s.end(FaultEnd::mended, "Carb gummed");
  const ForecastOutcome outcome = s.outcome();
  ASSERT_TRUE(outcome.revived);
  EXPECT_EQ(outcome.revived->chance, 0.9);
  EXPECT_TRUE(outcome.revived->came);
  ASSERT_EQ(outcome.causes.size(), 3U);
  EXPECT_TRUE(outcome.causes[0].came);
  EXPECT_FALSE(outcome.causes[1].came);
  ASSERT_TRUE(outcome.likeliest);
  EXPECT_EQ(outcome.likeliest->chance, 0.7);
  EXPECT_TRUE(outcome.likeliest->came);
}

TEST(Forecasts, OfAMachineThatCameBackCountOnlyWhatCameAfterThem) {
  ForetoldShop s;
  s.add(Sale{.machine = s.machine, .date = day("2026-03-02"), .price = cents(10'000), .fee = cents(500)});
  s.add(Return{.machine = s.machine, .date = day("2026-03-03"), .refunded = cents(8'000)});
  s.end(FaultEnd::mended, "jet");
  s.add(Sale{.machine = s.machine, .date = day("2026-03-25"), .price = cents(9'000)});
  ASSERT_TRUE(s.outcome().money);
  EXPECT_NEAR(s.outcome().money->came, 90, 1e-9);
}

TEST(Forecasts, OfAFaultGivenUpDidNotRunAndACauseThatWasNotForetoldWasUnlisted) {
  ForetoldShop s;
  s.end(FaultEnd::given_up, "key");
  const ForecastOutcome outcome = s.outcome();
  EXPECT_FALSE(outcome.revived->came);
  EXPECT_FALSE(outcome.causes[0].came);
  EXPECT_TRUE(outcome.causes[2].came);
  EXPECT_FALSE(outcome.likeliest->came);
}

TEST(Forecasts, OfAMistakeAreLeftOut) {
  ForetoldShop s;
  s.end(FaultEnd::mistaken, "jet");
  EXPECT_TRUE(forecast_outcomes(books_of(s), small_knowledge()).empty());
}

TEST(Forecasts, OfAFaultLeftOpenRanIfTheMachineWasSoldRunning) {
  ForetoldShop as_is;
  as_is.sell(as_is.machine, "2026-04-01", 2'000, SoldAs::as_is);
  EXPECT_FALSE(as_is.outcome().revived->came);
  ForetoldShop running;
  running.add(Listing{.machine = running.machine, .date = day("2026-03-20"), .sold_as = SoldAs::running});
  running.sell(running.machine, "2026-04-01", 9'000, std::nullopt);
  EXPECT_TRUE(running.outcome().revived->came);
}

// By hand: sold for 100 less a fee of 3, and 15 spent since: 82 came, however much had been spent before.
TEST(Forecasts, HoldTheMoneyThatCameSinceAgainstTheMoneyToCome) {
  for (const std::int64_t paid : {0, 4'000, 25'000}) {
    ForetoldShop s;
    Acquisition bought = *s.shop.find(s.shop.find(s.machine)->acquisition);
    bought.price = cents(paid);
    s.shop.all<Acquisition>().replace(bought);
    Forecast forecast = *s.shop.find(s.forecast);
    forecast.sunk_cash = static_cast<double>(paid) / 100;
    s.shop.all<Forecast>().replace(forecast);
    s.work(s.machine, "2026-03-02", 30);  // before
    s.work(s.machine, "2026-03-05", 150);
    s.add(Material{
        .machine = s.machine, .date = day("2026-03-05"), .what = "carburettor", .cost = cents(1'500)});
    s.add(Sale{.machine = s.machine,
               .date = day("2026-04-03"),
               .price = cents(10'000),
               .fee = cents(300),
               .sold_as = SoldAs::running});
    const ForecastOutcome outcome = s.outcome();
    ASSERT_TRUE(outcome.money);
    EXPECT_NEAR(outcome.money->came, 82, 1e-9);
    EXPECT_NEAR(outcome.money->off(), 82 - 84.25, 1e-9);
    EXPECT_TRUE(outcome.within);
    EXPECT_NEAR(outcome.hours->came, 2.5, 1e-9);
    EXPECT_EQ(outcome.days->came, 30);
  }
}

TEST(Forecasts, CountWhatAComebackCostAndAreOpenWhileItIsBack) {
  ForetoldShop s;
  s.end(FaultEnd::mended, "jet");
  s.sell(s.machine, "2026-04-03", 12'000);
  EXPECT_NEAR(s.outcome().money->came, 120, 1e-9);
  EXPECT_FALSE(s.outcome().within);
  s.add(Allowance{.machine = s.machine, .date = day("2026-04-10"), .amount = cents(2'000)});
  s.work(s.machine, "2026-04-10", 60, Work::comeback);
  EXPECT_NEAR(s.outcome().money->came, 100, 1e-9);
  EXPECT_NEAR(s.outcome().hours->came, 0.5, 1e-9);
  s.add(Return{.machine = s.machine, .date = day("2026-04-20"), .refunded = cents(12'000)});
  EXPECT_FALSE(s.outcome().money);
}

TEST(Forecasts, OfAMachinePartedOutOrKeptHaveNoMoney) {
  for (const DisposalKind how : {DisposalKind::parted_out, DisposalKind::kept, DisposalKind::scrapped}) {
    ForetoldShop s;
    s.add(Disposal{.machine = s.machine, .date = day("2026-03-10"), .how = how, .proceeds = cents(500)});
    const ForecastOutcome outcome = s.outcome();
    EXPECT_EQ(outcome.money.has_value(), how == DisposalKind::scrapped);
    EXPECT_FALSE(outcome.revived->came);
  }
}

TEST(ForecastsHeld, AddThemUp) {
  ForecastOutcome paid;
  paid.revived = Said{0.9, true};
  paid.causes = {{0.7, true}, {0.3, false}};
  paid.likeliest = Said{0.7, true};
  paid.money = Foretold{80, 90};
  paid.within = true;
  ForecastOutcome lost;
  lost.revived = Said{0.5, false};
  lost.money = Foretold{60, 20};
  const ForecastOutcome open;
  const ForecastsHeld held = forecasts_held({paid, lost, open});
  EXPECT_EQ(held.made, 3U);
  EXPECT_EQ(held.settled, 2U);
  EXPECT_EQ(held.revived.all, (Tries{2, 1}));
  EXPECT_EQ(held.causes.all, (Tries{2, 1}));
  EXPECT_EQ(held.likeliest.all, (Tries{1, 1}));
  EXPECT_EQ(held.money.off.count, 2U);
  EXPECT_EQ(held.money.off.mean, -15);
  EXPECT_EQ(held.money.said, 70);
  EXPECT_EQ(held.money.came, 55);
  EXPECT_EQ(held.within, (Tries{2, 1}));
  EXPECT_EQ(held.hours.off.count, 0U);
}

}  // namespace
}  // namespace secondpull::lessons
