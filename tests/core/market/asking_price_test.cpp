#include "core/market/asking_price.h"

#include <cmath>

#include <gmock/gmock.h>
#include <rapidcheck.h>

#include "core/learning/season.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::market {
namespace {

using learning::Knowledge;
using test::BareShop;
using test::cents;
using test::day;
using test::small_knowledge;
using testing::ElementsAre;

const Machine kUsual{.kind = MachineKind::push};  // nothing more is known of it

PriceModel model_of(const BareShop& s, const Knowledge& k = small_knowledge()) {
  return price_model(ByMachine{s.shop}, s.shop, k, day("2026-12-31"));
}
AskingPrice price_of(const BareShop& s, const Machine& machine = kUsual, SoldAs as = SoldAs::running,
                     const Knowledge& k = small_knowledge(), std::string_view on = "2026-06-15") {
  return asking_price(model_of(s, k), machine, as, day(on)).value();
}
SaleId sold(BareShop& s, std::int64_t price, Machine machine = kUsual, std::string_view date = "2026-06-15",
            SoldAs as = SoldAs::running) {
  machine.tag = std::to_string(s.shop.next_id);
  machine.acquisition = s.curb;
  const MachineId id = s.add(machine);
  return s.add(Sale{.machine = id, .date = day(date), .price = cents(price), .sold_as = as});
}
double width(const AskingPrice& price) {
  return std::log(price.p90 / price.p10);
}

TEST(AskingPrice, WithoutASaleIsTheTradesPriceAndRange) {
  const AskingPrice running = price_of({});
  EXPECT_NEAR(running.median, 100, 1e-9);
  EXPECT_NEAR(running.p10, 50, 1e-9);
  EXPECT_NEAR(running.p90, 200, 1e-9);
  EXPECT_EQ(running.sales, 0U);
  EXPECT_EQ(running.log_price.degrees, 5);
  EXPECT_NEAR(running.chance_of(100), 0.5, 1e-12);
  EXPECT_NEAR(running.chance_of(50), 0.9, 1e-9);
  const AskingPrice as_is = price_of({}, kUsual, SoldAs::as_is);
  EXPECT_NEAR(as_is.median, 10, 1e-9);
  EXPECT_NEAR(as_is.p10, 5, 1e-9);
  EXPECT_TRUE(as_is.factors.empty());
}

TEST(AskingPrice, OfWhatIsKnownGoesTheWayThatTheTradeSays) {
  Machine machine = kUsual;
  const double usual = price_of({}).median;
  machine.year = 2016;
  EXPECT_NEAR(price_of({}, machine).median, usual, 1e-9);  // ten years old
  machine.year = 2006;
  EXPECT_NEAR(price_of({}, machine).median, usual * std::exp(-10 * kLostPerYear), 1e-9);
  machine = kUsual;
  machine.deck_in = Tenths{220};
  EXPECT_NEAR(price_of({}, machine).median, usual * std::pow(22.0 / 21, kDeckCounts), 1e-9);
  machine = kUsual;
  machine.condition = "rusty";
  EXPECT_NEAR(price_of({}, machine).median, usual * std::exp(-0.25), 1e-9);
  machine.condition = "like new";
  EXPECT_GT(price_of({}, machine).median, usual);
  machine = kUsual;
  machine.make = "Ostrel";  // never sold one
  EXPECT_NEAR(price_of({}, machine).median, usual, 1e-9);
}

TEST(AskingPrice, OfARunningMachineFollowsTheSeason) {
  Knowledge k = small_knowledge();
  k.season.price[3] = 1.2;
  EXPECT_NEAR(price_of({}, kUsual, SoldAs::running, k, "2026-04-15").median, 120, 1e-9);
  EXPECT_NEAR(price_of({}, kUsual, SoldAs::running, k, "2026-04-30").median, 110, 1e-9);
  EXPECT_NEAR(price_of({}, kUsual, SoldAs::as_is, k, "2026-04-15").median, 10, 1e-9);
}

TEST(AskingPrice, AfterFiftySalesIsTheShopsOwn) {
  BareShop s;
  for (int i = 0; i < 50; ++i)
    sold(s, i % 2 == 0 ? 19'000 : 21'000);
  const AskingPrice price = price_of(s);
  EXPECT_EQ(price.sales, 50U);
  EXPECT_EQ(price.log_price.degrees, 55);
  EXPECT_NEAR(price.median, 200, 12);  // between 100 and 200, a tenth of the way short
  EXPECT_LT(width(price), width(price_of({})) * 0.6);
  EXPECT_NEAR(price_of(s, kUsual, SoldAs::as_is).median, 10, 1e-9);  // which were sold running
}

TEST(AskingPrice, LearnsWhatAgeLooksAndMakeDoInThisShop) {
  BareShop s;
  for (int i = 0; i < 40; ++i) {
    Machine machine = kUsual;
    machine.year = 2026 - i % 20;
    machine.make = i % 4 < 2 ? "Ostrel" : "Kedgeway";
    machine.condition = i % 3 == 0 ? "rusty" : "clean";
    const double price = 150 * std::exp(-0.08 * (i % 20)) * (i % 4 < 2 ? 1.2 : 1) * (i % 3 == 0 ? 0.6 : 1);
    sold(s, std::lround(price * 100), machine);
  }
  Machine machine = kUsual;
  machine.year = 2020;
  machine.make = "OSTREL";
  machine.condition = "rusty";
  const AskingPrice price = price_of(s, machine);
  EXPECT_NEAR(price.median / (150 * std::exp(-0.08 * 6) * 1.2 * 0.6), 1, 0.1);
  machine.make = "Kedgeway";
  EXPECT_NEAR(price.median / price_of(s, machine).median, 1.2, 0.1);
}

TEST(AskingPrice, IsThePriceOfItsKindTimesItsFactors) {
  BareShop s;
  Machine machine{.kind = MachineKind::push,
                  .make = "Ostrel",
                  .year = 2012,
                  .deck_in = Tenths{220},
                  .condition = "rusty deck"};
  sold(s, 8'000, machine, "2026-04-20");
  const AskingPrice price = price_of(s, machine);
  std::vector<std::string> said;
  double product = price.of_kind;
  for (const PriceFactor& factor : price.factors) {
    said.push_back(factor.what);
    product *= factor.factor;
  }
  EXPECT_THAT(said, ElementsAre("built 2012", "22 in deck", "rough", "Ostrel", "the time of the year"));
  EXPECT_NEAR(product, price.median, 1e-9);
  EXPECT_LT(price.factors[0].factor, 1);
}

TEST(AskingPrice, NamesTheSalesNearestAndWhatMakesThemDiffer) {
  BareShop s;
  Machine machine{.kind = MachineKind::push, .make = "Ostrel", .year = 2016, .condition = "clean"};
  Machine older = machine;
  older.year = 2013;
  older.make = "Kedgeway";
  older.condition = "bent handle";
  const SaleId far = sold(s, 6'000, older, "2024-11-20");
  const SaleId same = sold(s, 12'000, machine, "2026-06-10");
  const SaleId late = sold(s, 11'000, machine, "2026-06-14");
  sold(s, 3'000, machine, "2026-06-14", SoldAs::as_is);
  machine.kind = MachineKind::zero_turn;
  sold(s, 300'000, machine);
  machine.kind = MachineKind::push;
  const AskingPrice price = price_of(s, machine);
  ASSERT_EQ(price.nearest.size(), 3U);
  EXPECT_EQ(price.nearest[0].sale, late);
  EXPECT_EQ(price.nearest[1].sale, same);
  EXPECT_THAT(price.nearest[0].differs, ElementsAre());
  EXPECT_NEAR(price.nearest[0].here, 110, 0.5);
  EXPECT_EQ(price.nearest[2].sale, far);
  EXPECT_THAT(price.nearest[2].differs,
              ElementsAre("1 year older", "Kedgeway", "rough", "sold in November", "sold 2 years ago"));
  EXPECT_GT(price.nearest[2].here, 60 * 1.1);
}

TEST(AskingPrice, OfAKindUnknownToTheTradeIsItsOwnSalesOrRefused) {
  BareShop s;
  const Machine tiller{.kind = MachineKind::other};
  const auto refused = asking_price(model_of(s), tiller, SoldAs::running, day("2026-06-15"));
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().field, "kind");
  EXPECT_EQ(refused.error().value, "other");
  sold(s, 20'000, tiller);
  EXPECT_NEAR(price_of(s, tiller).median, 200, 1e-9);
  EXPECT_FALSE(asking_price(model_of(s), tiller, SoldAs::as_is, day("2026-06-15")));
}

TEST(AskingPrice, LearnsNothingFromSalesToComeOrGivenAway) {
  BareShop s;
  sold(s, 0);
  sold(s, 50'000, kUsual, "2027-06-15");
  EXPECT_NEAR(price_of(s).median, 100, 1e-9);
}

/// A shop of a few sales with everything known or not.
BareShop any_shop(std::int64_t unit, std::vector<Machine>* machines = nullptr) {
  BareShop s;
  const auto count = *rc::gen::inRange(0, 12);
  for (int i = 0; i < count; ++i) {
    Machine machine{.kind = *rc::gen::element(MachineKind::push, MachineKind::other)};
    if (*rc::gen::arbitrary<bool>()) machine.year = *rc::gen::inRange(1990, 2027);
    if (*rc::gen::arbitrary<bool>()) machine.deck_in = Tenths{*rc::gen::inRange<std::int64_t>(180, 300)};
    machine.make = *rc::gen::element<std::string>("", "Ostrel", "Kedgeway", "ostrel");
    machine.condition = *rc::gen::element<std::string>("", "rusty", "clean", "worn", "like new");
    const auto price = *rc::gen::inRange<std::int64_t>(5, 400);
    sold(s, price * unit, machine, iso(plus_days(day("2025-01-01"), *rc::gen::inRange(0, 600))),
         *rc::gen::element(SoldAs::running, SoldAs::as_is));
    if (machines != nullptr) machines->push_back(machine);
  }
  return s;
}
Machine any_push() {
  Machine machine = kUsual;
  if (*rc::gen::arbitrary<bool>()) machine.year = *rc::gen::inRange(1990, 2027);
  machine.make = *rc::gen::element<std::string>("", "Ostrel", "Fennimoor");
  machine.condition = *rc::gen::element<std::string>("", "rusty", "clean");
  return machine;
}

/// All money of a shop times that.
void scale_money(BareShop& s, Knowledge& k, std::int64_t times) {
  std::vector<Sale> sales(s.shop.all<Sale>().begin(), s.shop.all<Sale>().end());
  for (Sale& sale : sales) {
    sale.price = sale.price * times;
    s.shop.all<Sale>().replace(sale);
  }
  for (learning::KindFigures& kind : k.kinds)
    for (learning::MoneyRange* range : {&kind.running_price, &kind.as_is_price})
      *range = {range->low * times, range->typical * times, range->high * times};
}

TEST(AskingPrice, ScalesWithAllMoneyAndKnowsNoCents) {
  EXPECT_TRUE(
      rc::check("ten times the money is ten times the price; in a currency without cents it is the same", [] {
        BareShop s = any_shop(100);
        const Machine machine = any_push();
        const AskingPrice before = price_of(s, machine);
        Knowledge k = small_knowledge();
        scale_money(s, k, 10);
        const AskingPrice after = price_of(s, machine, SoldAs::running, k);
        for (const double p : {0.1, 0.5, 0.9})
          RC_ASSERT(std::abs(after.quantile(p) / before.quantile(p) - 10) < 1e-6);
        // Dinars of 1000 fils: ten times the minor units are the same amount.
        s.shop.settings.currency = {"KWD", 3};
        const AskingPrice dinars = price_of(s, machine, SoldAs::running, k);
        for (const double p : {0.1, 0.5, 0.9})
          RC_ASSERT(std::abs(dinars.quantile(p) / before.quantile(p) - 1) < 1e-9);
      }));
}

TEST(AskingPrice, StaysAndGetsSurerWithASaleAtThatPrice) {
  EXPECT_TRUE(rc::check("a sale of the same machine at the median moves nothing and narrows the range", [] {
    BareShop s = any_shop(100'000);
    s.shop.settings.currency = {"XXX", 5};
    Knowledge k = small_knowledge();
    for (learning::KindFigures& kind : k.kinds)
      for (learning::MoneyRange* range : {&kind.running_price, &kind.as_is_price})
        *range = {range->low * 1000, range->typical * 1000, range->high * 1000};
    Machine machine = any_push();
    const AskingPrice before = price_of(s, machine, SoldAs::running, k);
    const std::size_t makes = model_of(s, k).makes.size();
    sold(s, std::llround(before.median * 100'000), machine);
    const AskingPrice after = price_of(s, machine, SoldAs::running, k);
    // A make sold for the first time gets a number of its own, which is 0 here.
    RC_ASSERT(std::abs(after.median / before.median - 1) < 1e-4);
    RC_ASSERT(width(after) < width(before) || model_of(s, k).makes.size() > makes);
    RC_ASSERT(after.sales == before.sales + 1);
  }));
}

TEST(AskingPrice, HasTheMedianBetweenItsTenths) {
  EXPECT_TRUE(rc::check("p10 < median < p90, and a better sale never lowers the median", [] {
    BareShop s = any_shop(100);
    const Machine machine = any_push();
    BareShop better = s;
    const auto price = *rc::gen::inRange<std::int64_t>(50, 40'000);
    sold(s, price, machine);
    sold(better, price + 1'000, machine);
    const AskingPrice one = price_of(s, machine);
    const AskingPrice two = price_of(better, machine);
    RC_ASSERT(one.p10 < one.median && one.median < one.p90);
    RC_ASSERT(two.median > one.median);
  }));
}

TEST(AskingPrice, IsWrittenAsSellersWriteIt) {
  EXPECT_EQ(as_sellers_write(0.2), 1);
  EXPECT_EQ(as_sellers_write(13.4), 13);
  EXPECT_EQ(as_sellers_write(83), 85);
  EXPECT_EQ(as_sellers_write(182.4), 180);
  EXPECT_EQ(as_sellers_write(513), 525);
  EXPECT_EQ(as_sellers_write(1'330), 1'350);
  EXPECT_EQ(as_sellers_write(7'777), 7'800);
  EXPECT_EQ(as_sellers_write(83'321), 83'000);
  EXPECT_TRUE(rc::check("near, rising, and the same when written again", [] {
    const double price = *rc::gen::inRange(50, 4'000'000) / 100.0;
    const double written = as_sellers_write(price);
    RC_ASSERT(std::abs(written - price) <= std::max(0.5, price * 0.125));
    RC_ASSERT(as_sellers_write(written) == written);
    RC_ASSERT(as_sellers_write(price * 1.01) >= written);
  }));
}

}  // namespace
}  // namespace secondpull::market
