// The Bench through its own fields, as a person types into them.

#include "app/bench/bench_page.h"

#include <QAbstractItemModel>
#include <QApplication>
#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QPushButton>
#include <QtTest/QTest>
#include <gmock/gmock.h>

#include "app/parts/edits.h"
#include "tests/app/bench/test_shop.h"

namespace secondpull::app {
namespace {

class BenchTest : public testing::Test {
 protected:
  void open(MachineId machine) {
    machine_ = machine;
    page_.reset(makeBenchPage(test_.session(), nullptr));
    QObject::connect(&test_.session(), &Session::changed, page_.get(),
                     [this](const std::vector<AnyId>& ids) { page_->refresh(ids); });
    page_->resize(1280, 700);
    page_->show();
    page_->openMachine(machine);
  }
  template <class Widget>
  Widget* child(const char* name) {
    auto* found = page_->findChild<Widget*>(QString::fromLatin1(name));
    EXPECT_NE(found, nullptr) << name;
    return found;
  }
  void type(const char* name, const char* keys) {
    auto* field = child<QLineEdit>(name);
    field->setFocus();
    field->clear();
    QTest::keyClicks(field, QString::fromUtf8(keys));
  }
  void press(const char* name, Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
    QTest::keyClick(child<QWidget>(name), key, modifiers);
  }
  const ByMachine::Lines& lines() {
    books_ = test_.books();
    return books_->by_machine().of(machine_);
  }

  TestShop test_;
  MachineId machine_{};
  std::unique_ptr<Page> page_;
  std::shared_ptr<const Books> books_;
};

TEST_F(BenchTest, APartOnTheShelfIsFittedByABitOfItsNameAndEnter) {
  const MachineId machine = test_.logMachine(day(2026, 5, 1), cents(20'00));
  test_.buy("spark plug", 3, cents(3'49), day(2026, 5, 2));
  open(machine);
  type("partLine", "plug");
  EXPECT_TRUE(child<QLabel>("partHint")->text().contains("3 on hand, costs $3.49"));
  press("partLine", Qt::Key_Return);
  ASSERT_EQ(lines().fitted.size(), 1u);
  EXPECT_EQ(test_.books()->on_hand(*test_.find("spark plug")), 2);
  EXPECT_EQ(test_.books()->machine(machine)->cost_basis, cents(23'49));
  EXPECT_TRUE(child<QLineEdit>("partLine")->text().isEmpty());

  EXPECT_EQ(test_.session().undo(), std::nullopt);
  EXPECT_TRUE(lines().fitted.empty());
  EXPECT_EQ(test_.books()->on_hand(*test_.find("spark plug")), 3);
}

TEST_F(BenchTest, TwoOfAPartAreFittedWithX2) {
  const MachineId machine = test_.logMachine(day(2026, 5, 1), cents(0));
  test_.buy("wheel", 2, cents(5'00), day(2026, 5, 2));
  open(machine);
  type("partLine", "whe x2");
  press("partLine", Qt::Key_Return);
  EXPECT_EQ(test_.books()->on_hand(*test_.find("wheel")), 0);
}

TEST_F(BenchTest, APartThatTheShelfHasNotIsTakenFromTheHandAtItsLastPriceAsAGuess) {
  const MachineId machine = test_.logMachine(day(2026, 5, 1), cents(0));
  const PartId plug = test_.buy("spark plug", 1, cents(3'49), day(2026, 5, 2));
  test_.perform(fit_part(*test_.shop(), machine, day(2026, 5, 3), plug, 1, {}, {}));
  open(machine);
  type("partLine", "plug");
  auto* cost = child<MoneyEdit>("foundCost");
  EXPECT_TRUE(cost->isVisible());
  EXPECT_TRUE(cost->isGuess());
  EXPECT_EQ(cost->value(), cents(3'49));
  press("partLine", Qt::Key_Return);  // Enter alone takes nothing that is not there
  EXPECT_EQ(lines().fitted.size(), 1u);
  press("partLine", Qt::Key_Return, Qt::ControlModifier);
  EXPECT_EQ(lines().fitted.size(), 2u);
  EXPECT_EQ(test_.books()->machine(machine)->cost_basis, cents(6'98));
  EXPECT_EQ(test_.session().undo(), std::nullopt);
  EXPECT_EQ(lines().fitted.size(), 1u);
}

TEST_F(BenchTest, APartNobodyKnowsYetIsMadeAndFittedInOneAction) {
  open(test_.logMachine(day(2026, 5, 1), cents(0)));
  type("partLine", "throttle spring");
  press("partLine", Qt::Key_Return, Qt::ControlModifier);
  ASSERT_EQ(lines().fitted.size(), 1u);
  EXPECT_EQ(test_.books()->machine(machine_)->cost_basis, cents(0));
  EXPECT_EQ(test_.session().undo(), std::nullopt);
  EXPECT_FALSE(test_.find("throttle spring").has_value());
}

TEST_F(BenchTest, AStepWithMinutesIsKeptWithItsHoursAsOneAction) {
  open(test_.logMachine(day(2026, 5, 1), cents(0)));
  type("findingStep", "clean the carburettor");
  EXPECT_TRUE(child<QLabel>("findingCare")->text().contains("Fuel"));
  press("findingStep", Qt::Key_Return);
  type("findingOutcome", "runs");
  type("findingMinutes", "25");
  press("findingMinutes", Qt::Key_Return);
  ASSERT_EQ(lines().findings.size(), 1u);
  EXPECT_EQ(lines().findings[0]->outcome, "runs");
  ASSERT_EQ(lines().labour.size(), 1u);
  EXPECT_EQ(lines().labour[0]->minutes.count, 25);
  EXPECT_EQ(lines().labour[0]->work, Work::repair);
  EXPECT_EQ(test_.session().undo(), std::nullopt);
  EXPECT_TRUE(lines().findings.empty());
  EXPECT_TRUE(lines().labour.empty());
}

TEST_F(BenchTest, WhileTheClockRunsTheMinutesOfAStepAreNotLoggedTwice) {
  open(test_.logMachine(day(2026, 5, 1), cents(0)));
  QTest::mouseClick(child<QPushButton>("clockButton"), Qt::LeftButton);
  ASSERT_TRUE(test_.session().clock().has_value());
  type("findingStep", "spark test");
  type("findingOutcome", "no spark");
  type("findingMinutes", "5");
  press("findingMinutes", Qt::Key_Return);
  EXPECT_EQ(lines().findings.size(), 1u);
  EXPECT_TRUE(lines().labour.empty());
  test_.pass(std::chrono::minutes{12});
  type("labourLine", "diag");
  QTest::mouseClick(child<QPushButton>("clockButton"), Qt::LeftButton);
  ASSERT_EQ(lines().labour.size(), 1u);
  EXPECT_EQ(lines().labour[0]->minutes.count, 12);
  EXPECT_EQ(lines().labour[0]->work, Work::diagnose);
}

TEST_F(BenchTest, HoursByHandAreOneLine) {
  open(test_.logMachine(day(2026, 5, 1), cents(0)));
  type("labourLine", "1h20 cle deck scraped");
  press("labourLine", Qt::Key_Return);
  ASSERT_EQ(lines().labour.size(), 1u);
  EXPECT_EQ(lines().labour[0]->minutes.count, 80);
  EXPECT_EQ(lines().labour[0]->note, "deck scraped");
  EXPECT_EQ(lines().labour[0]->date, day(2026, 5, 20));
}

TEST_F(BenchTest, ALineMayBeForAnotherDay) {
  open(test_.logMachine(day(2026, 5, 1), cents(0)));
  type("workDay", "-1");
  type("labourLine", "30m repair");
  press("labourLine", Qt::Key_Return);
  ASSERT_EQ(lines().labour.size(), 1u);
  EXPECT_EQ(lines().labour[0]->date, day(2026, 5, 19));
}

TEST_F(BenchTest, WhatCannotBeReadStaysAndSaysWhy) {
  open(test_.logMachine(day(2026, 5, 1), cents(0)));
  type("materialLine", "degreaser");
  press("materialLine", Qt::Key_Return);
  EXPECT_TRUE(lines().materials.empty());
  EXPECT_EQ(child<QLineEdit>("materialLine")->text(), "degreaser");
  EXPECT_FALSE(child<QLabel>("materialHint")->text().isEmpty());
  type("materialLine", "degreaser 3.50");
  press("materialLine", Qt::Key_Return);
  ASSERT_EQ(lines().materials.size(), 1u);
  EXPECT_EQ(lines().materials[0]->cost, cents(3'50));
}

TEST_F(BenchTest, EnterOpensTheFaultItCameInWithAndAButtonEndsIt) {
  open(test_.logMachine(day(2026, 5, 1), cents(0), MachineKind::push, "will not start"));
  child<QLineEdit>("faultLine")->setFocus();
  press("faultLine", Qt::Key_Return);
  ASSERT_EQ(lines().faults.size(), 1u);
  EXPECT_EQ(lines().faults[0]->symptom, "will not start");
  type("faultCause0", "plug fouled");
  QTest::mouseClick(child<QPushButton>("faultMended0"), Qt::LeftButton);
  EXPECT_EQ(lines().faults[0]->how, FaultEnd::mended);
  EXPECT_EQ(lines().faults[0]->cause, "plug fouled");
}

TEST_F(BenchTest, IfSoldShowsWhatTheBooksSayAndSaysThatSpentMoneyDoesNotCount) {
  open(test_.logMachine(day(2026, 5, 1), cents(20'00)));
  test_.perform(log_labour(*test_.shop(), machine_, day(2026, 5, 2), Minutes{120}, Work::repair, ""));
  type("ifSoldPrice", "100");
  const auto sold = test_.books()->if_sold(machine_, cents(100'00), Money{}, Money{}, day(2026, 5, 20));
  ASSERT_TRUE(sold.has_value());
  EXPECT_EQ(sold->gross_profit, cents(80'00));
  const auto figure = [&](const char* name) {
    for (QLabel* label : child<QWidget>(name)->findChildren<QLabel*>())
      if (label->property("rank") == "figure") return label->text();
    return QString{};
  };
  EXPECT_EQ(figure("ifSoldGross"), "$80.00");
  EXPECT_EQ(figure("ifSoldProfit"), "$80.00");
  EXPECT_EQ(figure("ifSoldPerHour"), "$40.00");
  EXPECT_TRUE(child<QLabel>("alreadyIn")->text().contains("does not count"));
}

TEST_F(BenchTest, ALineOfThePathIsTakenOutWithDelete) {
  open(test_.logMachine(day(2026, 5, 1), cents(0)));
  test_.perform(log_labour(*test_.shop(), machine_, day(2026, 5, 2), Minutes{30}, Work::clean, ""));
  auto* path = child<QListView>("pathList");
  path->setCurrentIndex(path->model()->index(0, 0));
  press("pathList", Qt::Key_Delete);
  EXPECT_TRUE(lines().labour.empty());
  EXPECT_EQ(test_.session().undo(), std::nullopt);
  EXPECT_EQ(lines().labour.size(), 1u);
}

TEST_F(BenchTest, ALineOfThePathIsChangedInPlace) {
  open(test_.logMachine(day(2026, 5, 1), cents(0)));
  test_.perform(log_labour(*test_.shop(), machine_, day(2026, 5, 2), Minutes{30}, Work::clean, ""));
  auto* path = child<QListView>("pathList");
  path->setCurrentIndex(path->model()->index(0, 0));
  press("pathList", Qt::Key_F2);
  type("line.minutes", "45");
  press("line.minutes", Qt::Key_Return);
  ASSERT_EQ(lines().labour.size(), 1u);
  EXPECT_EQ(lines().labour[0]->minutes.count, 45);
  EXPECT_EQ(lines().labour[0]->work, Work::clean);
}

TEST_F(BenchTest, FactsAreChangedInPlaceAsOneAction) {
  open(test_.logMachine(day(2026, 5, 1), cents(0)));
  QTest::mouseClick(child<QPushButton>("editFacts"), Qt::LeftButton);
  type("fact.engine", "160 cc, side valve");
  type("fact.year", "2014");
  press("fact.year", Qt::Key_Return);
  EXPECT_EQ(test_.shop()->find(machine_)->engine, "160 cc, side valve");
  EXPECT_EQ(test_.shop()->find(machine_)->year, 2014);
  EXPECT_EQ(test_.session().undo(), std::nullopt);
  EXPECT_TRUE(test_.shop()->find(machine_)->engine.empty());
}

TEST_F(BenchTest, AMachineThatIsUndoneGivesWayToTheList) {
  open(test_.logMachine(day(2026, 5, 1), cents(0)));
  EXPECT_TRUE(child<QWidget>("benchCard")->isVisible());
  EXPECT_EQ(test_.session().undo(), std::nullopt);
  EXPECT_FALSE(child<QWidget>("benchCard")->isVisible());
}

TEST_F(BenchTest, EveryFieldHasANameForAScreenReader) {
  open(test_.logMachine(day(2026, 5, 1), cents(0), MachineKind::push, "smokes"));
  for (QLineEdit* field : page_->findChildren<QLineEdit*>())
    EXPECT_FALSE(field->accessibleName().isEmpty()) << field->objectName().toStdString();
}

}  // namespace
}  // namespace secondpull::app
