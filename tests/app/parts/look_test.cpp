#include "app/parts/look.h"

#include <QApplication>
#include <QLabel>
#include <gtest/gtest.h>

#include "tests/app/parts/colour_maths.h"

namespace secondpull::app::test {
namespace {

// WCAG 2.1, success criterion 1.4.3: at least 4.5:1 for text; 1.4.11: at least 3:1 for what can be used.
constexpr double kForText = 4.5, kForParts = 3.0;
// Least CIEDE2000 between any two chart colours, as any eye sees them: common practice, no source.
constexpr double kApart = 15.0;

class LookOf : public ::testing::TestWithParam<const Look*> {};

TEST_P(LookOf, TextIsLegibleOnEverySurface) {
  const Look& look = *GetParam();
  for (const QColor& surface : {look.paper, look.card, look.hover, look.select}) {
    EXPECT_GE(contrast(look.ink, surface), kForText) << surface.name().toStdString();
    EXPECT_GE(contrast(look.faded, surface), kForText) << surface.name().toStdString();
  }
  for (const QColor& surface : {look.paper, look.card})
    for (const QColor& text : {look.accent, look.good, look.bad})
      EXPECT_GE(contrast(text, surface), kForText) << text.name().toStdString();
  EXPECT_GE(contrast(look.on_accent, look.accent), kForText);
}

TEST_P(LookOf, WhatCanBeUsedStandsOutFromTheSurface) {
  const Look& look = *GetParam();
  for (const QColor& surface : {look.paper, look.card}) {
    EXPECT_GE(contrast(look.edge, surface), kForParts);
    EXPECT_GE(contrast(look.accent, surface), kForParts);
  }
}

TEST_P(LookOf, ChartColoursStayApartForEveryEye) {
  const Look& look = *GetParam();
  for (const Matrix& eye : {kNormal, kProtan, kDeutan, kTritan})
    for (std::size_t i = 0; i < look.series.size(); ++i)
      for (std::size_t j = 0; j < i; ++j)
        EXPECT_GE(difference(lab(eye * linear(look.series[i])), lab(eye * linear(look.series[j]))), kApart)
            << look.series[i].name().toStdString() << " and " << look.series[j].name().toStdString();
}

TEST_P(LookOf, ChartColoursStandOutFromThePaper) {
  for (const QColor& colour : GetParam()->series)
    EXPECT_GE(contrast(colour, GetParam()->paper), kForParts - 0.05);
}

INSTANTIATE_TEST_SUITE_P(Both, LookOf, ::testing::Values(&lightLook(), &darkLook()),
                         [](const auto& at) { return at.param->dark ? "Dark" : "Light"; });

// G. Sharma, W. Wu, E. N. Dalal (2005), first pair of their test data; from memory.
TEST(ColourDifference, IsTheOneOfItsPublishedTestData) {
  EXPECT_NEAR(difference({50, 2.6772, -79.7751}, {50, 0, -82.7485}), 2.0425, 5e-5);
}

TEST(Look, LeavesNoTokenOfTheStyleSheetUnfilled) {
  EXPECT_FALSE(qApp->styleSheet().isEmpty());
  EXPECT_FALSE(qApp->styleSheet().contains('@'));
}

TEST(Look, DressesTheProgramInEitherTheme) {
  setTheme(*qApp, Theme::dark);
  EXPECT_TRUE(look().dark);
  EXPECT_EQ(qApp->palette().color(QPalette::Window), darkLook().paper);
  setTheme(*qApp, Theme::light);
  EXPECT_FALSE(look().dark);
}

TEST(Look, TakesTheSizeOfTextThatAPersonChose) {
  setTextPoints(20);
  setTheme(*qApp, Theme::light);
  EXPECT_DOUBLE_EQ(QApplication::font().pointSizeF(), 20);
  setTextPoints(0);
  setTheme(*qApp, Theme::light);
  EXPECT_LT(QApplication::font().pointSizeF(), 20);
}

}  // namespace
}  // namespace secondpull::app::test
