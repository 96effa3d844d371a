#include "core/planning/sale_forecast.h"

#include <cmath>

#include <gmock/gmock.h>

#include "core/planning/situation.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::planning {
namespace {

using test::BareShop;
using test::day;

// Days that shrink by the same part each day have the mean 1 / rate; a tenth, a half and nine tenths are gone
// after -ln(0.9), ln(2) and ln(10) times that.
TEST(MeanDays, OfAConstantRateAreOneOverTheRate) {
  constexpr double kMean = 30;
  const learning::Range range{kMean * -std::log(0.9), kMean * std::log(2), kMean * std::log(10)};
  const market::MixedWait law{market::KnownWait{range}, 5, {}};
  EXPECT_NEAR(mean_days(law), kMean, 0.05);
}

TEST(PriceBelief, HasTheDeviationOfTheWholeDistributionNotItsScale) {
  const market::StudentT price{.location = std::log(140), .scale = 0.2, .degrees = 6};
  EXPECT_NEAR(price_belief(price).median, 140, 1e-9);
  EXPECT_NEAR(price_belief(price).spread, 0.2 * std::sqrt(6.0 / 4), 1e-12);
}

TEST(TheCase, IsMadeWithThePriceOfThatVeryMachine) {
  learning::KnowledgeBase base{.knowledge = test::small_knowledge()};
  BareShop bare;
  const auto with_year = [&](int year) {
    const MachineId id = bare.machine();
    Machine changed = *bare.shop.find(id);
    changed.symptom = "won't pop";
    changed.year = year;
    bare.shop.all<Machine>().replace(changed);
    return id;
  };
  const MachineId old_one = with_year(2004);
  const MachineId new_one = with_year(2022);
  const auto books = Books::of(std::make_shared<const Shop>(bare.shop), MileageRates{});
  const Situation now{std::make_shared<const Books>(*books),
                      std::make_shared<const learning::KnowledgeBase>(base), day("2026-04-01")};
  const diagnosis::Revived sold_old = now.case_of(old_one, 0)->of.revived;
  const diagnosis::Revived sold_new = now.case_of(new_one, 0)->of.revived;
  EXPECT_LT(sold_old.price, sold_new.price);
  EXPECT_NEAR(sold_new.price, now.sale_of(*bare.shop.find(new_one)).price->median, 0.006) << "to the cent";
  EXPECT_GT(sold_new.days, 0);
}

}  // namespace
}  // namespace secondpull::planning
