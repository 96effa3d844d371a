#include "app/parts/two_sides.h"

#include <QApplication>
#include <QLineEdit>
#include <QTest>
#include <gtest/gtest.h>

#include "app/parts/look.h"

namespace secondpull::app::test {
namespace {

class TwoSidesTest : public ::testing::TestWithParam<TwoSides::Between> {
 protected:
  TwoSidesTest() { show(1000); }
  ~TwoSidesTest() override {
    setTextPoints(0);
    setTheme(*qApp, Theme::light);
  }
  void show(int width) {
    page.resize(width, 300);
    page.show();
    (void)QTest::qWaitForWindowExposed(&page);
    QApplication::processEvents();
  }

  QLineEdit* list = new QLineEdit;
  QLineEdit* picture = new QLineEdit;
  TwoSides page{"List or picture", "sides", {list, "list", 400, 1}, {picture, "picture", 300, 0}, GetParam()};
};

TEST_P(TwoSidesTest, BothAreShownWhileTheWidthHasRoom) {
  EXPECT_TRUE(list->isVisible());
  EXPECT_TRUE(picture->isVisible());
  EXPECT_FALSE(page.words()->isVisible());
}

TEST_P(TwoSidesTest, OneAtATimeIsShownWhereItHasNot) {
  show(600);
  EXPECT_TRUE(page.words()->isVisible());
  EXPECT_TRUE(list->isVisible());
  EXPECT_FALSE(picture->isVisible());
  EXPECT_EQ(list->width(), page.width());
  QTest::keyClick(page.words(), Qt::Key_Right);
  QApplication::processEvents();
  EXPECT_FALSE(list->isVisible());
  EXPECT_TRUE(picture->isVisible());
  EXPECT_EQ(picture->width(), page.width());
  show(1000);
  EXPECT_TRUE(list->isVisible());
  EXPECT_TRUE(picture->isVisible());
  EXPECT_FALSE(page.words()->isVisible());
}

TEST_P(TwoSidesTest, LargeTextNeedsMoreRoom) {
  setTextPoints(20);
  setTheme(*qApp, Theme::light);
  QApplication::processEvents();
  EXPECT_FALSE(page.both());
  EXPECT_FALSE(picture->isVisible());
}

TEST_P(TwoSidesTest, EscGoesBackToTheFirst) {
  show(600);
  page.turnTo(1);
  picture->setFocus();
  QTest::keyClick(picture, Qt::Key_Escape);
  EXPECT_TRUE(list->isVisible());
  EXPECT_FALSE(picture->isVisible());
  EXPECT_EQ(page.focusWidget(), list);
}

TEST_P(TwoSidesTest, TheFirstIsAloneWhileTheSecondHasNothingToShow) {
  page.setGone(1);
  EXPECT_TRUE(list->isVisible());
  EXPECT_FALSE(picture->isVisible());
  EXPECT_FALSE(page.words()->isVisible());
  page.setGone(std::nullopt);
  EXPECT_TRUE(picture->isVisible());
}

TEST_P(TwoSidesTest, TheSecondIsAloneWhileTheFirstHasNothingToShow) {
  page.setGone(0);
  EXPECT_FALSE(list->isVisible());
  EXPECT_TRUE(picture->isVisible());
  show(600);
  EXPECT_FALSE(page.words()->isVisible());
  EXPECT_TRUE(picture->isVisible());
}

INSTANTIATE_TEST_SUITE_P(Either, TwoSidesTest,
                         ::testing::Values(TwoSides::Between::handle, TwoSides::Between::gap));

}  // namespace
}  // namespace secondpull::app::test
