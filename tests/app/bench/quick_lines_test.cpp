#include "app/bench/quick_lines.h"

#include <gmock/gmock.h>

#include "app/bench/finding_line.h"

namespace secondpull::app {
namespace {

LabourEntry labour(const char* line) {
  const auto read = readLabour(QString::fromUtf8(line), Work::repair);
  EXPECT_TRUE(read.has_value()) << line;
  return read.value_or(LabourEntry{});
}

TEST(LabourLine, ReadsALengthOfTimeAndAKindOfWork) {
  const LabourEntry read = labour("1h20 clean");
  EXPECT_EQ(read.minutes.count, 80);
  EXPECT_EQ(read.work, Work::clean);
  EXPECT_TRUE(read.note.isEmpty());
}

TEST(LabourLine, ThreeLettersOfAKindOfWorkDo) {
  EXPECT_EQ(labour("45m dia").work, Work::diagnose);
  EXPECT_EQ(labour("45m test").work, Work::test_run);
  EXPECT_EQ(labour("45m test run").work, Work::test_run);
}

TEST(LabourLine, TheRestIsTheNote) {
  const LabourEntry read = labour("45m diag no spark at the coil");
  EXPECT_EQ(read.work, Work::diagnose);
  EXPECT_EQ(read.note, "no spark at the coil");
}

TEST(LabourLine, WithoutAKindOfWorkItIsTheUsualOne) {
  EXPECT_EQ(labour("80").work, Work::repair);
  const LabourEntry read = labour("80 deck");
  EXPECT_EQ(read.work, Work::repair);
  EXPECT_EQ(read.note, "deck");
}

TEST(LabourLine, TimeMayStandLastAndInSeveralWords) {
  EXPECT_EQ(labour("clean 30m").minutes.count, 30);
  EXPECT_EQ(labour("1 h 20 min repair").minutes.count, 80);
}

TEST(LabourLine, ALineWithoutTimeOrOfNoMinutesIsRefusedWithAReason) {
  for (const char* line : {"repair", "", "0 repair"}) {
    const auto read = readLabour(QString::fromUtf8(line), Work::repair);
    ASSERT_FALSE(read.has_value()) << line;
    EXPECT_EQ(read.error().field, "minutes");
    EXPECT_FALSE(read.error().sentence.empty());
  }
}

TEST(MaterialLine, ReadsWhatAndCostInEitherOrder) {
  const auto last = readMaterial("degreaser 3.50", Currency{});
  ASSERT_TRUE(last.has_value());
  EXPECT_EQ(last->what, "degreaser");
  EXPECT_EQ(last->cost, Money::from_minor(350));
  const auto first = readMaterial("$4 fuel line, a foot", Currency{});
  ASSERT_TRUE(first.has_value());
  EXPECT_EQ(first->what, "fuel line, a foot");
  EXPECT_EQ(first->cost, Money::from_minor(400));
}

TEST(MaterialLine, ANumberInTheNameIsNotTheCost) {
  const auto read = readMaterial("10w30 oil 4.00", Currency{});
  ASSERT_TRUE(read.has_value());
  EXPECT_EQ(read->what, "10w30 oil");
}

TEST(MaterialLine, WithoutCostOrNameItIsRefused) {
  EXPECT_EQ(readMaterial("degreaser", Currency{}).error().field, "cost");
  EXPECT_EQ(readMaterial("3.50", Currency{}).error().field, "what");
  EXPECT_EQ(readMaterial("", Currency{}).error().field, "cost");
}

const auto kNothingKnown = [](const QString&) { return false; };

TEST(PartLineText, ReadsAQuantityBeforeOrBehind) {
  EXPECT_EQ(readPart("plug x2", kNothingKnown).quantity, 2);
  EXPECT_EQ(readPart("plug x2", kNothingKnown).name, "plug");
  EXPECT_EQ(readPart("3 x plug", kNothingKnown).quantity, 3);
  EXPECT_EQ(readPart("plug", kNothingKnown).quantity, 1);
}

TEST(PartLineText, AKnownNameThatLooksLikeAQuantityStaysWhole) {
  const auto known = [](const QString& text) { return text == "belt 1/2 x 7"; };
  EXPECT_EQ(readPart("belt 1/2 x 7", known).name, "belt 1/2 x 7");
  EXPECT_EQ(readPart("belt 1/2 x 7", known).quantity, 1);
}

TEST(PartLineText, ALengthBeyondAnyQuantityIsPartOfTheName) {
  EXPECT_EQ(readPart("belt 1/2 x 87", kNothingKnown).name, "belt 1/2 x 87");
}

TEST(WorkOfStep, FollowsTheWordsOfTheStep) {
  EXPECT_EQ(workOfStep("spark test"), Work::diagnose);
  EXPECT_EQ(workOfStep("fit a new plug"), Work::repair);
  EXPECT_EQ(workOfStep("clean the deck"), Work::clean);
  EXPECT_EQ(workOfStep("oil change"), Work::service);
  EXPECT_EQ(workOfStep("test run"), Work::test_run);
  EXPECT_EQ(workOfStep(""), Work::diagnose);
}

}  // namespace
}  // namespace secondpull::app
