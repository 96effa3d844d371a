#include "app/parts/choices.h"

#include <QSignalSpy>
#include <QTest>

#include "tests/app/shop_for_test.h"

namespace secondpull::app::test {
namespace {

TEST(WordRow, IsChosenFromByArrowLetterAndNumber) {
  WordRow row("source", {"curb", "dump", "gift", "dealer"});
  EXPECT_EQ(row.current(), 0);
  QTest::keyClick(&row, Qt::Key_Right);
  EXPECT_EQ(row.current(), 1);
  QTest::keyClicks(&row, "g");
  EXPECT_EQ(row.current(), 2);
  QTest::keyClicks(&row, "d");
  EXPECT_EQ(row.current(), 3);
  QTest::keyClicks(&row, "d");
  EXPECT_EQ(row.current(), 1);
  QTest::keyClick(&row, Qt::Key_1);
  EXPECT_EQ(row.current(), 0);
  QTest::keyClick(&row, Qt::Key_Left);
  EXPECT_EQ(row.current(), 3);
}

TEST(WordRow, TellsOnlyWhatThePersonChose) {
  WordRow row("source", {"curb", "dump"});
  QSignalSpy chosen(&row, &WordRow::chosen);
  row.setCurrent(1);
  EXPECT_EQ(chosen.count(), 0);
  QTest::keyClick(&row, Qt::Key_Right);
  EXPECT_EQ(chosen.count(), 1);
}

TEST(RecordPicker, FindsAMachineByItsTagTypedOrScanned) {
  ShopForTest shop;
  const MachineId machine = shop.logMachine("Tarnwick", "21");
  RecordPicker picker(*shop.session, RecordPicker::Of::machine_here, "machine");
  for (const char* typed : {"1", "#1"}) {
    picker.setText(typed);
    EXPECT_EQ(picker.picked<MachineId>(), machine) << typed;
    EXPECT_FALSE(picker.isNew());
  }
  picker.setText("77");
  EXPECT_FALSE(picker.picked<MachineId>());
  EXPECT_TRUE(picker.isNew());
}

TEST(RecordPicker, KnowsWhatWasAddedAfterIt) {
  ShopForTest shop;
  RecordPicker picker(*shop.session, RecordPicker::Of::machine_any, "machine");
  picker.setText("#1");
  EXPECT_TRUE(picker.isNew());
  const MachineId machine = shop.logMachine("Tarnwick", "21");
  EXPECT_EQ(picker.picked<MachineId>(), machine);
}

}  // namespace
}  // namespace secondpull::app::test
