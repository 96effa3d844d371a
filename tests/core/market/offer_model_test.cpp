#include "core/market/offer_model.h"

#include <cmath>

#include <gmock/gmock.h>

#include "tests/core/learning/small_knowledge.h"

namespace secondpull::market {
namespace {

using learning::Knowledge;
using test::BareShop;
using test::cents;
using test::day;

Knowledge knowledge() {
  Knowledge k = test::small_knowledge();
  k.kinds[0].days_to_sell = {3, 5, 14};
  k.season.days[11] = 10;
  return k;
}
OfferModel model_of(const BareShop& s, SoldAs as = SoldAs::running) {
  const ByMachine by_machine{s.shop};
  const PriceModel prices = price_model(by_machine, s.shop, knowledge(), day("2027-01-01"));
  const auto times = times_for_sale(by_machine, s.shop, prices, day("2027-01-01"));
  return offer_model(times, by_machine, s.shop, knowledge(), prices, MachineKind::push, as);
}
MachineId listed(BareShop& s, std::string_view date = "2026-06-15", std::string_view ended = "2026-06-25") {
  const MachineId m = s.machine();
  s.add(Listing{.machine = m,
                .date = day(date),
                .asking = cents(10'000),
                .sold_as = SoldAs::running,
                .ended = day(ended)});
  return m;
}
void offer(BareShop& s, MachineId machine, std::int64_t amount, std::optional<OfferResult> result = {},
           std::string_view date = "2026-06-15") {
  s.add(Offer{.machine = machine, .date = day(date), .amount = cents(amount), .result = result});
}
constexpr double kRateBefore = 3 * 0.6931471805599453 / 5;  // three offers to a sale, half sold in 5 days

TEST(OfferModel, WithoutOffersIsWhatIsBelieved) {
  const OfferModel model = model_of({});
  EXPECT_NEAR(model.rate, kRateBefore, 1e-12);
  EXPECT_LT(model.rate_range.low, model.rate);
  EXPECT_GT(model.rate_range.high, model.rate);
  EXPECT_EQ(model.share, kUsualShare);
  EXPECT_EQ(model.spread, kUsualSpread);
  EXPECT_EQ(model.shows, 0.8);
  EXPECT_EQ(model.offers, 0U);
}

TEST(OfferModel, CountsOffersInTheDaysForSale) {
  BareShop s;
  const MachineId m = listed(s);
  offer(s, m, 8'000);
  offer(s, m, 8'000, {}, "2026-06-25");
  offer(s, m, 8'000, {}, "2026-06-27");  // when it was not for sale any more
  const OfferModel model = model_of(s);
  EXPECT_EQ(model.offers, 2U);
  EXPECT_EQ(model.days, 10);
  const double believed = 5 * 5 / std::log(2.0);
  EXPECT_NEAR(model.rate, (15 + 2) / (believed + 10), 1e-12);
  EXPECT_NEAR(model_of(s, SoldAs::as_is).rate, kRateBefore, 1e-12);
  EXPECT_NEAR(model.share, std::exp((10 * std::log(0.9) + 2 * std::log(0.8)) / 12), 1e-9);
}

TEST(OfferModel, CountsASaleThatNoOfferWasWrittenDownFor) {
  BareShop s;
  const MachineId m = listed(s);
  s.add(Sale{.machine = m, .date = day("2026-06-20"), .price = cents(9'000), .sold_as = SoldAs::running});
  EXPECT_EQ(model_of(s).offers, 1U);
  EXPECT_EQ(model_of(s).days, 5);
  offer(s, m, 9'000, OfferResult::taken, "2026-06-20");
  EXPECT_EQ(model_of(s).offers, 1U);
}

TEST(OfferModel, CountsDaysAsTheyWouldHaveBeenInTheBestMonths) {
  BareShop s;
  listed(s, "2026-12-15", "2026-12-25");
  EXPECT_DOUBLE_EQ(model_of(s).days, 1);
}

TEST(OfferModel, LearnsHowManyOfThoseTakenCome) {
  BareShop s;
  const MachineId m = listed(s);
  offer(s, m, 8'000, OfferResult::no_show);
  offer(s, m, 8'000, OfferResult::no_show);
  offer(s, m, 5'000, OfferResult::refused);
  offer(s, m, 8'500, OfferResult::taken);
  EXPECT_NEAR(model_of(s).shows, 9.0 / 13, 1e-12);
}

TEST(OfferModel, WithManyOffersIsTheShopsOwn) {
  BareShop s;
  for (int i = 0; i < 30; ++i) {
    const MachineId m = listed(s);
    for (int j = 0; j < 10; ++j)
      offer(s, m, j % 2 == 0 ? 5'000 : 6'000);
  }
  const OfferModel model = model_of(s);
  EXPECT_NEAR(model.rate, 1, 0.1);
  EXPECT_LT(model.rate_range.high - model.rate_range.low, 0.2);
  EXPECT_NEAR(model.share, 0.55, 0.02);
}

}  // namespace
}  // namespace secondpull::market
