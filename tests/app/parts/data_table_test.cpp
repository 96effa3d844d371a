#include "app/parts/data_table.h"

#include <QAbstractItemModelTester>
#include <QApplication>
#include <QClipboard>
#include <QHeaderView>
#include <QSignalSpy>
#include <QTest>

#include "tests/app/shop_for_test.h"

namespace secondpull::app::test {
namespace {

struct Row {
  QString tag, name;
  std::optional<int> price;
};

std::vector<TableColumn<Row>> columns() {
  return {
      {.key = "tag", .title = "Tag", .text = [](const Row& row) { return row.tag; }},
      {.key = "name", .title = "Name", .text = [](const Row& row) { return row.name; }},
      {.key = "price",
       .title = "Price",
       .text = [](const Row& row) { return row.price ? QString{"$%1"}.arg(*row.price) : QString{"—"}; },
       .sort = [](const Row& row) { return row.price ? QVariant{*row.price} : QVariant{}; },
       .number = true},
      {.key = "hidden", .title = "Hidden", .text = [](const Row&) { return QString{"x"}; }, .shown = false},
  };
}

std::vector<Row> rows() {
  return {{"10", "Tarnwick rider", 95}, {"2", "Oldbarrow push", std::nullopt}, {"1", "Tarnwick push", 160}};
}

QStringList shownTags(const DataTable& table) {
  QStringList tags;
  for (int row = 0; row < table.model()->rowCount(); ++row)
    tags.append(table.model()->index(row, 0).data().toString());
  return tags;
}

class DataTableOf : public ::testing::Test {
 protected:
  DataTableOf() {
    model.setRows(rows());
    table = std::make_unique<DataTable>(*shop.session, "test");
    table->setRowModel(&model);
    table->resize(600, 300);
    table->show();
  }
  ShopForTest shop;
  RowModel<Row> model{columns()};
  std::unique_ptr<DataTable> table;
};

TEST_F(DataTableOf, HasAModelThatKeepsTheRulesOfModels) {
  const QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);
  const QAbstractItemModelTester sieve(table->model(), QAbstractItemModelTester::FailureReportingMode::Fatal);
  model.setRows({});
  model.setRows(rows());
  table->setFilterText("push");
}

TEST_F(DataTableOf, SortsNumbersAsNumbersAndTagsAsPeopleCount) {
  table->sortBy("tag", Qt::AscendingOrder);
  EXPECT_EQ(shownTags(*table), (QStringList{"1", "2", "10"}));
}

TEST_F(DataTableOf, PutsWhatIsNotKnownLastWhicheverWayItIsSorted) {
  table->sortBy("price", Qt::AscendingOrder);
  EXPECT_EQ(shownTags(*table), (QStringList{"10", "1", "2"}));
  table->sortBy("price", Qt::DescendingOrder);
  EXPECT_EQ(shownTags(*table), (QStringList{"1", "10", "2"}));
}

TEST_F(DataTableOf, ShowsTheRowsThatHoldEveryTypedWord) {
  table->setFilterText("PUSH tarn");
  EXPECT_EQ(shownTags(*table), QStringList{"1"});
  table->setFilterText("");
  EXPECT_EQ(table->shownRows(), 3);
  table->setRowFilter([](int row) { return row != 0; });
  EXPECT_EQ(table->shownRows(), 2);
}

TEST_F(DataTableOf, FindsChangedTextAfterNewRows) {
  table->setFilterText("rider");
  EXPECT_EQ(table->shownRows(), 1);
  model.setRows({{"3", "Oldbarrow push", 10}});
  EXPECT_EQ(table->shownRows(), 0);
}

TEST_F(DataTableOf, CopiesTheSelectionAsTabbedText) {
  table->sortBy("tag", Qt::AscendingOrder);
  table->selectSourceRow(2);
  QTest::keyClick(table.get(), Qt::Key_C, Qt::ControlModifier);
  EXPECT_EQ(QApplication::clipboard()->text(), "1\tTarnwick push\t$160");
}

TEST_F(DataTableOf, OpensTheRowThatEnterIsPressedOn) {
  QSignalSpy opened(table.get(), &DataTable::opened);
  table->sortBy("tag", Qt::AscendingOrder);
  table->selectSourceRow(0);
  QTest::keyClick(table.get(), Qt::Key_Return);
  ASSERT_EQ(opened.count(), 1);
  EXPECT_EQ(opened.front().front().toInt(), 0);
}

TEST_F(DataTableOf, RemembersColumnsWidthsAndSortingOverARestart) {
  table->horizontalHeader()->moveSection(0, 1);
  table->horizontalHeader()->resizeSection(1, 222);
  table->setColumnHidden(2, true);
  table->horizontalHeader()->setSortIndicator(1, Qt::DescendingOrder);
  table->hide();  // what is to be remembered is kept now
  table.reset();
  shop.reopen();
  DataTable again(*shop.session, "test");
  again.setRowModel(&model);
  EXPECT_EQ(again.horizontalHeader()->visualIndex(0), 1);
  EXPECT_EQ(again.columnWidth(1), 222);
  EXPECT_TRUE(again.isColumnHidden(2));
  again.sortBy("tag", Qt::AscendingOrder);  // the person's own sorting goes before the page's
  EXPECT_EQ(again.horizontalHeader()->sortIndicatorSection(), 1);
}

TEST_F(DataTableOf, HidesWhatIsNotShownUntilChosen) {
  EXPECT_TRUE(table->isColumnHidden(3));
}

}  // namespace
}  // namespace secondpull::app::test
