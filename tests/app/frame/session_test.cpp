#include "app/frame/session.h"

#include <QSignalSpy>

#include "core/shop/bench.h"
#include "tests/app/shop_for_test.h"

namespace secondpull::app::test {
namespace {

using std::chrono::minutes;

TEST(Session, PerformsAnActionSaysItAndCanTakeItBack) {
  ShopForTest shop;
  QSignalSpy said(shop.session.get(), &Session::said);
  QSignalSpy changed(shop.session.get(), &Session::changed);
  const MachineId machine = shop.logMachine("Tarnwick", "21");
  EXPECT_EQ(changed.count(), 1);
  EXPECT_EQ(said.back().front().toString(), "Logged #1. Ctrl+Z takes it back.");
  ASSERT_NE(shop.session->shop()->find(machine), nullptr);
  EXPECT_FALSE(shop.session->undo());
  EXPECT_EQ(shop.session->shop()->find(machine), nullptr);
  EXPECT_FALSE(shop.session->redo());
  EXPECT_NE(shop.session->shop()->find(machine), nullptr);
}

TEST(Session, ChangesNothingWhenAnActionIsRefused) {
  ShopForTest shop;
  const auto before = shop.session->shop();
  const auto wrong = shop.session->perform(problem("No such machine.", "machine", "7"));
  ASSERT_TRUE(wrong);
  EXPECT_EQ(wrong->sentence, "No such machine.");
  EXPECT_TRUE(shop.session->shop()->same_records(*before));
  EXPECT_TRUE(shop.session->history().empty());
}

TEST(Session, HasNothingToTakeBackInANewShop) {
  ShopForTest shop;
  EXPECT_TRUE(shop.session->undo());
  EXPECT_TRUE(shop.session->redo());
}

TEST(Session, MakesTheBooksOnceForEachStateOfTheRecords) {
  ShopForTest shop;
  const MachineId machine = shop.logMachine("Tarnwick", "21");
  const auto books = shop.session->books();
  EXPECT_EQ(shop.session->books(), books);
  EXPECT_NE(books->machine(machine), nullptr);
  shop.logMachine("Oldbarrow", "19");
  EXPECT_NE(shop.session->books(), books);
  EXPECT_EQ(shop.session->books()->machines().size(), 2u);
}

TEST(Session, LogsTheMinutesOfTheClockAsOneActionOnTheDayItStarted) {
  ShopForTest shop;
  const MachineId machine = shop.logMachine("Tarnwick", "21");
  EXPECT_FALSE(shop.session->startClock(machine));
  EXPECT_EQ(shop.session->inHand().front(), machine);
  shop.now += minutes{42};
  EXPECT_EQ(shop.session->clockMinutes(), Minutes{42});
  EXPECT_FALSE(shop.session->stopClock(Work::repair));
  EXPECT_FALSE(shop.session->clock());
  const Labour& labour = *shop.session->shop()->all<Labour>().begin();
  EXPECT_EQ(labour.machine, machine);
  EXPECT_EQ(labour.minutes, Minutes{42});
  EXPECT_EQ(labour.work, Work::repair);
  EXPECT_FALSE(shop.session->undo());
  EXPECT_TRUE(shop.session->shop()->all<Labour>().empty());
}

TEST(Session, LogsAtLeastOneMinuteAndOtherMinutesIfTold) {
  ShopForTest shop;
  const MachineId machine = shop.logMachine("Tarnwick", "21");
  EXPECT_FALSE(shop.session->startClock(machine));
  EXPECT_FALSE(shop.session->stopClock(Work::clean));
  EXPECT_EQ(shop.session->shop()->all<Labour>().begin()->minutes, Minutes{1});
  EXPECT_FALSE(shop.session->startClock(machine));
  shop.now += minutes{600};
  EXPECT_FALSE(shop.session->stopClock(Work::clean, Minutes{90}));
  EXPECT_EQ(std::prev(shop.session->shop()->all<Labour>().end())->minutes, Minutes{90});
}

TEST(Session, RunsOneClockAtATimeAndKeepsItOverARestart) {
  ShopForTest shop;
  const MachineId one = shop.logMachine("Tarnwick", "21"), two = shop.logMachine("Oldbarrow", "19");
  EXPECT_FALSE(shop.session->startClock(one));
  EXPECT_TRUE(shop.session->startClock(two));
  shop.now += minutes{5};
  shop.reopen();
  ASSERT_TRUE(shop.session->clock());
  EXPECT_EQ(shop.session->clock()->machine, one);
  EXPECT_EQ(shop.session->clockMinutes(), Minutes{5});
  shop.session->discardClock();
  EXPECT_FALSE(shop.session->clock());
  EXPECT_TRUE(shop.session->shop()->all<Labour>().empty());
}

TEST(Session, KeepsDraftsPreferencesAndMachinesInHandOverARestart) {
  ShopForTest shop;
  const MachineId one = shop.logMachine("Tarnwick", "21"), two = shop.logMachine("Oldbarrow", "19");
  shop.session->saveDraft("yard.log-machine", "half a word");
  shop.session->setPreference("table.yard", "{}");
  shop.session->takeInHand(one);
  shop.session->takeInHand(two);
  shop.reopen();
  EXPECT_EQ(shop.session->draft("yard.log-machine"), "half a word");
  EXPECT_EQ(shop.session->preference("table.yard"), "{}");
  EXPECT_EQ(shop.session->preference("table.other", "none"), "none");
  EXPECT_EQ(shop.session->inHand(), (std::vector<MachineId>{two, one}));
  shop.session->dropDraft("yard.log-machine");
  shop.reopen();
  EXPECT_FALSE(shop.session->draft("yard.log-machine"));
}

TEST(Session, HoldsAtMostSixMachinesInHandTheNewestFirst) {
  ShopForTest shop;
  std::vector<MachineId> machines;
  for (int i = 0; i < 8; ++i)
    machines.push_back(shop.logMachine("Tarnwick", std::to_string(i)));
  for (const MachineId machine : machines)
    shop.session->takeInHand(machine);
  EXPECT_EQ(shop.session->inHand().size(), 6u);
  EXPECT_EQ(shop.session->inHand().front(), machines.back());
  EXPECT_FALSE(shop.session->undo());  // the last machine is gone, and from the hand too
  EXPECT_EQ(shop.session->inHand().front(), machines[6]);
}

TEST(Session, ShowsValuesAsThisShopDoes) {
  ShopForTest shop;
  const MachineId machine = shop.logMachine("Tarnwick", "21");
  EXPECT_EQ(shop.session->money(Money::from_minor(-320)), QString{QChar{0x2212}} + "$3.20");
  EXPECT_EQ(shop.session->money(std::optional<Money>{}), QString{QChar{0x2014}});
  EXPECT_EQ(shop.session->tagOf(machine), "1");
  EXPECT_EQ(shop.session->nameOf(machine), "Tarnwick 21 push mower");
  EXPECT_EQ(shop.session->nameOf(MachineId{99}), "");
}

TEST(Session, ChangesSettingsWithoutAnEntryInTheHistory) {
  ShopForTest shop;
  Settings settings = shop.session->shop()->settings;
  settings.hour_value = Money::from_minor(1800);
  EXPECT_FALSE(shop.session->setSettings(settings));
  EXPECT_EQ(shop.session->shop()->settings.hour_value, Money::from_minor(1800));
  EXPECT_TRUE(shop.session->history().empty());
}

}  // namespace
}  // namespace secondpull::app::test
