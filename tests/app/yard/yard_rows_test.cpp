#include "app/yard/yard_rows.h"

#include <algorithm>

#include <QAbstractItemModelTester>
#include <gtest/gtest.h>

#include "core/shop/bench.h"
#include "core/shop/offers.h"
#include "tests/app/yard/yard_shop.h"

namespace secondpull::app {
namespace {

TEST(YardRows, SayWhatEachMachineCostAndHowLongItHasBeenHere) {
  YardShop shop;
  const MachineId machine = shop.log("Tarnwick", plus_days(YardShop::today(), -12), 20);
  shop.perform(log_labour(*shop.shop(), machine, YardShop::today(), {80}, Work::repair, ""));
  shop.perform(add_material(*shop.shop(), machine, YardShop::today(), "oil", Money::from_minor(475)));
  shop.perform(list_machine(*shop.shop(), machine, YardShop::today(), "", Money::from_minor(16000), {}));
  const auto rows = yardRows(shop.session());
  ASSERT_EQ(rows.size(), 1u);
  EXPECT_EQ(rows[0].tag, "1");
  EXPECT_EQ(rows[0].what, "Tarnwick 21 push mower");
  EXPECT_EQ(rows[0].days, 12);
  EXPECT_EQ(rows[0].money_in, Money::from_minor(2475));
  EXPECT_EQ(rows[0].minutes, Minutes{80});
  EXPECT_EQ(rows[0].asking, Money::from_minor(16000));
  EXPECT_EQ(rows[0].stage, Stage::for_sale);
}

TEST(YardRows, StandInOneOfTheWordsOrAreGone) {
  YardShop shop;
  const MachineId sold = shop.log("Tarnwick", YardShop::today(), 20);
  shop.log("Orrel", YardShop::today(), 0);
  shop.perform(
      sell(*shop.shop(), {.machine = sold, .date = YardShop::today(), .price = Money::from_minor(9000)}));
  for (const YardRow& row : yardRows(shop.session())) {
    EXPECT_NE(isIn(YardGroup::all_here, row), isIn(YardGroup::gone, row));
    const auto places = std::count_if(kYardGroups.begin() + 1, kYardGroups.end(),
                                      [&](YardGroup group) { return isIn(group, row); });
    EXPECT_EQ(places, 1) << row.tag.toStdString();
  }
}

TEST(YardColumns, KeepToTheRulesOfModelsAndAlignNumbersRight) {
  YardShop shop;
  shop.log("Tarnwick", YardShop::today(), 20);
  RowModel<YardRow> model{yardColumns(shop.session())};
  QAbstractItemModelTester tester{&model, QAbstractItemModelTester::FailureReportingMode::Fatal};
  model.setRows(yardRows(shop.session()));
  for (int column = 0; column < model.columnCount(); ++column)
    if (model.headerData(column, Qt::Horizontal, RowModelBase::KeyRole) == "money_in") {
      EXPECT_EQ(model.index(0, column).data().toString(), "$20.00");
      EXPECT_TRUE(model.index(0, column).data(Qt::TextAlignmentRole).value<Qt::Alignment>() & Qt::AlignRight);
    }
}

TEST(TodayLines, NameWhoComesForWhichMachine) {
  YardShop shop;
  const MachineId machine = shop.log("Tarnwick", plus_days(YardShop::today(), -5), 20);
  shop.perform(record_offer(*shop.shop(), {.machine = machine,
                                           .date = YardShop::today(),
                                           .amount = Money::from_minor(15000),
                                           .who = "Ruel <Astby>",
                                           .comes = plus_days(YardShop::today(), 1)}));
  const QString lines = todayLines(shop.session()).join('\n');
  EXPECT_TRUE(lines.contains("Ruel &lt;Astby&gt; comes tomorrow for")) << lines.toStdString();
  EXPECT_TRUE(lines.contains("#1</a>")) << lines.toStdString();
}

TEST(TodayLines, NamePartsUnderWayAndHoursOfThisWeek) {
  YardShop shop;
  const MachineId machine = shop.log("Tarnwick", plus_days(YardShop::today(), -5), 20);
  NewOrder order{.date = YardShop::today()};
  order.lines.push_back({.part = {.new_name = "carburettor"}, .quantity = 2, .for_machine = machine});
  shop.perform(place_order(*shop.shop(), order));
  // 20 May 2026 is a Wednesday: Monday's hours count, Sunday's do not.
  shop.perform(log_labour(*shop.shop(), machine, plus_days(YardShop::today(), -2), {50}, Work::repair, ""));
  shop.perform(log_labour(*shop.shop(), machine, plus_days(YardShop::today(), -3), {40}, Work::repair, ""));
  const QString lines = todayLines(shop.session()).join('\n');
  EXPECT_TRUE(lines.contains("2 × carburettor for")) << lines.toStdString();
  EXPECT_TRUE(lines.contains("This week 50 min logged")) << lines.toStdString();
}

}  // namespace
}  // namespace secondpull::app
