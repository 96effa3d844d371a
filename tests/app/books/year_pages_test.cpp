#include <QLineEdit>
#include <QProcess>
#include <QPushButton>
#include <QSignalSpy>
#include <QTableView>
#include <QTest>
#include <gtest/gtest.h>

#include "app/books/books_page.h"
#include "app/books/plain_figures.h"
#include "app/books/year_chooser.h"
#include "app/frame/page.h"
#include "app/parts/choices.h"
#include "app/parts/data_table.h"
#include "app/print/report_bar.h"
#include "core/books/closing.h"
#include "core/shop/selling.h"
#include "core/shop/shelf.h"
#include "db/exchange/csv.h"
#include "tests/app/sale/trading_shop.h"

namespace secondpull::app::test {
namespace {

enum View { kMachines, kMonths, kYear, kMoneyOut, kSalesTax, kTiedUp, kClosing };

/// A shop with a year behind it and one going on: today is 20 May 2026.
class YearPagesTest : public ::testing::Test {
 protected:
  YearPagesTest() {
    const auto buy = [this](Date date, std::int64_t price) {
      return shop.buy(date, cents(price), MachineKind::push, Source::private_sale, "Tarnwick");
    };
    old = buy(day(2025, 6, 2), 4000);
    shop.sell(old, day(2025, 7, 3), cents(12050), "Ruel");
    sold = buy(day(2026, 1, 5), 3333);
    shop.mend(sold, day(2026, 1, 6));
    NewSale sale{.machine = sold,
                 .date = day(2026, 2, 7),
                 .price = cents(14999),
                 .sales_tax = cents(900),
                 .fee = cents(375),
                 .payment = "cash",
                 .place = "Corrow"};
    shop.perform(sell(*shop.shop(), sale));
    here = buy(day(2026, 3, 1), 900);
    shop.perform(add_expense(*shop.shop(), day(2026, 2, 1), "advertising", cents(1250), "notices"));
    shop.perform(add_trip(*shop.shop(), {.date = day(2026, 3, 1), .miles = Tenths{280}, .purpose = "fetch"}));
    page.reset(makeBooksPage(shop.session(), nullptr));
    QObject::connect(&shop.session(), &Session::changed, page.get(), &Page::refresh);
    page->resize(1280, 700);
    page->show();
    (void)QTest::qWaitForWindowExposed(page.get());
  }
  void turnTo(View view) {
    auto& words = child<WordRow>(*page, "booksWords");
    words.setCurrent(view);
    emit words.chosen(view);
  }
  void turnToTrips() {
    turnTo(kMoneyOut);
    auto& which = child<WordRow>(*page, "moneyOutWhich");
    which.setCurrent(1);
    emit which.chosen(1);
  }
  void type(const char* field, const QString& text) {
    auto& edit = child<QLineEdit>(*page, field);
    edit.clear();
    QTest::keyClicks(&edit, text);
  }
  YearFigures figures(int year) { return *shop.books()->year(year, shop.session().taxRates()); }
  /// The amount on the first row of that text in its second column.
  QString amountOf(const QString& what) {
    const QAbstractItemModel* model = child<QTableView>(*page, "yearTable").model();
    for (int row = 0; row < model->rowCount(); ++row)
      if (model->index(row, 1).data().toString() == what) return model->index(row, 2).data().toString();
    return QStringLiteral("no such row");
  }
  void ask(const QString& what) {
    auto& table = child<QTableView>(*page, "yearTable");
    for (int row = 0; row < table.model()->rowCount(); ++row)
      if (table.model()->index(row, 1).data().toString() == what)
        return table.setCurrentIndex(table.model()->index(row, 1));
    ADD_FAILURE() << "no row " << what.toStdString();
  }
  QString money(Money amount) { return shop.session().money(amount); }

  TradingShop shop;
  MachineId old{}, sold{}, here{};
  std::unique_ptr<Page> page;
};

TEST_F(YearPagesTest, TheYearShowsTheFiguresOfTheBooks) {
  turnTo(kYear);
  const YearFigures year = figures(2026);
  EXPECT_EQ(amountOf("Gross receipts"), money(year.gross_receipts));
  EXPECT_EQ(amountOf("Cost of goods sold: line 40 less line 41"), money(year.cost_of_goods_sold));
  EXPECT_EQ(amountOf("By what moved"), money(year.moved.total()));
  EXPECT_EQ(amountOf("Advertising"), "$12.50");
  EXPECT_EQ(amountOf("Net profit or loss"), money(year.net_profit));
  EXPECT_EQ(amountOf("Self-employment tax"), money(*year.self_employment_tax));
  EXPECT_EQ(amountOf("cash, 1 sale"), "$158.99");
  child<YearChooser>(*page, "booksYear").step(-1);
  EXPECT_EQ(amountOf("Gross receipts"), money(figures(2025).gross_receipts));
}

TEST_F(YearPagesTest, EveryLineThatCanBeAskedAddsUpToItsFigure) {
  // Two categories on one line of the form, and one on the line of the trips.
  shop.perform(add_expense(*shop.shop(), day(2026, 2, 2), "Advertising", cents(300), ""));
  shop.perform(add_expense(*shop.shop(), day(2026, 2, 3), "car and truck", cents(700), "tyre"));
  turnTo(kYear);
  auto& table = child<QTableView>(*page, "yearTable");
  auto& parts = child<DataTable>(*page, "whyTable");
  int asked = 0;
  for (int row = 0; row < table.model()->rowCount(); ++row) {
    table.setCurrentIndex(table.model()->index(row, 1));
    const QString sum = child<QLabel>(*page, "whySum").text();
    if (parts.isHidden() || !sum.contains("together")) continue;
    qlonglong size = 0;
    for (int part = 0; part < parts.model()->rowCount(); ++part)
      size += parts.model()->index(part, 2).data(RowModelBase::SortRole).toLongLong();
    const QString amount = table.model()->index(row, 2).data().toString();
    if (amount.contains('$')) {
      EXPECT_EQ(money(cents(size)), amount) << table.model()->index(row, 1).data().toString().toStdString();
    }
    ++asked;
  }
  EXPECT_GT(asked, 10);
}

TEST_F(YearPagesTest, ADoubleClickOnAPartOpensItsMachine) {
  turnTo(kYear);
  ask("Gross receipts");
  QSignalSpy opened{page.get(), &Page::wantsMachine};
  auto& parts = child<DataTable>(*page, "whyTable");
  parts.setFocus();
  QTest::keyClick(&parts, Qt::Key_Return);
  ASSERT_EQ(opened.count(), 1);
  EXPECT_EQ(opened[0][0].value<MachineId>(), sold);
}

TEST_F(YearPagesTest, WhereThereIsRoomForOneSideEnterAsksWhyAndEscGoesBack) {
  page->resize(600, 700);
  turnTo(kYear);
  QApplication::processEvents();
  ask("Gross receipts");
  auto& table = child<QTableView>(*page, "yearTable");
  auto& parts = child<DataTable>(*page, "whyTable");
  ASSERT_TRUE(table.isVisible());
  EXPECT_FALSE(parts.isVisible());
  QTest::keyClick(&table, Qt::Key_Return);
  EXPECT_FALSE(table.isVisible());
  ASSERT_TRUE(parts.isVisible());
  QTest::keyClick(&parts, Qt::Key_Escape);
  EXPECT_TRUE(table.isVisible());
  EXPECT_FALSE(parts.isVisible());
}

TEST_F(YearPagesTest, MonthsAddUpToTheYear) {
  turnTo(kMonths);
  EXPECT_EQ(child<DataTable>(*page, "monthsTable").shownRows(), 12);
  EXPECT_EQ(figureOf(*page, "monthsTotalProfit"), money(figures(2026).net_profit));
  EXPECT_EQ(figureOf(*page, "monthsTotalHours"), QString::fromStdString(shown(figures(2026).minutes)));
}

TEST_F(YearPagesTest, AnExpenseTypedIsSavedChangedRemovedAndTakenBack) {
  turnTo(kMoneyOut);
  type("expenseDay", "4/12");
  type("expenseCategory", "tools");
  type("expenseAmount", "12.5");
  QTest::keyClick(&child<QLineEdit>(*page, "expenseAmount"), Qt::Key_Return);
  ASSERT_EQ(shop.shop()->all<Expense>().size(), 2u);
  const Expense typed = *std::prev(shop.shop()->all<Expense>().end());
  EXPECT_EQ(typed.date, day(2026, 4, 12));
  EXPECT_EQ(typed.category, "tools");
  EXPECT_EQ(typed.amount, cents(1250));
  EXPECT_EQ(figureOf(*page, "expenseTotal"), "$25.00");

  // The line typed last is the one chosen: Enter puts it back into the form.
  auto& table = child<DataTable>(*page, "expenseTable");
  QTest::keyClick(&table, Qt::Key_Return);
  type("expenseAmount", "13");
  QTest::keyClick(&child<QLineEdit>(*page, "expenseAmount"), Qt::Key_Return);
  EXPECT_EQ(shop.shop()->find(typed.id)->amount, cents(1300));
  EXPECT_FALSE(shop.session().undo());
  EXPECT_EQ(shop.shop()->find(typed.id)->amount, cents(1250));
  child<QPushButton>(*page, "expenseRemove").click();
  EXPECT_EQ(shop.shop()->all<Expense>().size(), 1u);
  EXPECT_FALSE(shop.session().undo());
  EXPECT_FALSE(shop.session().undo());
  EXPECT_EQ(figureOf(*page, "expenseTotal"), "$12.50");
}

TEST_F(YearPagesTest, AnExpenseOfAnotherYearIsOfThatYear) {
  turnTo(kMoneyOut);
  child<YearChooser>(*page, "booksYear").step(-1);
  type("expenseDay", "4/12");
  type("expenseCategory", "tools");
  type("expenseAmount", "5");
  QTest::keyClick(&child<QLineEdit>(*page, "expenseAmount"), Qt::Key_Return);
  EXPECT_EQ(std::prev(shop.shop()->all<Expense>().end())->date, day(2025, 4, 12));
}

TEST_F(YearPagesTest, ATripTypedStandsInTheLogAndWhatItLacksIsMarked) {
  turnToTrips();
  EXPECT_EQ(figureOf(*page, "tripMilesTotal"), "28.0");
  EXPECT_TRUE(child<QLabel>(*page, "tripLacking").isVisible());
  type("tripMiles", "12.5");
  type("tripDestination", "Tolver yard");
  type("tripPurpose", "supplies");
  type("tripAbout", shop.session().tagOf(here));
  QTest::keyClick(&child<QLineEdit>(*page, "tripAbout"), Qt::Key_Return);
  ASSERT_EQ(shop.shop()->all<Trip>().size(), 2u);
  const Trip typed = *std::prev(shop.shop()->all<Trip>().end());
  EXPECT_EQ(typed.miles, Tenths{125});
  EXPECT_EQ(typed.machine, here);
  EXPECT_EQ(figureOf(*page, "tripMilesTotal"), "40.5");
  const QAbstractItemModel* log = child<DataTable>(*page, "tripTable").model();
  EXPECT_EQ(log->index(0, 6).data().toString(), "no destination");
  EXPECT_EQ(log->index(1, 6).data().toString(), "");
  EXPECT_FALSE(shop.session().undo());
  EXPECT_EQ(figureOf(*page, "tripMilesTotal"), "28.0");
}

TEST_F(YearPagesTest, SalesTaxHandedOnLowersWhatIsOwed) {
  turnTo(kSalesTax);
  EXPECT_EQ(figureOf(*page, "salesTaxOwed"), "$9.00");
  type("taxPaidPlace", "Corrow");
  type("taxPaidAmount", "4");
  QTest::keyClick(&child<QLineEdit>(*page, "taxPaidAmount"), Qt::Key_Return);
  EXPECT_EQ(figureOf(*page, "salesTaxOwed"), "$5.00");
  EXPECT_FALSE(shop.session().undo());
  EXPECT_EQ(figureOf(*page, "salesTaxOwed"), "$9.00");
}

TEST_F(YearPagesTest, TiedUpHoldsWhatIsHere) {
  turnTo(kTiedUp);
  EXPECT_EQ(figureOf(*page, "tiedUpTotal"), "$9.00");
  EXPECT_EQ(child<DataTable>(*page, "tiedUpTable").shownRows(), 1);
}

TEST_F(YearPagesTest, AYearIsClosedRefusesWhatMovesItAndOpensAgain) {
  turnTo(kClosing);
  auto& button = child<QPushButton>(*page, "closingDo");
  EXPECT_FALSE(button.isEnabled());  // 2026 is not over
  child<YearChooser>(*page, "booksYear").step(-1);
  ASSERT_TRUE(button.isEnabled());
  button.click();
  ASSERT_NE(closed(*shop.shop(), 2025), nullptr);
  EXPECT_TRUE(shop.session().perform(add_expense(*shop.shop(), day(2025, 8, 1), "tools", cents(100), "")));
  EXPECT_FALSE(shop.session().undo());
  EXPECT_EQ(closed(*shop.shop(), 2025), nullptr);
  button.click();
  ASSERT_NE(closed(*shop.shop(), 2025), nullptr);
  EXPECT_EQ(button.text(), "Open 2025 again");
  button.click();
  EXPECT_EQ(closed(*shop.shop(), 2025), nullptr);
  EXPECT_FALSE(shop.session().perform(add_expense(*shop.shop(), day(2025, 8, 1), "tools", cents(100), "")));
}

TEST_F(YearPagesTest, EveryPageGoesToPdfAndCsv) {
  const QTemporaryDir folder;
  auto& bar = *page->findChild<ReportBar*>();
  for (int view = kMachines; view <= kClosing; ++view) {
    turnTo(static_cast<View>(view));
    const QString pdf = folder.filePath(QString{"%1.pdf"}.arg(view));
    const QString csv = folder.filePath(QString{"%1.csv"}.arg(view));
    bar.writePdfTo(pdf);
    bar.writeCsvTo(csv);
    QProcess reader;
    reader.start("pdftotext", {"-layout", pdf, "-"});
    ASSERT_TRUE(reader.waitForFinished());
    const QString text = QString::fromUtf8(reader.readAllStandardOutput());
    EXPECT_TRUE(text.contains("This is no tax advice")) << view << text.toStdString();
    EXPECT_TRUE(text.contains("as of 20 May 2026")) << view;
    QFile file{csv};
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    const db::CsvTable table = db::read_csv(file.readAll().toStdString());
    EXPECT_TRUE(table.faults().empty());
    EXPECT_GT(table.size(), 1u) << view;
  }
}

TEST(YearPagesAbroadTest, ACurrencyOtherThanDollarsHasNoTaxPage) {
  TradingShop shop;
  Settings settings = shop.shop()->settings;
  settings.currency = *currency_of("EUR");
  ASSERT_FALSE(shop.session().setSettings(settings));
  const MachineId machine = shop.buy(day(2026, 1, 5), cents(3333), MachineKind::push, Source::curb, "");
  shop.sell(machine, day(2026, 2, 7), cents(14999), "Ruel");
  const std::unique_ptr<Page> page{makeBooksPage(shop.session(), nullptr)};
  page->show();
  auto& words = child<WordRow>(*page, "booksWords");
  words.setCurrent(kYear);
  emit words.chosen(kYear);
  QStringList shown;
  const QAbstractItemModel* model = child<QTableView>(*page, "yearTable").model();
  for (int row = 0; row < model->rowCount(); ++row)
    for (int column = 0; column < 3; ++column)
      shown << model->index(row, column).data().toString();
  EXPECT_FALSE(shown.contains("Self-employment tax"));
  EXPECT_TRUE(shown.join(u' ').contains("for the United States alone"));
  const auto year = shop.books()->year(2026, shop.session().taxRates());
  EXPECT_EQ(shown.value(shown.indexOf("net profit") + 1), shop.session().money(year->net_profit));
}

TEST(YearPagesEmptyTest, EachPageSaysWhatGoesThere) {
  TradingShop shop;
  const std::unique_ptr<Page> page{makeBooksPage(shop.session(), nullptr)};
  page->resize(1280, 700);
  page->show();
  auto& words = child<WordRow>(*page, "booksWords");
  for (int view = kMachines; view <= kClosing; ++view) {
    words.setCurrent(view);
    emit words.chosen(view);
    bool says = false;
    for (const QLabel* label : page->findChildren<QLabel*>())
      says =
          says || (label->isVisible() && label->text().size() > 20 && !label->text().contains("tax advice"));
    const auto forms = page->findChildren<QPushButton*>("save");
    const bool types =
        std::any_of(forms.begin(), forms.end(), [](auto* button) { return button->isVisible(); });
    EXPECT_TRUE(says || types) << view;
  }
}

}  // namespace
}  // namespace secondpull::app::test
