#include <QComboBox>

#include "app/parts/edits.h"
#include "app/sale/receipt_line.h"
#include "core/shop/shelf.h"
#include "core/shop/side_trades.h"
#include "tests/app/sale/sale_screen_test.h"

namespace secondpull::app::test {
namespace {

using SaleScreenDealTest = SaleScreenTest;

const Sale& saleOf(const Shop& shop, MachineId machine) {
  for (const Sale& sale : shop.all<Sale>())
    if (sale.machine == machine) return sale;
  throw std::runtime_error("not sold");
}

TEST_F(SaleScreenDealTest, SellsSeveralThingsForOnePrice) {
  shop.perform(take_in_found(*shop.shop(), day(2026, 5, 1),
                             {.known = {}, .new_name = "blade", .new_number = {}}, 3, cents(1000)));
  show();
  panel().setMachine(out_front);
  panel().openSale();
  type("saleBuyer", "Ruel");
  type("dealMachine", "#2");
  enter("dealMachine");  // adds it; the sale stays open
  EXPECT_TRUE(shop.shop()->all<Sale>().empty());
  type("dealPart", "blade");
  enter("dealPart");
  type("dealCount2", "2");
  type("salePrice", "200");
  // By hand: 200 over 160 : 80 : 20, the sum 260: 123.0769.., 61.5384.., 15.3846..
  EXPECT_EQ(text("dealShare0"), "$123.08");
  EXPECT_EQ(text("dealShare1"), "$61.54");
  EXPECT_EQ(text("dealShare2"), "$15.38");
  EXPECT_EQ(child<QComboBox>(show(), "dealSoldAs1").currentText(), "as is") << "as it is listed";
  enter("salePrice");

  EXPECT_EQ(saleOf(*shop.shop(), out_front).price, cents(12308));
  EXPECT_EQ(saleOf(*shop.shop(), second).price, cents(6154));
  EXPECT_EQ(saleOf(*shop.shop(), second).sold_as, SoldAs::as_is);
  ASSERT_EQ(shop.shop()->all<PartSale>().size(), 1u);
  EXPECT_EQ(shop.shop()->all<PartSale>().begin()->quantity, 2);
  EXPECT_EQ(shop.session().history().front().title, "Sold #1, #2 and 2 x blade to Ruel for $200");
  EXPECT_FALSE(shop.session().undo());
  EXPECT_TRUE(shop.shop()->all<Sale>().empty());
  EXPECT_TRUE(shop.shop()->all<PartSale>().empty());
}

TEST_F(SaleScreenDealTest, LeavesAThingOutAgainAndKeepsTheRestAsADraft) {
  show();
  panel().setMachine(out_front);
  panel().openSale();
  type("dealMachine", "#2");
  enter("dealMachine");
  type("dealMachine", "#3");
  enter("dealMachine");
  press("dealLeave1");
  type("dealValue2", "55");
  QTest::keyClick(&child<QLineEdit>(show(), "saleBuyer"), Qt::Key_Escape);
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  panel().openSale();
  press("draftGoOn");
  EXPECT_EQ(show().findChild<QWidget*>("dealValue2"), nullptr);
  EXPECT_EQ(child<MoneyEdit>(show(), "dealValue1").value(), cents(5500));
}

TEST_F(SaleScreenDealTest, SaysAValueThatCannotBeRead) {
  show();
  panel().setMachine(out_front);
  panel().openSale();
  type("dealMachine", "#2");
  enter("dealMachine");
  type("dealValue1", "lots");
  enter("salePrice");
  EXPECT_TRUE(shop.shop()->all<Sale>().empty());
  EXPECT_TRUE(child<QLabel>(show(), "problem").isVisible());
}

TEST_F(SaleScreenDealTest, ADepositComesOffWhatIsToPay) {
  const OfferId taken = offer(out_front, "150", "Ruel");
  press("offerDeposit");
  type("depositAmount", "20");
  enter("depositAmount");
  ASSERT_EQ(shop.shop()->all<Deposit>().size(), 1u);
  panel().openSale(taken);
  EXPECT_EQ(text("saleDeposit"), "$20 were left as a deposit: $130 to pay now.");
  type("saleTax", "9");
  EXPECT_EQ(text("saleDeposit"), "$20 were left as a deposit: $139 to pay now.");
  enter("saleTax");
  EXPECT_EQ(saleOf(*shop.shop(), out_front).price, cents(15000)) << "the whole price";
  EXPECT_TRUE(visible("receiptPdf"));
  EXPECT_TRUE(text("receiptSays").contains("$20 were left as a deposit, $139 paid that day"))
      << text("receiptSays").toStdString();
}

TEST_F(SaleScreenDealTest, ADepositOfAnotherOneIsSaidAndGivenBack) {
  offer(out_front, "150", "Ruel");
  press("offerDeposit");
  type("depositAmount", "20");
  enter("depositAmount");
  panel().openSale();
  EXPECT_TRUE(text("saleDeposit").startsWith("Ruel left a deposit of $20"));
  type("saleBuyer", "Imre");
  enter("saleBuyer");
  EXPECT_TRUE(visible("offerDepositBack"));
  press("offerDepositBack");
  EXPECT_EQ(shop.shop()->all<Deposit>().begin()->returned, day(2026, 5, 20));
  EXPECT_FALSE(visible("offerDepositBack"));
}

TEST_F(SaleScreenDealTest, WritesTheReceiptAgainLater) {
  shop.sell(out_front, day(2026, 5, 12), cents(15000), "Ruel");
  show().openMachine(out_front);
  EXPECT_EQ(text("receiptSays"), "Sold to Ruel on 12 May for $150.");
  QTemporaryDir folder;
  const QString path = folder.filePath("receipt.pdf");
  show().findChild<ReceiptLine*>()->writePdfTo(path);
  QFile file{path};
  ASSERT_TRUE(file.open(QIODevice::ReadOnly));
  EXPECT_TRUE(file.read(5) == "%PDF-");
  panel().setMachine(mended);
  EXPECT_FALSE(visible("receiptPdf"));
}

}  // namespace
}  // namespace secondpull::app::test
