#include "app/books/books_page.h"

#include <QAbstractScrollArea>
#include <QLineEdit>
#include <QPushButton>
#include <QTest>
#include <gtest/gtest.h>

#include "app/books/earning_rows.h"
#include "app/books/money_bars.h"
#include "app/frame/page.h"
#include "app/parts/choices.h"
#include "app/parts/data_table.h"
#include "tests/app/sale/trading_shop.h"

namespace secondpull::app::test {
namespace {

/// Four machines sold over two months, one of them at a loss, one scrapped, one kept, one still here.
class BooksPageTest : public ::testing::Test {
 protected:
  BooksPageTest() {
    const auto buy = [this](unsigned month, std::int64_t price, MachineKind kind, Source source,
                            const char* make) {
      return shop.buy(day(2026, month, 2), cents(price), kind, source, make);
    };
    sold.push_back(buy(3, 4000, MachineKind::push, Source::private_sale, "Tarnwick"));
    sold.push_back(buy(3, 12050, MachineKind::self_propelled, Source::auction, "Ostrel"));
    sold.push_back(buy(3, 0, MachineKind::push, Source::curb, "Tarnwick"));
    sold.push_back(buy(4, 3333, MachineKind::push, Source::curb, ""));
    scrapped = buy(4, 500, MachineKind::trimmer, Source::dump, "Fennimoor");
    kept = buy(4, 700, MachineKind::blower, Source::curb, "Ostrel");
    here = buy(5, 900, MachineKind::push, Source::curb, "Ostrel");
    for (const MachineId machine : sold)
      shop.mend(machine, day(2026, 4, 5));
    shop.sell(sold[0], day(2026, 4, 10), cents(18500), "Ruel");
    shop.sell(sold[1], day(2026, 4, 12), cents(9000), "Imre");
    shop.sell(sold[2], day(2026, 5, 4), cents(7500), "Ruel");
    shop.sell(sold[3], day(2026, 5, 6), cents(14999), "Odette");
    shop.perform(dispose(*shop.shop(), scrapped, day(2026, 5, 7), DisposalKind::scrapped, cents(420)));
    shop.perform(dispose(*shop.shop(), kept, day(2026, 5, 8), DisposalKind::kept, Money{}));
    shop.spend(day(2026, 2, 1), cents(5999));
  }
  Page& show() {
    if (!page) {
      page.reset(makeBooksPage(shop.session(), nullptr));
      QObject::connect(&shop.session(), &Session::changed, page.get(), &Page::refresh);
      page->resize(1280, 700);
      page->refresh({});
      page->show();
      (void)QTest::qWaitForWindowExposed(page.get());
    }
    return *page;
  }
  DataTable& table() { return child<DataTable>(show(), "booksTable"); }
  MoneyBars& bars() { return child<MoneyBars>(show(), "booksBars"); }
  MoneyBars& steps() { return child<MoneyBars>(show(), "booksWaterfall"); }
  void groupBy(int index) {
    auto& row = child<WordRow>(show(), "booksGroupBy");
    row.setCurrent(index);
    emit row.chosen(index);
  }
  Money sumOfProfits() {
    Money sum;
    for (const MachineFigures& machine : shop.books()->machines())
      if (machine.profit) sum += *machine.profit;
    return sum;
  }

  TradingShop shop;
  std::vector<MachineId> sold;
  MachineId scrapped{}, kept{}, here{};
  std::unique_ptr<Page> page;
};

TEST_F(BooksPageTest, ListsEveryMachineThatIsGoneTheLastFirst) {
  const std::vector<EarningRow> rows = earningRows(shop.session());
  std::vector<MachineId> order;
  for (const EarningRow& row : rows)
    order.push_back(row.figures.machine);
  EXPECT_EQ(order, (std::vector<MachineId>{kept, scrapped, sold[3], sold[2], sold[1], sold[0]}));
  EXPECT_EQ(rows[0].figures.profit, std::nullopt);
  EXPECT_EQ(rows[1].left, day(2026, 5, 7));
}

TEST_F(BooksPageTest, TotalsAreTheSumsOfTheMachines) {
  Minutes minutes;
  for (const MachineFigures& machine : shop.books()->machines())
    if (machine.profit) minutes += machine.minutes;
  EXPECT_EQ(figureOf(show(), "booksTotalProfit"), shop.session().money(sumOfProfits()));
  EXPECT_EQ(figureOf(show(), "booksTotalHours"), QString::fromStdString(shown(minutes)));
  EXPECT_EQ(figureOf(show(), "booksTotalPay"),
            shop.session().money(scale(sumOfProfits(), 60, minutes.count)));
}

TEST_F(BooksPageTest, GroupsHoldEveryMachineOnceAndAddUpToTheWhole) {
  const std::vector<EarningRow> rows = earningRows(shop.session());
  for (const GroupBy by : {GroupBy::kind, GroupBy::source, GroupBy::make, GroupBy::month}) {
    Money profit;
    std::vector<int> members;
    for (const GroupRow& group : grouped(rows, by)) {
      profit += group.earned.profit;
      members.insert(members.end(), group.rows.begin(), group.rows.end());
    }
    std::sort(members.begin(), members.end());
    EXPECT_EQ(profit, sumOfProfits());
    ASSERT_EQ(members.size(), rows.size());
    for (std::size_t at = 0; at < rows.size(); ++at)
      EXPECT_EQ(members[at], static_cast<int>(at));
  }
}

TEST_F(BooksPageTest, GroupsSayWhatTheyShare) {
  const std::vector<EarningRow> rows = earningRows(shop.session());
  const auto keys = [&](GroupBy by) {
    QStringList words;
    for (const GroupRow& group : grouped(rows, by))
      words << group.key;
    return words;
  };
  EXPECT_EQ(keys(GroupBy::month), (QStringList{"April 2026", "May 2026"}));
  EXPECT_EQ(keys(GroupBy::make), (QStringList{"Fennimoor", "Ostrel", "Tarnwick", "no make given"}));
  EXPECT_EQ(keys(GroupBy::source), (QStringList{"auction", "curb", "dump", "private"}));
}

TEST_F(BooksPageTest, TheStepsOfAMachineEndAtItsProfit) {
  show();
  for (const MachineId machine : {sold[0], sold[1], sold[2], sold[3], scrapped}) {
    show().openMachine(machine);
    const std::vector<MoneyBar>& bar = steps().bars();
    ASSERT_GE(bar.size(), 2u);
    EXPECT_EQ(bar.back().name, "profit");
    EXPECT_EQ(bar.back().to, *shop.books()->machine(machine)->profit);
    Money level;
    for (const MoneyBar& each : bar) {
      EXPECT_EQ(each.from, each.kind == MoneyBar::Kind::level ? Money{} : level);
      level = each.to;
    }
    EXPECT_EQ(figureOf(show(), "booksProfit"), shop.session().money(*shop.books()->machine(machine)->profit));
  }
}

TEST_F(BooksPageTest, AMachineKeptHasNoProfitToShow) {
  show().openMachine(kept);
  EXPECT_TRUE(child<QLabel>(show(), "booksNoProfit").isVisible());
  EXPECT_FALSE(steps().isVisible());
}

TEST_F(BooksPageTest, ABarChoosesItsRowAndARowItsBar) {
  show();
  ASSERT_EQ(bars().bars().size(), 5u);  // all but the one kept
  for (int bar = 0; bar < 5; ++bar) {
    QTest::mouseClick(bars().findChild<QAbstractScrollArea*>()->viewport(), Qt::LeftButton, {},
                      bars().rowRect(bar).center().toPoint());
    EXPECT_EQ(bars().current(), bar);
    const int row = table().currentSourceRow();
    ASSERT_GE(row, 0);
    EXPECT_EQ('#' + earningRows(shop.session())[static_cast<std::size_t>(row)].tag,
              bars().bars()[static_cast<std::size_t>(bar)].name);
  }
  table().selectSourceRow(1);
  EXPECT_EQ(bars().current(), 0);
  bars().setFocus();
  QTest::keyClick(&bars(), Qt::Key_Down);
  EXPECT_EQ(table().currentSourceRow(), 2);
}

TEST_F(BooksPageTest, LossesAreHatchedAndSaidWithAMinusSign) {
  show();
  const auto& all = bars().bars();
  const auto loss =
      std::find_if(all.begin(), all.end(), [](const MoneyBar& bar) { return bar.to < Money{}; });
  ASSERT_NE(loss, all.end());
  EXPECT_EQ(loss->kind, MoneyBar::Kind::loss);
  EXPECT_TRUE(loss->amount.startsWith(QChar{0x2212}));
}

TEST_F(BooksPageTest, AGroupOpensIntoItsMachinesAndBack) {
  show();
  groupBy(4);
  auto& groups = child<DataTable>(show(), "booksGroups");
  EXPECT_TRUE(groups.isVisible());
  EXPECT_EQ(bars().bars().size(), 2u);
  EXPECT_EQ(figureOf(show(), "booksTotalProfit"), shop.session().money(sumOfProfits()));
  groups.selectSourceRow(0);  // April 2026
  QTest::keyClick(&groups, Qt::Key_Return);
  EXPECT_EQ(table().shownRows(), 2);
  child<QPushButton>(show(), "booksAll").click();
  EXPECT_EQ(table().shownRows(), 6);
}

TEST_F(BooksPageTest, TheFilterNarrowsTotalsAndBarsToo) {
  show();
  QTest::keyClicks(&child<QLineEdit>(show(), "booksFilter"), "fennimoor");
  EXPECT_EQ(table().shownRows(), 1);
  EXPECT_EQ(bars().bars().size(), 1u);
  EXPECT_EQ(figureOf(show(), "booksTotalProfit"),
            shop.session().money(*shop.books()->machine(scrapped)->profit));
}

TEST_F(BooksPageTest, FollowsUndo) {
  show();
  const QString before = figureOf(show(), "booksTotalProfit");
  shop.sell(here, day(2026, 5, 19), cents(12345), "Imre");
  EXPECT_NE(figureOf(show(), "booksTotalProfit"), before);
  EXPECT_EQ(bars().bars().size(), 6u);
  EXPECT_FALSE(shop.session().undo());
  EXPECT_EQ(figureOf(show(), "booksTotalProfit"), before);
}

TEST_F(BooksPageTest, ShowsAnInvitationWhileNothingIsSold) {
  TradingShop empty;
  const std::unique_ptr<Page> nothing{makeBooksPage(empty.session(), nullptr)};
  nothing->refresh({});
  nothing->show();
  EXPECT_TRUE(child<QPushButton>(*nothing, "firstStep").isVisible());
}

}  // namespace
}  // namespace secondpull::app::test
