#include "app/parts/edits.h"

#include <QTest>
#include <gtest/gtest.h>

namespace secondpull::app::test {
namespace {

const Currency kDollars{"USD", 2};
constexpr Date kToday = std::chrono::year{2026} / 5 / 4;

/// Types into the field and leaves it.
void typeAndLeave(TypedEdit& edit, const QString& text) {
  edit.show();
  edit.setFocus();
  QTest::keyClicks(&edit, text);
  QFocusEvent out(QEvent::FocusOut, Qt::TabFocusReason);
  QApplication::sendEvent(&edit, &out);
}

TEST(MoneyEdit, ReadsTheShortWayAndReadsBackInFull) {
  MoneyEdit edit("price", kDollars);
  typeAndLeave(edit, "12.5");
  EXPECT_EQ(edit.text(), "$12.50");
  EXPECT_EQ(edit.value(), Money::from_minor(1250));
  EXPECT_FALSE(edit.problem());
}

TEST(MoneyEdit, KeepsBadTextAndSaysWhy) {
  MoneyEdit edit("price", kDollars);
  typeAndLeave(edit, "12.345");
  EXPECT_EQ(edit.text(), "12.345");
  EXPECT_FALSE(edit.value());
  ASSERT_TRUE(edit.problem());
  EXPECT_EQ(edit.problem()->field, "price");
  EXPECT_EQ(edit.toolTip(), QString::fromStdString(edit.problem()->sentence));
  EXPECT_EQ(edit.property("state"), "bad");
}

TEST(MoneyEdit, ShowsAndReadsBackWhatItWasGiven) {
  MoneyEdit edit("price", kDollars);
  edit.setValue(Money::from_minor(123450));
  EXPECT_EQ(edit.text(), "$1,234.50");
  EXPECT_EQ(edit.value(), Money::from_minor(123450));
  edit.setValue(std::nullopt);
  EXPECT_TRUE(edit.isBlank());
  EXPECT_FALSE(edit.value());
}

TEST(TypedEdit, IsNoProblemWhenBlankUnlessRequired) {
  MoneyEdit edit("price", kDollars);
  EXPECT_FALSE(edit.problem());
  edit.setRequired(true);
  EXPECT_TRUE(edit.problem());
}

TEST(TypedEdit, MarksAGuessUntilThePersonTouchesIt) {
  MinutesEdit edit("minutes");
  edit.setGuess("25 min");
  EXPECT_TRUE(edit.isGuess());
  EXPECT_EQ(edit.value(), Minutes{25});
  edit.show();
  edit.setFocus();
  QTest::keyClick(&edit, Qt::Key_End);
  EXPECT_TRUE(edit.isGuess());
  QTest::keyClick(&edit, Qt::Key_Backspace);
  EXPECT_FALSE(edit.isGuess());
}

TEST(MinutesEdit, ReadsEveryShortWayAndItsOwnFullForm) {
  for (const auto& [typed, minutes] : {std::pair{"1h20", 80}, {"80m", 80}, {"80", 80}, {"1.5h", 90}}) {
    MinutesEdit edit("minutes");
    typeAndLeave(edit, typed);
    EXPECT_EQ(edit.value(), Minutes{minutes}) << typed;
    EXPECT_EQ(edit.text(), QString::fromStdString(shown(Minutes{minutes})));
  }
}

TEST(MinutesEdit, ReadsBackWhatItWrites) {
  MinutesEdit edit("minutes");
  for (const std::int64_t minutes : {0, 1, 59, 60, 61, 120, 1439}) {
    edit.setValue(Minutes{minutes});
    EXPECT_EQ(edit.value(), Minutes{minutes}) << edit.text().toStdString();
  }
}

TEST(DateEdit, ReadsTheShortWayAndReadsBackInFull) {
  DateEdit edit("date", kToday);
  typeAndLeave(edit, "4/12");
  EXPECT_EQ(edit.text(), "12 April 2026");
  EXPECT_EQ(edit.value(), Date{std::chrono::year{2026} / 4 / 12});
}

TEST(DateEdit, ReadsBackWhatItWritesInEveryMonth) {
  DateEdit edit("date", kToday);
  for (unsigned month = 1; month <= 12; ++month) {
    const Date date{std::chrono::year{2025}, std::chrono::month{month}, std::chrono::day{7}};
    edit.setValue(date);
    EXPECT_EQ(edit.value(), date) << edit.text().toStdString();
  }
}

TEST(TenthsEdit, TakesOneDecimalAndItsUnit) {
  TenthsEdit edit("miles", "mi");
  typeAndLeave(edit, "12.5");
  EXPECT_EQ(edit.text(), "12.5 mi");
  EXPECT_EQ(edit.value(), Tenths{125});
  edit.setText("21");
  EXPECT_EQ(edit.value(), Tenths{210});
  edit.setText("1.25");
  EXPECT_FALSE(edit.value());
  EXPECT_TRUE(edit.problem());
}

TEST(CountEdit, TakesWholeNumbersFromTheLeastOn) {
  CountEdit edit("quantity", 1);
  edit.setText("3");
  EXPECT_EQ(edit.value(), 3);
  for (const char* bad : {"0", "-1", "2.5", "two"}) {
    edit.setText(bad);
    EXPECT_FALSE(edit.value()) << bad;
    EXPECT_TRUE(edit.problem()) << bad;
  }
}

}  // namespace
}  // namespace secondpull::app::test
