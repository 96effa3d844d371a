// What the bench reads out of the record: guesses, part offers, the day book.

#include <QAbstractItemModelTester>
#include <gmock/gmock.h>

#include "app/bench/day_book.h"
#include "app/bench/guesses.h"
#include "app/bench/part_offers.h"
#include "app/bench/suggestions.h"
#include "tests/app/bench/test_shop.h"

namespace secondpull::app {
namespace {

using testing::ElementsAre;

NewSale saleOf(MachineId machine, Money price) {
  NewSale sale;
  sale.machine = machine;
  sale.date = day(2026, 5, 10);
  sale.price = price;
  return sale;
}

TEST(SellingPriceGuess, IsTheMeanOfItsKindUntilItHasAnAskingPrice) {
  TestShop test;
  test.perform(sell(*test.shop(), saleOf(test.logMachine(day(2026, 5, 1), cents(0)), cents(100'00))));
  test.perform(sell(*test.shop(), saleOf(test.logMachine(day(2026, 5, 1), cents(0)), cents(121'01))));
  test.perform(sell(*test.shop(), saleOf(test.logMachine(day(2026, 5, 1), cents(0), MachineKind::zero_turn),
                                         cents(900'00))));
  const MachineId machine = test.logMachine(day(2026, 5, 2), cents(0));

  // (100.00 + 121.01) / 2 = 110.505, half away from zero; the zero-turn is of another kind.
  const auto guess = sellingPriceGuess(*test.shop(), test.books()->by_machine(), machine);
  ASSERT_TRUE(guess.has_value());
  EXPECT_EQ(guess->amount, cents(110'51));

  test.perform(list_machine(*test.shop(), machine, day(2026, 5, 12), "board", cents(150'00), std::nullopt));
  EXPECT_EQ(sellingPriceGuess(*test.shop(), test.books()->by_machine(), machine)->amount, cents(150'00));
}

TEST(SellingPriceGuess, IsNoneInAShopThatSoldNothingOfItsKind) {
  TestShop test;
  const MachineId machine = test.logMachine(day(2026, 5, 2), cents(0));
  EXPECT_FALSE(sellingPriceGuess(*test.shop(), test.books()->by_machine(), machine).has_value());
}

TEST(PartGuesses, TheLastPriceAndHalfOfItForAUsedOne) {
  TestShop test;
  test.buy("air filter", 1, cents(8'00), day(2026, 4, 1));
  const PartId part = test.buy("air filter", 1, cents(9'50), day(2026, 5, 1));
  EXPECT_EQ(lastPrice(*test.shop(), part), cents(9'50));
  EXPECT_EQ(usedPartGuess(*test.shop(), part)->amount, cents(4'75));
}

TEST(PartOffers, WhatIsOnHandComesBeforeWhatIsNot) {
  TestShop test;
  const MachineId machine = test.logMachine(day(2026, 4, 1), cents(0));
  test.buy("plug, long", 1, cents(3'00), day(2026, 5, 1));
  test.buy("plug, short", 2, cents(3'49), day(2026, 5, 1));
  test.perform(fit_part(*test.shop(), machine, day(2026, 5, 2), *test.find("plug, long"), 1, {}, {}));
  const auto found = matching(partOffers(*test.books()), "plug");
  ASSERT_EQ(found.size(), 2u);
  EXPECT_EQ(found[0].name, "plug, short");
  EXPECT_EQ(found[0].on_hand, 2);
  EXPECT_EQ(found[0].next, cents(3'49));
  EXPECT_EQ(found[1].on_hand, 0);
}

TEST(PartOffers, EveryWordMustBeFoundSomewhere) {
  TestShop test;
  test.buy("blade, mulching", 1, cents(20'00), day(2026, 5, 1));
  const auto offers = partOffers(*test.books());
  EXPECT_EQ(matching(offers, "mul bla").size(), 1u);
  EXPECT_TRUE(matching(offers, "mul belt").empty());
  EXPECT_TRUE(matching(offers, "").empty());
}

TEST(PartOffers, TheModelKeepsTheRulesOfModels) {
  TestShop test;
  PartOfferModel model;
  const QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);
  model.setOffers(partOffers(*test.books()), Currency{});
  test.buy("belt", 1, cents(20'00), day(2026, 5, 1));
  model.setOffers(partOffers(*test.books()), Currency{});
  EXPECT_TRUE(
      model.data(model.index(0), Qt::DisplayRole).toString().contains("1 on hand, the next costs $20.00"));
}

TEST(DayBook, TellsEverythingNewestFirstWithWhatItCost) {
  TestShop test;
  const MachineId machine =
      test.logMachine(day(2026, 5, 1), cents(20'00), MachineKind::push, "will not start");
  test.buy("plug", 2, cents(3'49), day(2026, 5, 2));
  test.perform(open_fault(*test.shop(), machine, day(2026, 5, 3), "will not start", "", ""));
  test.perform(log_labour(*test.shop(), machine, day(2026, 5, 3), Minutes{45}, Work::diagnose, "no spark"));
  test.perform(fit_part(*test.shop(), machine, day(2026, 5, 4), *test.find("plug"), 1, {}, {}));
  const auto lines = dayBook(*test.books(), machine);
  QStringList said;
  for (const DayBookLine& line : lines)
    said << line.what;
  EXPECT_THAT(std::vector<QString>(said.begin(), said.end()),
              ElementsAre("fitted plug", "diagnose", "fault: will not start", "came in: curb"));
  EXPECT_EQ(lines[0].amount, cents(-3'49));
  EXPECT_EQ(lines[1].minutes->count, 45);
  EXPECT_EQ(lines[3].amount, cents(-20'00));
  EXPECT_TRUE(lines[0].removable && lines[1].editable);
  EXPECT_FALSE(lines[3].removable);
}

TEST(DayBook, OfAnUnknownMachineIsEmpty) {
  TestShop test;
  EXPECT_TRUE(dayBook(*test.books(), MachineId{77}).empty());
}

TEST(Suggestions, TheMostFrequentComesFirstAndOutcomesOfTheStepBeforeOthers) {
  TestShop test;
  const MachineId machine = test.logMachine(day(2026, 5, 1), cents(0));
  const auto find = [&](const char* step, const char* outcome) {
    NewFinding finding;
    finding.machine = machine;
    finding.date = day(2026, 5, 2);
    finding.step = step;
    finding.outcome = outcome;
    test.perform(record_finding(*test.shop(), finding));
  };
  find("spark test", "no spark");
  find("compression test", "good");
  find("compression test", "low");
  EXPECT_EQ(stepsBefore(*test.shop()).front(), "compression test");
  EXPECT_EQ(outcomesBefore(*test.shop(), "spark test").front(), "no spark");
  // Behind what the shop wrote stand the words of the knowledge base, which the planner can read.
  EXPECT_TRUE(stepsBefore(*test.shop()).contains("Clean bowl and main jet"));
  EXPECT_EQ(outcomesBefore(*test.shop(), "Clean bowl and main jet").mid(0, 2),
            (QStringList{"mended", "failed"}));
  EXPECT_EQ(outcomesBefore(*test.shop(), "Count the blade to standstill").front(),
            "Within 3 s, or 5 s on rider");
  EXPECT_TRUE(symptomsBefore(*test.shop()).contains("Knocking or clanking"));
  EXPECT_TRUE(causesBefore(*test.shop()).contains("flywheel key sheared"));
}

}  // namespace
}  // namespace secondpull::app
