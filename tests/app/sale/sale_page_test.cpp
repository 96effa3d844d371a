#include "app/sale/sale_page.h"

#include <QLineEdit>
#include <QPushButton>
#include <QTest>
#include <gtest/gtest.h>

#include "app/frame/page.h"
#include "app/parts/choices.h"
#include "app/parts/data_table.h"
#include "app/parts/edits.h"
#include "app/parts/form.h"
#include "app/sale/machine_panel.h"
#include "app/sale/sale_rows.h"
#include "core/shop/offers.h"
#include "tests/app/sale/trading_shop.h"

namespace secondpull::app::test {
namespace {

/// Three machines here: one out front, one mended, one not tried yet; and costs of the shop.
class SalePageTest : public ::testing::Test {
 protected:
  SalePageTest() {
    out_front = shop.buy(day(2026, 3, 2), cents(4000), MachineKind::push, Source::private_sale, "Tarnwick");
    mended = shop.buy(day(2026, 4, 1), cents(2550), MachineKind::self_propelled, Source::curb, "Ostrel");
    untried = shop.buy(day(2026, 5, 1), cents(0), MachineKind::push, Source::curb, "Fennimoor");
    shop.mend(out_front, day(2026, 3, 10));
    shop.mend(mended, day(2026, 4, 10));
    shop.list(out_front, day(2026, 3, 20), cents(19500));
    shop.list(out_front, day(2026, 5, 3), cents(16000), SoldAs::running);
    shop.spend(day(2026, 2, 1), cents(5999));
  }
  Page& show() {
    if (!page) {
      page.reset(makeSalePage(shop.session(), nullptr));
      QObject::connect(&shop.session(), &Session::changed, page.get(), &Page::refresh);
      page->resize(1280, 700);
      page->refresh({});
      page->show();
      (void)QTest::qWaitForWindowExposed(page.get());
      page->activateWindow();
      (void)QTest::qWaitForWindowActive(page.get());
    }
    return *page;
  }
  DataTable& table() { return child<DataTable>(show(), "saleTable"); }
  MachinePanel& panel() { return child<MachinePanel>(show(), "salePanel"); }
  void type(const char* field, const QString& text) {
    auto& edit = child<QLineEdit>(show(), field);
    edit.setFocus();
    edit.selectAll();
    QTest::keyClicks(&edit, text);
  }
  void press(const char* button) { child<QPushButton>(show(), button).click(); }

  TradingShop shop;
  MachineId out_front{}, mended{}, untried{};
  std::unique_ptr<Page> page;
};

TEST_F(SalePageTest, ListsWhatIsOutFrontAndWhatIsReady) {
  const std::vector<SaleRow> rows = saleRows(shop.session(), SaleView::to_sell);
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_EQ(rows[0].machine, out_front);
  EXPECT_EQ(rows[0].asking, cents(16000));
  EXPECT_EQ(rows[0].days, 61);  // 20 March to 20 May
  EXPECT_FALSE(rows[0].ready);
  EXPECT_EQ(rows[1].machine, mended);
  EXPECT_TRUE(rows[1].ready);
  EXPECT_EQ(rows[1].asking, std::nullopt);
  EXPECT_EQ(saleRows(shop.session(), SaleView::here).size(), 3u);
  EXPECT_TRUE(saleRows(shop.session(), SaleView::sold).empty());
}

TEST_F(SalePageTest, TellsThePriceHistoryInWords) {
  const auto books = shop.books();
  EXPECT_EQ(priceHistory(shop.session(), books->by_machine().of(out_front)),
            "Asking $160 since 3 May, notice board, running. Before that $195 from 20 Mar to 3 May.");
  EXPECT_EQ(priceHistory(shop.session(), books->by_machine().of(mended)), QString{});
}

TEST_F(SalePageTest, ShowsAnInvitationWhileThereIsNothing) {
  TradingShop empty;
  const std::unique_ptr<Page> nothing{makeSalePage(empty.session(), nullptr)};
  nothing->refresh({});
  nothing->show();
  EXPECT_TRUE(child<QPushButton>(*nothing, "firstStep").isVisible());
}

TEST_F(SalePageTest, SellsByKeyboardAlone) {
  show().start();
  QTest::keyClick(&table(), Qt::Key_Return);
  const auto* form = show().findChild<Form*>("saleForm");
  ASSERT_NE(form, nullptr);
  auto& price = child<MoneyEdit>(show(), "salePrice");
  EXPECT_EQ(price.value(), cents(16000));
  EXPECT_TRUE(price.isGuess());
  QTest::keyClicks(QApplication::focusWidget(), "Ruel");
  QTest::keyClick(QApplication::focusWidget(), Qt::Key_Tab);
  QTest::keyClicks(QApplication::focusWidget(), "155");
  QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);

  ASSERT_EQ(shop.shop()->all<Sale>().size(), 1u);
  const Sale& sale = *shop.shop()->all<Sale>().begin();
  EXPECT_EQ(sale.machine, out_front);
  EXPECT_EQ(sale.price, cents(15500));
  EXPECT_EQ(sale.sold_as, SoldAs::running);
  ASSERT_TRUE(sale.buyer);
  EXPECT_EQ(shop.shop()->find(*sale.buyer)->name, "Ruel");
  EXPECT_EQ(shop.session().history().front().title, "Sold #1 to Ruel for $155");
  // It stays in sight, and is taken back in one go.
  EXPECT_EQ(panel().machine(), out_front);
  EXPECT_TRUE(child<QPushButton>(show(), "doReturn").isVisible());
  EXPECT_FALSE(shop.session().undo());
  EXPECT_TRUE(shop.shop()->all<Sale>().empty());
  EXPECT_TRUE(shop.shop()->all<Person>().empty());
  EXPECT_TRUE(child<QPushButton>(show(), "doSell").isVisible());
}

TEST_F(SalePageTest, ShowsBeforeTheSaleWhatTheBooksSayAfterIt) {
  show();
  panel().setMachine(mended);
  panel().openSale();
  type("salePrice", "144.95");
  type("saleFee", "3.63");
  type("saleDelivery", "12.5");
  type("saleMinutes", "1h35");
  const QString profit = figureOf(show(), "saleProfit"), pay = figureOf(show(), "salePay");
  QTest::keyClick(&child<QLineEdit>(show(), "saleFee"), Qt::Key_Return);

  const auto books = shop.books();
  const MachineFigures* figures = books->machine(mended);
  ASSERT_TRUE(figures->profit);
  EXPECT_EQ(profit, shop.session().money(*figures->profit));
  EXPECT_EQ(pay, shop.session().money(figures->pay_per_hour));
  EXPECT_EQ(figures->minutes.count, 80 + 95);
  EXPECT_EQ(figureOf(show(), "saleIfProfit"), profit);
}

TEST_F(SalePageTest, SaysAProblemWhereItIsAndKeepsWhatWasTyped) {
  show();
  panel().setMachine(mended);
  panel().openSale();
  type("saleBuyer", "Ruel");
  QTest::keyClick(&child<QLineEdit>(show(), "saleBuyer"), Qt::Key_Return);  // no price yet
  EXPECT_TRUE(shop.shop()->all<Sale>().empty());
  EXPECT_EQ(child<QLineEdit>(show(), "saleBuyer").text(), "Ruel");
  EXPECT_FALSE(child<QLabel>(show(), "problem.price").text().isEmpty());
}

TEST_F(SalePageTest, PutsAMachineOutFrontAndChangesThePrice) {
  show();
  panel().setMachine(mended);
  panel().openAsking();
  type("askingPrice", "210");
  type("askingChannel", "notice board");
  QTest::keyClick(&child<QLineEdit>(show(), "askingChannel"), Qt::Key_Return);
  panel().openAsking();
  type("askingPrice", "189");
  QTest::keyClick(&child<QLineEdit>(show(), "askingPrice"), Qt::Key_Return);

  const auto books = shop.books();
  const ByMachine::Lines& lines = books->by_machine().of(mended);
  ASSERT_EQ(lines.listings.size(), 2u);
  EXPECT_EQ(books->machine(mended)->stage, Stage::for_sale);
  ASSERT_NE(listingNow(lines), nullptr);
  EXPECT_EQ(listingNow(lines)->asking, cents(18900));
  press("doEndListing");
  type("endReason", "nobody came");
  QTest::keyClick(&child<QLineEdit>(show(), "endReason"), Qt::Key_Return);
  EXPECT_NE(shop.books()->machine(mended)->stage, Stage::for_sale);
  EXPECT_TRUE(child<QLabel>(show(), "saleHistory")
                  .text()
                  .endsWith(": nobody came. Asked $210 from 20 May to 20 May."))
      << child<QLabel>(show(), "saleHistory").text().toStdString();
}

TEST_F(SalePageTest, AnOfferTakenFillsTheSaleAndIsSettledWithIt) {
  show();
  panel().setMachine(out_front);
  for (const char* amount : {"120", "150"}) {
    panel().openOffer();
    type("offerAmount", amount);
    type("offerWho", "Ruel");
    QTest::keyClick(&child<QLineEdit>(show(), "offerWho"), Qt::Key_Return);
  }
  ASSERT_EQ(shop.shop()->all<Offer>().size(), 2u);
  const OfferId low = shop.shop()->all<Offer>().begin()->id;
  const OfferId high = std::prev(shop.shop()->all<Offer>().end())->id;
  panel().openSale(high);
  EXPECT_EQ(child<MoneyEdit>(show(), "salePrice").value(), cents(15000));
  EXPECT_EQ(child<QLineEdit>(show(), "saleBuyer").text(), "Ruel");
  QTest::keyClick(&child<QLineEdit>(show(), "saleBuyer"), Qt::Key_Return);
  EXPECT_EQ(shop.shop()->find(high)->result, OfferResult::taken);
  EXPECT_EQ(shop.shop()->find(low)->result, OfferResult::gone);
  EXPECT_FALSE(shop.session().undo());
  EXPECT_EQ(shop.shop()->find(high)->result, std::nullopt);
}

TEST_F(SalePageTest, DoesNotSellAsRunningWhatFailedItsSafetyCheck) {
  NewFinding failed;
  failed.machine = out_front;
  failed.date = day(2026, 5, 10);
  failed.step = "safety check";
  failed.outcome = "failed: blade runs on";
  shop.perform(record_finding(*shop.shop(), failed));
  show();
  panel().setMachine(out_front);
  EXPECT_TRUE(child<QLabel>(show(), "saleWarning").isVisible());
  panel().openSale();  // as listed: running
  EXPECT_TRUE(child<QLabel>(show(), "saleCaution").isVisible());
  QTest::keyClick(&child<QLineEdit>(show(), "salePrice"), Qt::Key_Return);
  EXPECT_TRUE(shop.shop()->all<Sale>().empty());
  EXPECT_FALSE(child<QLabel>(show(), "problem.sold_as").text().isEmpty());
}

TEST_F(SalePageTest, TakesBackWhatTheBuyerBrings) {
  shop.sell(out_front, day(2026, 5, 12), cents(15000), "Ruel");
  show().openMachine(out_front);
  panel().openReturn();
  auto& refund = child<MoneyEdit>(show(), "returnRefund");
  EXPECT_EQ(refund.value(), cents(15000));
  type("returnNote", "died after two lawns");
  QTest::keyClick(&child<QLineEdit>(show(), "returnNote"), Qt::Key_Return);
  ASSERT_EQ(shop.shop()->all<Return>().size(), 1u);
  EXPECT_TRUE(is_here(shop.books()->machine(out_front)->stage));
}

TEST_F(SalePageTest, ScrapsOrKeepsWhatIsNotSold) {
  show();
  panel().setMachine(untried);
  panel().openDispose();
  type("disposeProceeds", "4.20");
  QTest::keyClick(&child<QLineEdit>(show(), "disposeProceeds"), Qt::Key_Return);
  EXPECT_EQ(shop.books()->machine(untried)->stage, Stage::scrapped);
  EXPECT_EQ(shop.books()->machine(untried)->net_proceeds, cents(420));
}

TEST_F(SalePageTest, KeepsADraftForEachMachine) {
  show();
  panel().setMachine(mended);
  panel().openSale();
  type("saleBuyer", "Ruel");
  QTest::keyClick(&child<QLineEdit>(show(), "saleBuyer"), Qt::Key_Escape);
  panel().setMachine(out_front);
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  panel().openSale();
  EXPECT_EQ(child<QLineEdit>(show(), "saleBuyer").text(), QString{});
  panel().setMachine(mended);
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  panel().openSale();
  press("draftGoOn");
  EXPECT_EQ(child<QLineEdit>(show(), "saleBuyer").text(), "Ruel");
}

TEST_F(SalePageTest, GivesMoneyBackOnAMachineThatStaysSold) {
  show();
  panel().setMachine(mended);
  EXPECT_FALSE(child<QPushButton>(show(), "doAllowance").isVisible());
  shop.sell(mended, day(2026, 5, 11), cents(15500), "Ruel");
  panel().setMachine(mended);
  const Money before = *shop.books()->machine(mended)->profit;
  press("doAllowance");
  type("allowanceAmount", "10");
  type("allowanceNote", "scratched deck");
  QTest::keyClick(&child<QLineEdit>(show(), "allowanceNote"), Qt::Key_Return);
  ASSERT_EQ(shop.shop()->all<Allowance>().size(), 1u);
  EXPECT_EQ(*shop.books()->machine(mended)->profit, before - cents(1000));
  EXPECT_EQ(shop.books()->machine(mended)->stage, Stage::sold);
  EXPECT_FALSE(shop.session().undo());
  EXPECT_EQ(*shop.books()->machine(mended)->profit, before);
}

}  // namespace
}  // namespace secondpull::app::test
