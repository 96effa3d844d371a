#include "tests/journeys/journey.h"

namespace secondpull::app::test {
namespace {

/// The same job with no hand on the mouse: keys go to whatever has the focus, and nothing is looked up by
/// name.
class Keyboard : public Journey {
 protected:
  /// One stroke that is not part of what is typed.
  void stroke(int which, Qt::KeyboardModifiers modifiers = {}) {
    ++strokes;
    key(which, modifiers);
  }
  /// Types what to do into the What-now line and does it.
  void whatNow(const char* words) {
    stroke(Qt::Key_K, Qt::ControlModifier);
    type(words);
    stroke(Qt::Key_Return);
  }
  int strokes = 0;
};

TEST_F(Keyboard, LogsAMachineInUnderTenStrokesBeyondItsText) {
  stroke(Qt::Key_N, Qt::ControlModifier);
  // What it is and where it came from start at the shop's usual; Tab goes on.
  stroke(Qt::Key_Tab);
  type("Kedgeway Plain 21");
  stroke(Qt::Key_Tab);
  stroke(Qt::Key_Tab);
  type("15");
  stroke(Qt::Key_Tab);
  type("8.4");
  stroke(Qt::Key_Tab);
  type("no spark");
  stroke(Qt::Key_Return);

  ASSERT_EQ(shop.session->shop()->all<Machine>().size(), 1u) << said().toStdString();
  const Machine& logged = *shop.session->shop()->all<Machine>().begin();
  EXPECT_EQ(logged.make, "Kedgeway");
  EXPECT_EQ(logged.symptom, "no spark");
  EXPECT_EQ(figures(logged.id).cost_basis, dollars(1500));
  ASSERT_EQ(shop.session->shop()->all<Trip>().size(), 1u);
  EXPECT_LT(strokes, 10);
}

TEST_F(Keyboard, DoesTheWholeJob) {
  key(Qt::Key_N, Qt::ControlModifier);
  key(Qt::Key_Tab);
  type("Kedgeway Plain 21");
  key(Qt::Key_Return);
  key(Qt::Key_Escape);
  ASSERT_EQ(shop.session->shop()->all<Machine>().size(), 1u);
  const MachineId machine = newest();

  whatNow("#1");
  ASSERT_EQ(window->currentWord(), "Bench");
  key(Qt::Key_F5);
  type("compression feel");
  key(Qt::Key_Return);
  type("springs back");
  key(Qt::Key_Return);
  ASSERT_EQ(shop.session->shop()->all<Finding>().size(), 1u) << said().toStdString();
  key(Qt::Key_F6);
  type("1h20 repair");
  key(Qt::Key_Return);
  ASSERT_EQ(shop.session->shop()->all<Labour>().size(), 1u) << said().toStdString();
  key(Qt::Key_F7);
  type("primer bulb");
  key(Qt::Key_Return, Qt::ControlModifier);
  ASSERT_EQ(shop.session->shop()->all<Fitted>().size(), 1u) << said().toStdString();

  key(Qt::Key_4, Qt::AltModifier);
  ASSERT_EQ(window->currentWord(), "For sale");
  whatNow("sell the machine in hand");
  type("Linnet Farrow-Pike");
  key(Qt::Key_Tab);
  type("85");
  key(Qt::Key_Return);
  ASSERT_EQ(shop.session->shop()->all<Sale>().size(), 1u) << said().toStdString();
  EXPECT_EQ(figures(machine).profit, dollars(8500));
  // 85.00 in 80 minutes: 63.75 an hour.
  EXPECT_EQ(figures(machine).pay_per_hour, dollars(6375));

  key(Qt::Key_1, Qt::AltModifier);
  while (!shop.session->shop()->empty()) {
    const auto before = shop.session->shop();
    key(Qt::Key_Z, Qt::ControlModifier);
    ASSERT_FALSE(shop.session->shop()->same_records(*before)) << "Ctrl+Z took nothing back";
  }
  for (int action = 0; action < 5; ++action)
    key(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_EQ(figures(machine).profit, dollars(8500));
}

}  // namespace
}  // namespace secondpull::app::test
