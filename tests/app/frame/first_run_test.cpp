#include "app/frame/first_run.h"

#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>
#include <gtest/gtest.h>

namespace secondpull::app::test {
namespace {

constexpr int kImportMs = 60000;

class FirstRunOf : public ::testing::Test {
 protected:
  FirstRunOf() { page.show(); }
  QTemporaryDir home;
  FirstRun page{home.path().toStdString(),
                [] { return db::Instant{std::chrono::sys_days{std::chrono::year{2026} / 5 / 4}}; }};
  QSignalSpy ready{&page, &FirstRun::ready};
};

TEST_F(FirstRunOf, MakesAnEmptyShopWithItsNameHourValueAndHoursAWeek) {
  page.findChild<QPushButton*>("startNew")->click();
  page.findChild<QLineEdit*>("shopName")->setText("Wendle Garage");
  auto* value = page.findChild<QLineEdit*>("hourValue");
  value->setText("18");
  page.findChild<QLineEdit*>("hoursAWeek")->setText("7.5");
  QTest::keyClick(value, Qt::Key_Return);
  ASSERT_EQ(ready.count(), 1);
  EXPECT_TRUE(ready.front().front().toBool());
  const auto store = page.takeStore();
  ASSERT_TRUE(store);
  EXPECT_EQ(store->shop()->settings.name, "Wendle Garage");
  EXPECT_EQ(store->shop()->settings.hour_value, Money::from_minor(1800));
  EXPECT_EQ(store->shop()->settings.hours_a_week, Tenths{75});
  EXPECT_TRUE(store->shop()->empty());
  EXPECT_FALSE(page.takeStore());
}

TEST_F(FirstRunOf, KeepsAskingWhenTheHourValueIsNoAmount) {
  page.startNew();
  auto* value = page.findChild<QLineEdit*>("hourValue");
  value->setText("lots");
  QTest::keyClick(value, Qt::Key_Return);
  EXPECT_EQ(ready.count(), 0);
  EXPECT_TRUE(page.findChild<QLabel*>("problem")->isVisible());
}

TEST_F(FirstRunOf, MakesTheDemoShopOffTheWindowsThread) {
  page.lookAtDemo();
  EXPECT_TRUE(page.findChild<QPushButton*>("giveUp")->isVisible());
  ASSERT_TRUE(ready.wait(kImportMs)) << page.findChild<QLabel*>("problem")->text().toStdString();
  const auto store = page.takeStore();
  ASSERT_TRUE(store);
  EXPECT_FALSE(store->shop()->all<Machine>().empty());
}

TEST_F(FirstRunOf, TellsEveryErrorOfAFolderAndLeavesNothingBehind) {
  QTemporaryDir folder;
  QFile shop{folder.filePath("shop.csv")};
  ASSERT_TRUE(shop.open(QIODevice::WriteOnly));
  shop.write("name,currency\nWendle,USD\n");
  shop.close();
  QFile people{folder.filePath("people.csv")};
  ASSERT_TRUE(people.open(QIODevice::WriteOnly));
  people.write("person,name,shoe_size\nP1,Ruel,44\n");
  people.close();
  page.importFolder(folder.path().toStdString());
  auto* errors = page.findChild<QPlainTextEdit*>("importErrors");
  ASSERT_TRUE(QTest::qWaitFor([&] { return errors->isVisible(); }, kImportMs));
  EXPECT_TRUE(errors->toPlainText().contains("people.csv"));
  EXPECT_EQ(ready.count(), 0);
  EXPECT_TRUE(QDir{home.path()}.isEmpty());
}

TEST_F(FirstRunOf, MakesAShopOfABackupOrSaysWhyNot) {
  const QTemporaryDir kept;
  const std::filesystem::path folder = kept.filePath("shop").toStdString();
  const std::filesystem::path file = kept.filePath("shop.tar.gz").toStdString();
  {
    Settings settings;
    settings.name = "Wendle Garage";
    const auto store = db::Store::create(folder, settings, db::Instant{});
    ASSERT_TRUE(store);
    ASSERT_TRUE(store->backup_to(file));
  }
  page.restoreFile(file);
  ASSERT_TRUE(ready.wait(kImportMs)) << page.findChild<QLabel*>("problem")->text().toStdString();
  EXPECT_FALSE(ready.front().front().toBool());
  const auto store = page.takeStore();
  ASSERT_TRUE(store);
  EXPECT_EQ(store->shop()->settings.name, "Wendle Garage");
  EXPECT_NE(store->folder(), folder);

  page.restoreFile(kept.filePath("nothing.tar.gz").toStdString());
  auto* problem = page.findChild<QLabel*>("problem");
  ASSERT_TRUE(QTest::qWaitFor([&] { return problem->isVisible(); }, kImportMs));
  EXPECT_TRUE(problem->text().contains("nothing.tar.gz"));
}

}  // namespace
}  // namespace secondpull::app::test
