#include "app/books/money_bars.h"

#include <QApplication>
#include <QTest>
#include <gtest/gtest.h>

namespace secondpull::app {
namespace {

std::vector<MoneyBar> manyBars(int count) {
  std::vector<MoneyBar> bars;
  for (int at = 0; at < count; ++at) {
    const Money profit = Money::from_minor((at % 7 - 2) * 2599);
    bars.push_back({.name = QStringLiteral("#%1").arg(at + 1),
                    .amount = QString::fromStdString(shown(profit, Currency{})),
                    .from = Money{},
                    .to = profit,
                    .kind = profit < Money{} ? MoneyBar::Kind::loss : MoneyBar::Kind::gain});
  }
  return bars;
}

TEST(TickStep, IsARoundAmountThatCoversTheSpan) {
  const auto step = [](std::int64_t span) { return tickStep(Money::from_minor(span), 5).minor(); };
  EXPECT_EQ(step(1), 1);
  EXPECT_EQ(step(5), 1);
  EXPECT_EQ(step(6), 2);
  EXPECT_EQ(step(18500), 5000);
  EXPECT_EQ(step(100000), 20000);
  EXPECT_EQ(step(100001), 50000);
  EXPECT_EQ(step(2 * 10'000'000'000'000'000),
            5'000'000'000'000'000);  // the largest amounts that may be typed
}

TEST(MoneyBars, RowsNeverOverlapAndAlwaysHoldALineOfText) {
  MoneyBars chart{"Profit", "profit, USD", Currency{}};
  chart.setBars(manyBars(500));
  for (const int height : {160, 300, 700}) {
    chart.resize(480, height);
    chart.show();
    QCoreApplication::processEvents();
    qreal below = -1;
    for (int row = 0; row < chart.shownRows(); ++row) {
      const QRectF at = chart.rowRect(row);
      EXPECT_GE(at.height(), QFontMetricsF{chart.font()}.height());
      EXPECT_GE(at.top() + 1, below);
      below = at.bottom();
    }
    EXPECT_LE(below, height);
  }
}

TEST(MoneyBars, ScrollsToTheRowThatIsChosen) {
  MoneyBars chart{"Profit", "profit, USD", Currency{}};
  chart.setChoosing(true);
  chart.setBars(manyBars(500));
  chart.resize(480, 300);
  chart.show();
  chart.setCurrent(400);
  EXPECT_FALSE(chart.rowRect(400).isEmpty());
  EXPECT_TRUE(chart.rowRect(0).isEmpty());
  QTest::keyClick(&chart, Qt::Key_Home);
  EXPECT_EQ(chart.current(), 0);
  EXPECT_EQ(chart.firstShown(), 0);
  QTest::keyClick(&chart, Qt::Key_PageDown);
  EXPECT_EQ(chart.current(), chart.shownRows());
  QTest::keyClick(&chart, Qt::Key_End);
  EXPECT_EQ(chart.current(), 499);
  QTest::keyClick(&chart, Qt::Key_Down);
  EXPECT_EQ(chart.current(), 499);
}

TEST(MoneyBars, SaysItsRowsToAScreenReader) {
  MoneyBars chart{"Profit", "profit, USD", Currency{}};
  chart.resize(480, 300);
  chart.setBars(manyBars(2));
  EXPECT_EQ(chart.accessibleDescription(),
            QString::fromUtf8("profit, USD: #1 \u2212$51.98; #2 \u2212$25.99"));
}

TEST(MoneyBars, WithoutRowsIsEmptyAndStandsKeys) {
  MoneyBars chart{"Profit", "profit, USD", Currency{}};
  chart.setChoosing(true);
  chart.show();
  QTest::keyClick(&chart, Qt::Key_Down);
  EXPECT_EQ(chart.current(), -1);
}

}  // namespace
}  // namespace secondpull::app
