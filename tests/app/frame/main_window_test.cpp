#include "app/frame/main_window.h"

#include <QApplication>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPointer>
#include <QPushButton>
#include <QTest>

#include "app/frame/what_now.h"
#include "app/parts/look.h"
#include "core/books/closing.h"
#include "tests/app/shop_for_test.h"

namespace secondpull::app::test {
namespace {

/// A page that only notes what it is asked for.
class NotePage : public Page {
 public:
  NotePage(Session& session, QWidget* parent, QString word) : Page(session, parent), word_{std::move(word)} {
    field = new QLineEdit{this};
    setFocusPolicy(Qt::StrongFocus);
  }
  QString word() const override { return word_; }
  QString iconName() const override { return "note"; }
  QKeySequence key() const override { return {}; }
  void refresh(const std::vector<AnyId>&) override { ++refreshed; }
  void openMachine(MachineId machine) override { opened = machine; }
  void start() override { setFocus(); }
  std::vector<Deed> deeds() override {
    return {{"wave from " + word_, QKeySequence{"F9"}, [this] { ++waved; }}};
  }
  QLineEdit* field;
  std::optional<MachineId> opened;
  int refreshed = 0, waved = 0;

 private:
  QString word_;
};

constexpr PageEntry kPages[] = {
    {"Yard", "Alt+1", false,
     [](Session& s, QWidget* p) -> Page* {
       return new NotePage{s, p, "Yard"};
     }},
    {"Bench", "Alt+2", false,
     [](Session& s, QWidget* p) -> Page* {
       return new NotePage{s, p, "Bench"};
     }},
};

class Window : public ::testing::Test {
 protected:
  Window() { open(); }
  void open() {
    window = std::make_unique<MainWindow>(*shop.session, kPages);
    window->show();
    window->activateWindow();
    EXPECT_TRUE(QTest::qWaitForWindowActive(window.get()));
  }
  void reopen() {
    window.reset();
    shop.reopen();
    open();
  }
  NotePage& page(const char* word) { return static_cast<NotePage&>(*window->page(word)); }
  void key(int key, Qt::KeyboardModifiers modifiers = {}) {
    QWidget* at = QApplication::focusWidget();
    QTest::keyClick(at != nullptr ? at : window.get(), static_cast<Qt::Key>(key), modifiers);
  }
  QLineEdit* field() { return window->findChild<QLineEdit*>("whatNow.field"); }
  QString said() { return window->findChild<WhatNow*>("whatNow")->said(); }
  QWidget* ask() { return window->findChild<QWidget*>("ask"); }
  QPushButton* answer(const QString& words) { return ask()->findChild<QPushButton*>("ask." + words); }

  ShopForTest shop;
  std::unique_ptr<MainWindow> window;
};

TEST_F(Window, TurnsToAScreenByItsKey) {
  EXPECT_EQ(window->currentWord(), "Yard");
  key(Qt::Key_2, Qt::AltModifier);
  EXPECT_EQ(window->currentWord(), "Bench");
  key(Qt::Key_H, Qt::ControlModifier);
  EXPECT_EQ(window->currentWord(), "History");
}

TEST_F(Window, OpensAMachineTypedIntoWhatNow) {
  const MachineId machine = shop.logMachine("Tarnwick", "21");
  key(Qt::Key_K, Qt::ControlModifier);
  ASSERT_EQ(QApplication::focusWidget(), field());
  QTest::keyClicks(field(), "#1");
  EXPECT_TRUE(window->findChild<QListWidget*>("whatNow.list")->isVisible());
  key(Qt::Key_Return);
  EXPECT_EQ(window->currentWord(), "Bench");
  EXPECT_EQ(page("Bench").opened, machine);
  EXPECT_EQ(shop.session->inHand().front(), machine);
  EXPECT_TRUE(field()->text().isEmpty());
}

TEST_F(Window, ReachesWhatNowWithASlashUnlessOneIsTyping) {
  key(Qt::Key_Slash);
  EXPECT_EQ(QApplication::focusWidget(), field());
  key(Qt::Key_Escape);
  EXPECT_EQ(QApplication::focusWidget(), &page("Yard"));
  page("Yard").field->setFocus();
  QTest::keyClicks(page("Yard").field, "3/5");
  EXPECT_EQ(page("Yard").field->text(), "3/5");
  key(Qt::Key_K, Qt::ControlModifier);
  EXPECT_EQ(QApplication::focusWidget(), field());
}

TEST_F(Window, DoesTheDeedsOfTheShownPageByTheirKeyAndOfAnyPageByTheirWords) {
  key(Qt::Key_F9);
  EXPECT_EQ(page("Yard").waved, 1);
  EXPECT_EQ(page("Bench").waved, 0);
  key(Qt::Key_K, Qt::ControlModifier);
  QTest::keyClicks(field(), "wave bench");
  key(Qt::Key_Return);
  EXPECT_EQ(page("Bench").waved, 1);
  EXPECT_EQ(window->currentWord(), "Bench");
}

TEST_F(Window, MakesThePagesAnewForAnotherSizeOfTextButNotForAnotherTheme) {
  const QPointer<Page> before = window->page("Yard");
  setTheme(*qApp, Theme::dark);
  QCoreApplication::processEvents();
  EXPECT_EQ(window->page("Yard"), before);
  setTextPoints(20);
  setTheme(*qApp, Theme::light);
  QCoreApplication::processEvents();
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  EXPECT_TRUE(before.isNull());
  EXPECT_EQ(window->currentWord(), "Yard");
  setTextPoints(0);
  setTheme(*qApp, Theme::light);
}

TEST_F(Window, OpensSettingsAndHistoryByAClickOnTheWire) {
  QTest::mouseClick(window->findChild<QAbstractButton*>("wire.Settings"), Qt::LeftButton);
  EXPECT_EQ(window->currentWord(), "Settings");
  QTest::mouseClick(window->findChild<QAbstractButton*>("wire.History"), Qt::LeftButton);
  EXPECT_EQ(window->currentWord(), "History");
}

TEST_F(Window, BacksUpByItsWords) {
  key(Qt::Key_K, Qt::ControlModifier);
  QTest::keyClicks(field(), "back up now");
  key(Qt::Key_Return);
  EXPECT_EQ(window->currentWord(), "Settings");
  EXPECT_TRUE(QTest::qWaitFor([&] { return said().startsWith("Backed up to "); }, 60000));
}

TEST_F(Window, SaysWhatWasDoneAndTakesItBackWithOneKey) {
  shop.logMachine("Tarnwick", "21");
  EXPECT_EQ(said(), "Logged #1. Ctrl+Z takes it back.");
  key(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_TRUE(shop.session->shop()->all<Machine>().empty());
  key(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_EQ(shop.session->shop()->all<Machine>().size(), 1u);
}

TEST_F(Window, LeavesUndoToAFieldThatIsBeingEdited) {
  shop.logMachine("Tarnwick", "21");
  QLineEdit* typed = page("Yard").field;
  typed->setFocus();
  QTest::keyClicks(typed, "abc");
  key(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(typed->text(), "");
  EXPECT_EQ(shop.session->shop()->all<Machine>().size(), 1u);
  key(Qt::Key_Z, Qt::ControlModifier);  // the field has nothing left of its own
  EXPECT_TRUE(shop.session->shop()->all<Machine>().empty());
}

TEST_F(Window, AsksInPlaceBeforeTakingBackWhatAnEarlierSittingDid) {
  shop.logMachine("Tarnwick", "21");
  reopen();
  key(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(shop.session->shop()->all<Machine>().size(), 1u);
  ASSERT_TRUE(ask()->isVisible());
  EXPECT_TRUE(ask()->findChild<QLabel*>("ask.sentence")->text().contains("Logged #1"));
  key(Qt::Key_Escape);
  EXPECT_FALSE(ask()->isVisible());
  EXPECT_EQ(shop.session->shop()->all<Machine>().size(), 1u);
  key(Qt::Key_Z, Qt::ControlModifier);
  key(Qt::Key_Return);
  EXPECT_TRUE(shop.session->shop()->all<Machine>().empty());
}

TEST_F(Window, SaysSoWhenThereIsNothingToTakeBack) {
  key(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(said(), "There is nothing to take back.");
}

TEST_F(Window, StartsAndStopsTheClockWithOneKey) {
  shop.session->takeInHand(shop.logMachine("Tarnwick", "21"));
  key(Qt::Key_T, Qt::ControlModifier);
  ASSERT_TRUE(shop.session->clock());
  shop.now += std::chrono::minutes{30};
  key(Qt::Key_Plus, Qt::KeypadModifier);
  EXPECT_FALSE(shop.session->clock());
  EXPECT_EQ(shop.session->shop()->all<Labour>().begin()->minutes, Minutes{30});
  EXPECT_EQ(shop.session->shop()->all<Labour>().begin()->work, Work::diagnose);
}

TEST_F(Window, SaysThatTheClockNeedsAMachine) {
  key(Qt::Key_T, Qt::ControlModifier);
  EXPECT_TRUE(said().contains("needs a machine"));
}

TEST_F(Window, AsksOnReturnAboutAClockThatRanPastTwoHours) {
  const MachineId machine = shop.logMachine("Tarnwick", "21");
  EXPECT_FALSE(shop.session->startClock(machine));
  shop.now += std::chrono::minutes{121};
  reopen();
  QCoreApplication::processEvents();
  ASSERT_TRUE(ask()->isVisible());
  QTest::mouseClick(answer("Cut to what stands here"), Qt::LeftButton);
  EXPECT_FALSE(shop.session->clock());
  EXPECT_EQ(shop.session->shop()->all<Labour>().begin()->minutes, Minutes{120});
}

TEST_F(Window, DoesNotAskAboutAClockOfTwoHours) {
  const MachineId machine = shop.logMachine("Tarnwick", "21");
  EXPECT_FALSE(shop.session->startClock(machine));
  shop.now += std::chrono::minutes{120};
  reopen();
  QCoreApplication::processEvents();
  EXPECT_FALSE(ask()->isVisible());
}

TEST_F(Window, TellsEveryPageThatHasBeenMadeWhatChanged) {
  page("Bench");
  const int before = page("Bench").refreshed;
  shop.logMachine("Tarnwick", "21");
  EXPECT_EQ(page("Bench").refreshed, before + 1);
  EXPECT_EQ(page("Yard").refreshed, before + 1);
}

TEST_F(Window, AsksBeforeTakingBackOpensAClosedYear) {
  shop.logMachine("Tarnwick", "21");
  const int year = year_of(shop.session->today());
  const Date last = std::chrono::year{year} / std::chrono::December / 31;
  ASSERT_FALSE(
      shop.session->perform(close_year(*shop.session->books(), shop.session->taxRates(), year, last)));
  key(Qt::Key_Z, Qt::ControlModifier);
  ASSERT_TRUE(ask()->isVisible());
  EXPECT_TRUE(ask()->findChild<QLabel*>("ask.sentence")->text().contains(QString::number(year)));
  EXPECT_EQ(shop.session->shop()->all<ClosedYear>().size(), 1u);
  QTest::mouseClick(answer(QString{"Open %1 again"}.arg(year)), Qt::LeftButton);
  EXPECT_TRUE(shop.session->shop()->all<ClosedYear>().empty());
}

}  // namespace
}  // namespace secondpull::app::test
