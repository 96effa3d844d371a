#include "app/lessons/range_chart.h"

#include <QTest>
#include <gtest/gtest.h>

#include "app/lessons/lesson_words.h"

namespace secondpull::app::test {
namespace {

TEST(NiceStep, IsOneTwoOrFiveTimesAPowerOfTen) {
  EXPECT_DOUBLE_EQ(niceStep(1, 5), 0.2);
  EXPECT_DOUBLE_EQ(niceStep(37, 5), 10);
  EXPECT_DOUBLE_EQ(niceStep(100, 5), 20);
  EXPECT_DOUBLE_EQ(niceStep(0.3, 5), 0.1);
  EXPECT_DOUBLE_EQ(niceStep(2.4, 5), 0.5);
}

TEST(LessonWords, SayChancesAsAPersonDoes) {
  EXPECT_EQ(oftenInWords(0.31), "3 times in 10");
  EXPECT_EQ(oftenInWords(0.1), "once in 10");
  EXPECT_EQ(oftenInWords(0.02), "hardly ever");
  EXPECT_EQ(oftenInWords(0.97), "nearly every time");
  EXPECT_EQ(oftenInWords(1), "every time");
  EXPECT_EQ(partInWords(0.02), "fewer than 1 in 10");
  EXPECT_EQ(partInWords(0.57), "6 in 10");
  EXPECT_EQ(percent(0.305), "31 %");
  EXPECT_EQ(numberOf(2.46), "2.5");
  EXPECT_EQ(numberOf(14.6), "15");
  EXPECT_EQ(numberOf(-3.0), QString{QChar{0x2212}} + "3");
  EXPECT_EQ(daysOf(1), "1 day");
  EXPECT_EQ(minutesOf(-65), QString{QChar{0x2212}} + "1 h 5 min");
}

RangeChartOf someRows(int count) {
  RangeChartOf what{.title = "Chances", .axis = "of 100"};
  for (int at = 0; at < count; ++at)
    what.rows.push_back({.name = QString{"row %1"}.arg(at),
                         .label = QString{"%1 of 10"}.arg(at),
                         .figure = at / 10.0,
                         .low = at / 10.0 - 0.1,
                         .high = at / 10.0 + 0.1,
                         .beside = 0.5});
  return what;
}

TEST(RangeChart, ScrollsToTheRowThatIsChosenAndSaysItsRows) {
  RangeChart chart;
  chart.resize(460, 240);
  chart.show();
  chart.setChart(someRows(30));
  ASSERT_LT(chart.shownRows(), 30);
  chart.setCurrent(29);
  EXPECT_EQ(chart.current(), 29);
  EXPECT_TRUE(chart.accessibleDescription().contains("row 29 29 of 10"));
  chart.setCurrent(77);
  EXPECT_EQ(chart.current(), -1);
}

TEST(RangeChart, DrawsNothingAndOneRowWithoutHarm) {
  RangeChart chart;
  chart.resize(460, 240);
  chart.show();
  chart.setChart(someRows(0));
  chart.setChart(someRows(1));
  chart.setChart({.title = "Bars", .axis = "hours", .rows = {{.name = "none", .figure = 0, .bar = true}}});
  EXPECT_FALSE(chart.grab().isNull());
}

}  // namespace
}  // namespace secondpull::app::test
