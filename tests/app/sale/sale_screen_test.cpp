#include "tests/app/sale/sale_screen_test.h"

#include <QApplication>
#include <QBuffer>
#include <QClipboard>
#include <QPlainTextEdit>

#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/sale/coming_list.h"
#include "app/sale/listing_folder.h"
#include "app/sale/listing_panel.h"
#include "core/shop/deposits.h"
#include "core/shop/offers.h"
#include "core/shop/recall.h"

namespace secondpull::app::test {
namespace {

TEST_F(SaleScreenTest, SuggestsAPriceForAShopWithoutASaleAndSaysWhatItRestsOn) {
  show();
  panel().setMachine(mended);
  waitForOutlook();
  ASSERT_TRUE(panel().suggestion().ask());
  EXPECT_GT(*panel().suggestion().ask(), *panel().suggestion().floor());
  EXPECT_TRUE(text("salesSays").contains("No own sales yet")) << text("salesSays").toStdString();
  EXPECT_TRUE(text("salesSays").startsWith("Offered as running."));
  EXPECT_TRUE(figureOf(show(), "salesDays").startsWith("about "));
  EXPECT_TRUE(visible("salesFloor"));
}

TEST_F(SaleScreenTest, OneKeyPutsTheSuggestionIntoTheAskingForm) {
  show();
  panel().setMachine(mended);
  waitForOutlook();
  press("salesUse");
  auto& price = child<MoneyEdit>(show(), "askingPrice");
  EXPECT_TRUE(price.isGuess());
  EXPECT_EQ(price.value(), panel().suggestion().ask());
  enter("askingPrice");
  ASSERT_NE(shop.shop()->all<Listing>().size(), 2u);
  EXPECT_EQ(std::prev(shop.shop()->all<Listing>().end())->asking, *price.value());
  waitForOutlook();
  EXPECT_FALSE(visible("salesUse")) << "it is asked already";
}

TEST_F(SaleScreenTest, AMachineThatIsSoldHasNoSuggestion) {
  shop.sell(out_front, day(2026, 5, 12), cents(15000), "Ruel");
  show().openMachine(out_front);
  EXPECT_FALSE(visible("salesAsk"));
  EXPECT_FALSE(visible("listingText"));
}

TEST_F(SaleScreenTest, TheFloorStandsBesideAnOffer) {
  show();
  panel().setMachine(out_front);
  waitForOutlook();
  const Money floor = *panel().suggestion().floor();
  panel().openOffer();
  type("offerAmount", QString::fromStdString(plain(floor - cents(1000), shop.session().currency())));
  EXPECT_TRUE(text("offerFloor").startsWith("Below the floor of"));
  enter("offerAmount");
  waitForOutlook();
  auto& offers = child<DataTable>(show(), "saleOffers");
  bool found = false;
  for (int column = 0; column < offers.model()->columnCount(); ++column)
    found = found || offers.model()->index(0, column).data().toString() == "$10 below";
  EXPECT_TRUE(found);
}

TEST_F(SaleScreenTest, ARecallIsLookedUpInPlaceAndKeepsTheMachineFromBeingSold) {
  show();
  panel().setMachine(out_front);
  panel().openSale();
  EXPECT_TRUE(text("recallSays").startsWith("Recall look-up: not done since it came in."));
  press("recallNone");
  EXPECT_EQ(text("recallSays"), "Recalls looked up 20 May: none found.");
  EXPECT_FALSE(visible("recallNone"));
  EXPECT_TRUE(visible("salePrice")) << "the form stays";
  press("recallFound");
  EXPECT_TRUE(text("saleWarning").contains("15 USC 2068"));
  enter("salePrice");
  EXPECT_TRUE(shop.shop()->all<Sale>().empty());
  press("recallNone");  // its remedy is done
  enter("salePrice");
  EXPECT_EQ(shop.shop()->all<Sale>().size(), 1u);
}

TEST_F(SaleScreenTest, NotHavingLookedUpRecallsKeepsNobodyFromSelling) {
  show();
  panel().setMachine(out_front);
  panel().openSale();
  enter("salePrice");
  EXPECT_EQ(shop.shop()->all<Sale>().size(), 1u);
}

TEST_F(SaleScreenTest, TheWordsOfAListingAreTheRecordsUntilTheyAreOnesOwn) {
  show();
  panel().setMachine(out_front);
  EXPECT_TRUE(text("listingText").contains("Tarnwick"));
  EXPECT_FALSE(visible("listingFromRecord"));
  press("listingEdit");
  auto& words = child<QPlainTextEdit>(show(), "listingWords");
  words.setPlainText("Mower\n\nRuns well.");
  words.setFocus();
  QTest::keyClick(&words, Qt::Key_Return, Qt::ControlModifier);
  ASSERT_EQ(shop.shop()->all<ListingText>().size(), 1u);
  EXPECT_EQ(text("listingText"), "Mower\n\nRuns well.");
  press("listingCopy");
  EXPECT_EQ(QApplication::clipboard()->text(), "Mower\n\nRuns well.");
  press("listingFromRecord");
  EXPECT_TRUE(text("listingText").contains("Tarnwick"));
}

TEST_F(SaleScreenTest, WritesTheListingWithItsPhotosToAFolder) {
  QImage picture{8, 8, QImage::Format_RGB32};
  picture.fill(Qt::gray);
  QByteArray content;
  QBuffer buffer{&content};
  picture.save(&buffer, "JPG");
  const auto sha = shop.session().keepPhoto(content);
  ASSERT_TRUE(sha);
  shop.perform(
      add_photo(*shop.shop(), Photo{.sha256 = *sha, .name = "left side/1.jpg", .machine = out_front}));
  QTemporaryDir folder;
  show();
  panel().setMachine(out_front);
  panel().listing().writeTo(folder.path());
  const QStringList folders = QDir{folder.path()}.entryList(QDir::Dirs | QDir::NoDotAndDotDot | QDir::Hidden);
  ASSERT_EQ(folders.size(), 1) << "nothing unfinished is left";
  QDir written{folder.filePath(folders.front())};
  EXPECT_EQ(written.entryList(QDir::Files), (QStringList{"1-left-side-1.jpg", "listing.txt"}));
  EXPECT_TRUE(said.startsWith("The words and 1 photo are written to"));
  panel().listing().writeTo(folder.path());
  EXPECT_EQ(QDir{folder.path()}.entryList(QDir::Dirs | QDir::NoDotAndDotDot).size(), 2) << "beside the first";
  panel().listing().writeTo(folder.filePath("not there"));
  EXPECT_TRUE(said.contains("cannot be written"));
}

TEST_F(SaleScreenTest, ShowsWhoComesWhenOverAllMachines) {
  offer(out_front, "150", "Ruel", "5/25/26");
  const OfferId late = offer(second, "70", "Imre", "5/21/26");
  shop.perform(settle_offer(*shop.shop(), offer(mended, "90", "Odda", "5/22/26"), OfferResult::no_show));
  const std::vector<Coming> coming = comingBuyers(shop.session());
  ASSERT_EQ(coming.size(), 2u);
  EXPECT_EQ(coming[0].offer, late);
  EXPECT_EQ(coming[1].who, "Ruel");
  auto& view = child<WordRow>(show(), "saleView");
  view.setCurrent(1);
  emit view.chosen(1);
  EXPECT_TRUE(visible("saleComing"));
  EXPECT_FALSE(visible("saleTable"));
  child<ComingList>(show(), "saleComing").selectSourceRow(0);
  EXPECT_EQ(panel().machine(), second);
  press("offerNoShow");
  EXPECT_EQ(shop.shop()->find(late)->result, OfferResult::no_show);
  EXPECT_EQ(comingBuyers(shop.session()).size(), 1u);
}

TEST_F(SaleScreenTest, StaysWithTheSecondOfTwoWhoComeForOneMachine) {
  offer(out_front, "150", "Ruel", "5/25/26");
  const OfferId later = offer(out_front, "140", "Imre", "5/26/26");
  auto& view = child<WordRow>(show(), "saleView");
  view.setCurrent(1);
  emit view.chosen(1);
  child<ComingList>(show(), "saleComing").selectSourceRow(1);
  ASSERT_EQ(panel().chosenOffer(), later);
  shop.perform(take_deposit(*shop.shop(), later, day(2026, 5, 20), Money::from_minor(2000), "cash"));
  EXPECT_EQ(panel().chosenOffer(), later);
  shop.perform(take_deposit(*shop.shop(), later, day(2026, 5, 20), Money::from_minor(1000), "cash"));
  press("offerDepositBack");
  EXPECT_TRUE(deposit_left(*shop.shop(), later).is_zero()) << "all of it in one go";
}

TEST_F(SaleScreenTest, KeepsADraftOfTheSaleForEachOffer) {
  const OfferId first = offer(out_front, "150", "Ruel");
  const OfferId second_offer = offer(out_front, "140", "Imre");
  panel().openSale(first);
  type("saleFee", "3");
  QTest::keyClick(&child<QLineEdit>(show(), "saleFee"), Qt::Key_Escape);
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  panel().openSale(second_offer);
  EXPECT_FALSE(visible("draftGoOn"));
  EXPECT_EQ(child<QLineEdit>(show(), "saleBuyer").text(), "Imre");
}

TEST_F(SaleScreenTest, SellsNothingWhileSomethingTypedIsNotInTheDealYet) {
  show();
  panel().setMachine(out_front);
  panel().openSale();
  type("dealPart", "spare whel");
  enter("dealPart");
  enter("salePrice");
  EXPECT_TRUE(shop.shop()->all<Sale>().empty());
  child<QLineEdit>(show(), "dealPart").clear();
  enter("salePrice");
  EXPECT_EQ(shop.shop()->all<Sale>().size(), 1u);
}

TEST(ListingFolder, NamesFilesThatAnySystemTakes) {
  EXPECT_EQ(asFileName("14 Tarnwick 21\" push"), "14-Tarnwick-21-push");
  EXPECT_EQ(asFileName("../../x"), "x");
  EXPECT_EQ(asFileName("///"), "listing");
  EXPECT_LE(asFileName(QString(200, 'a')).size(), 60);
}

}  // namespace
}  // namespace secondpull::app::test
