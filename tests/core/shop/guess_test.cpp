#include "core/shop/guess.h"

#include <numeric>

#include <gtest/gtest.h>

namespace secondpull {
namespace {

/// A shop in which machines of one kind were sold at these prices, in whole dollars.
Shop soldAt(MachineKind kind, std::initializer_list<int> dollars) {
  Shop shop;
  for (const int price : dollars) {
    const auto id = static_cast<MachineId>(shop.next_id++);
    shop.all<Machine>().insert({.id = id, .kind = kind, .make = "Tarnwick Vale"});
    shop.all<Sale>().insert(
        {.id = static_cast<SaleId>(shop.next_id++), .machine = id, .price = Money::from_minor(price * 100)});
  }
  return shop;
}

TEST(GuessedValues, AreAShareOfWhatTheKindSellsFor) {
  const Shop shop = soldAt(MachineKind::push, {100, 140});
  const std::vector<WorthGuess> machines{{MachineKind::push, Worth::good},
                                         {MachineKind::push, Worth::middling},
                                         {MachineKind::push, Worth::for_parts}};
  // half, a quarter and a tenth of 120: common practice, no source
  EXPECT_EQ(guessed_values(shop, machines, {}),
            (std::vector{Money::from_minor(6000), Money::from_minor(3000), Money::from_minor(1200)}));
}

TEST(GuessedValues, OfAKindNeverSoldComeFromAllKinds) {
  const Shop shop = soldAt(MachineKind::zero_turn, {200});
  const std::vector<WorthGuess> machines{{MachineKind::trimmer, Worth::good}};
  EXPECT_EQ(guessed_values(shop, machines, {}).front(), Money::from_minor(10000));
}

TEST(GuessedValues, OfANewShopDivideThePricePaid) {
  const std::vector<WorthGuess> machines{{MachineKind::push, Worth::good},
                                         {MachineKind::push, Worth::for_parts}};
  const auto values = guessed_values({}, machines, Money::from_minor(10001));
  EXPECT_EQ(values[0] + values[1], Money::from_minor(10001));
  EXPECT_GT(values[0], values[1]);
}

TEST(SplitMakeModel, KnowsTheMakesOfTheShopWhateverTheirCaseAndWords) {
  const Shop shop = soldAt(MachineKind::push, {100});
  EXPECT_EQ(split_make_model(shop, " tarnwick vale 21 S ").make, "Tarnwick Vale");
  EXPECT_EQ(split_make_model(shop, " tarnwick vale 21 S ").model, "21 S");
  EXPECT_EQ(split_make_model(shop, "Tarnwick Valet").make, "Tarnwick");
}

TEST(SplitMakeModel, TakesTheFirstWordOfAnUnknownMake) {
  EXPECT_EQ(split_make_model({}, "Orrel 46 rider").make, "Orrel");
  EXPECT_EQ(split_make_model({}, "Orrel 46 rider").model, "46 rider");
  EXPECT_EQ(split_make_model({}, "Orrel").make, "Orrel");
  EXPECT_EQ(split_make_model({}, "TX200").model, "TX200");
  EXPECT_EQ(split_make_model({}, "TX200").make, "");
  EXPECT_EQ(split_make_model({}, "  ").make, "");
}

TEST(UsualKindAndSource, AreTheMostFrequentOnes) {
  EXPECT_EQ(usual_kind({}), MachineKind::push);
  EXPECT_EQ(usual_source({}), Source::curb);
  EXPECT_EQ(usual_kind(soldAt(MachineKind::blower, {10, 20})), MachineKind::blower);
}

}  // namespace
}  // namespace secondpull
