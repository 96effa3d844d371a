#include "app/yard/yard_page.h"

#include <QBuffer>
#include <QDragEnterEvent>
#include <QImage>
#include <QJsonDocument>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QMimeData>
#include <QPushButton>
#include <QTableView>
#include <gtest/gtest.h>

#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/photo_reading.h"
#include "app/parts/photo_strip.h"
#include "app/yard/lot_rows.h"
#include "app/yard/seen_menu.h"
#include "tests/app/yard/yard_shop.h"

namespace secondpull::app {
namespace {

const Machine& lastOf(const YardShop& shop) {
  return *std::prev(shop.shop()->all<Machine>().end());
}

TEST(LoggingAMachine, TakesFewerThanTenKeysBesideItsText) {
  YardShop shop;
  const auto page = shown(shop.session(), makeYardPage);
  Keys keys{page.get()};
  doDeed(*page, "log a machine");
  const int opened = 1;  // Ctrl+N
  keys.letter('l');
  keys.press(Qt::Key_Tab);
  keys.type("Tarnwick R46");
  keys.press(Qt::Key_Tab);
  keys.letter('p');
  keys.press(Qt::Key_Tab);
  keys.type("35");
  keys.press(Qt::Key_Tab);
  keys.type("18.4");
  keys.press(Qt::Key_Tab);
  keys.type("no spark");
  keys.press(Qt::Key_Return);
  EXPECT_LT(opened + keys.pressed(), 10);

  ASSERT_EQ(shop.shop()->all<Machine>().size(), 1u);
  const Machine& machine = lastOf(shop);
  EXPECT_EQ(machine.tag, "1");
  EXPECT_EQ(machine.kind, MachineKind::lawn_tractor);
  EXPECT_EQ(machine.make, "Tarnwick");
  EXPECT_EQ(machine.model, "R46");
  EXPECT_EQ(machine.symptom, "no spark");
  const Acquisition& acquisition = *shop.shop()->all<Acquisition>().begin();
  EXPECT_EQ(acquisition.source, Source::private_sale);
  EXPECT_EQ(acquisition.price, Money::from_minor(3500));
  EXPECT_EQ(acquisition.date, YardShop::today());
  ASSERT_EQ(shop.shop()->all<Trip>().size(), 1u);
  EXPECT_EQ(shop.shop()->all<Trip>().begin()->miles, Tenths{184});
}

TEST(LoggingAMachine, StaysReadyForTheNextAndClosesOnEnterWithNothingTyped) {
  YardShop shop;
  const auto page = shown(shop.session(), makeYardPage);
  auto* form = named(page.get(), "yard.log-machine");
  Keys keys{page.get()};
  doDeed(*page, "log a machine");
  named<QLineEdit>(page.get(), "whatEdit")->setFocus();
  keys.type("Orrel 20");
  keys.press(Qt::Key_Return);
  EXPECT_TRUE(form->isVisible());
  EXPECT_EQ(named<QLineEdit>(page.get(), "whatEdit")->text(), "");
  EXPECT_EQ(named<QLineEdit>(page.get(), "tagEdit")->placeholderText(), "2");
  EXPECT_EQ(lastOf(shop).symptom, "not tried yet");
  keys.press(Qt::Key_Return);
  EXPECT_FALSE(form->isVisible());
  EXPECT_EQ(shop.shop()->all<Machine>().size(), 1u);
}

TEST(LoggingAMachine, OffersWhatWasHalfTypedAfterACrash) {
  YardShop shop;
  {
    const auto page = shown(shop.session(), makeYardPage);
    doDeed(*page, "log a machine");
    named<QLineEdit>(page.get(), "whatEdit")->setFocus();
    Keys{page.get()}.type("Orrel 20");
    ASSERT_TRUE(QTest::qWaitFor([&] { return shop.session().draft("yard.log-machine").has_value(); }));
  }
  shop.reopen();
  const auto page = shown(shop.session(), makeYardPage);
  doDeed(*page, "log a machine");
  QTest::mouseClick(named<QPushButton>(page.get(), "draftGoOn"), Qt::LeftButton);
  EXPECT_EQ(named<QLineEdit>(page.get(), "whatEdit")->text(), "Orrel 20");
  EXPECT_EQ(named<QLineEdit>(page.get(), "dateEdit")->text(), "20 May 2026");
}

TEST(LoggingALot, OffersItsHalfTypedRowsAfterACrash) {
  YardShop shop;
  {
    const auto page = shown(shop.session(), makeYardPage);
    doDeed(*page, "log a lot");
    named<QLineEdit>(page.get(), "lotWhat1")->setFocus();
    Keys{page.get()}.type("Tarnwick 21");
    ASSERT_TRUE(QTest::qWaitFor([&] { return shop.session().draft("yard.log-machine").has_value(); }));
  }
  shop.reopen();
  const auto page = shown(shop.session(), makeYardPage);
  doDeed(*page, "log a lot");
  QTest::mouseClick(named<QPushButton>(page.get(), "draftGoOn"), Qt::LeftButton);
  EXPECT_EQ(named<QLineEdit>(page.get(), "lotWhat1")->text(), "Tarnwick 21");
}

TEST(LoggingALot, TakesWhatElseWasSeenOfEachMachineIntoItsCondition) {
  YardShop shop;
  const auto page = shown(shop.session(), makeYardPage);
  doDeed(*page, "log a lot");
  auto* seen = named<SeenMenu>(page.get(), "lotSeen1");
  const QList<QAction*> works = seen->menu()->actions();
  ASSERT_GT(works.size(), 1);
  works[0]->trigger();
  works[1]->trigger();
  EXPECT_EQ(seen->text(), "2 things");
  named<QLineEdit>(page.get(), "lotWhat0")->setFocus();
  Keys{page.get()}.press(Qt::Key_Return);
  ASSERT_EQ(shop.shop()->all<Machine>().size(), 2u);
  EXPECT_EQ(shop.shop()->all<Machine>().begin()->condition, "");
  EXPECT_EQ(QString::fromStdString(std::next(shop.shop()->all<Machine>().begin())->condition),
            works[0]->text() + ", " + works[1]->text());
}

TEST(LoggingALot, ShowsTheSharesThatTheBooksThenGive) {
  YardShop shop;
  const auto page = shown(shop.session(), makeYardPage);
  doDeed(*page, "log a lot");
  named<QLineEdit>(page.get(), "countEdit")->setText("3");
  named<QLineEdit>(page.get(), "priceEdit")->setText("100.01");
  const char* const values[]{"120", "60", "20"};
  for (int at = 0; at < 3; ++at) {
    auto* value = named<MoneyEdit>(page.get(), qPrintable(QString{"lotValue%1"}.arg(at)));
    value->setFocus();
    value->selectAll();
    Keys{page.get()}.type(values[at]);
  }
  Money shown_sum;
  std::vector<Money> shares;
  for (int at = 0; at < 3; ++at) {
    const QString text = named<QLabel>(page.get(), qPrintable(QString{"lotShare%1"}.arg(at)))->text();
    shares.push_back(parse_typed_amount(text.toStdString(), shop.session().currency(), "share").value());
    shown_sum += shares.back();
  }
  EXPECT_EQ(shown_sum, Money::from_minor(10001));
  Keys{page.get()}.press(Qt::Key_Return);
  ASSERT_EQ(shop.shop()->all<Machine>().size(), 3u);
  const auto books = shop.session().books();
  std::size_t at = 0;
  for (const Machine& machine : shop.shop()->all<Machine>())
    EXPECT_EQ(books->machine(machine.id)->cost_basis, shares[at++]) << machine.tag;
}

TEST(LotShares, AreEqualWhileAValueIsMissing) {
  const auto shares = lotShares(Money::from_minor(10000), {Money::from_minor(500), std::nullopt, Money{}});
  EXPECT_EQ(shares, (std::vector{Money::from_minor(3334), Money::from_minor(3333), Money::from_minor(3333)}));
}

TEST(YardPage, FiltersByWhereAMachineStandsAndByWords) {
  YardShop shop;
  shop.log("Tarnwick", YardShop::today(), 20);
  const MachineId sold = shop.log("Orrel", YardShop::today(), 10);
  shop.perform(
      sell(*shop.shop(), {.machine = sold, .date = YardShop::today(), .price = Money::from_minor(9000)}));
  const auto page = shown(shop.session(), makeYardPage);
  auto* table = named<QTableView>(page.get(), "yardTable");
  EXPECT_EQ(table->model()->rowCount(), 1);
  auto* words = named<WordRow>(page.get(), "standingRow");
  words->setFocus();
  Keys{page.get()}.letter('g');
  EXPECT_EQ(table->model()->rowCount(), 1);
  EXPECT_EQ(table->model()->index(0, 1).data().toString(), "Orrel 21 push mower");
  named<QLineEdit>(page.get(), "filterEdit")->setText("tarnwick");
  EXPECT_EQ(table->model()->rowCount(), 0);
}

TEST(YardPage, EnterOpensTheMachineOnTheBench) {
  YardShop shop;
  const MachineId machine = shop.log("Tarnwick", YardShop::today(), 20);
  const auto page = shown(shop.session(), makeYardPage);
  MachineId opened{};
  QObject::connect(page.get(), &Page::wantsMachine, [&](MachineId id) { opened = id; });
  Keys{page.get()}.press(Qt::Key_Return);
  EXPECT_EQ(opened, machine);
}

TEST(YardPage, PutsForSaleAndScrapsInPlace) {
  YardShop shop;
  shop.log("Tarnwick", YardShop::today(), 20);
  const auto page = shown(shop.session(), makeYardPage);
  Keys keys{page.get()};
  doDeed(*page, "put for sale");
  keys.type("160");
  keys.press(Qt::Key_Return);
  ASSERT_EQ(shop.shop()->all<Listing>().size(), 1u);
  EXPECT_EQ(shop.shop()->all<Listing>().begin()->asking, Money::from_minor(16000));
  doDeed(*page, "scrap");
  keys.press(Qt::Key_Return);
  ASSERT_EQ(shop.shop()->all<Disposal>().size(), 1u);
  EXPECT_TRUE(shop.shop()->all<Disposal>().begin()->proceeds.is_zero());
}

TEST(YardPage, NoteTypedBesideTheTableIsSavedWhenLeft) {
  YardShop shop;
  const MachineId machine = shop.log("Tarnwick", YardShop::today(), 20);
  const auto page = shown(shop.session(), makeYardPage);
  named(page.get(), "stripNote")->setFocus();
  Keys keys{page.get()};
  keys.type("bent handle");
  keys.press(Qt::Key_Return);
  EXPECT_EQ(shop.shop()->find(machine)->note, "bent handle");
}

TEST(YardPage, SaysWhatGoesHereWhileItIsEmptyAndOffersTheFirstStep) {
  YardShop shop;
  const auto page = shown(shop.session(), makeYardPage);
  auto* step = named<QPushButton>(named(page.get(), "emptyYard"), "firstStep");
  ASSERT_TRUE(step->isVisible());
  QTest::mouseClick(step, Qt::LeftButton);
  EXPECT_TRUE(named(page.get(), "yard.log-machine")->isVisible());
}

TEST(YardPage, EveryFieldAndButtonHasANameForAScreenReader) {
  YardShop shop;
  shop.log("Tarnwick", YardShop::today(), 20);
  const auto page = shown(shop.session(), makeYardPage);
  doDeed(*page, "log a lot");
  for (const QWidget* widget : page->findChildren<QWidget*>()) {
    if (widget->focusPolicy() == Qt::NoFocus || !widget->isVisible()) continue;
    const auto* button = qobject_cast<const QAbstractButton*>(widget);
    const bool named_by_text = button != nullptr && !button->text().isEmpty();
    EXPECT_TRUE(named_by_text || !widget->accessibleName().isEmpty())
        << widget->metaObject()->className() << " " << widget->objectName().toStdString();
  }
}

/// A picture file of that size, its left half red and its right half blue.
QString pictureFile(const YardShop& shop, QSize size) {
  QImage image{size, QImage::Format_RGB32};
  image.fill(Qt::blue);
  for (int y = 0; y < size.height(); ++y)
    for (int x = 0; x < size.width() / 2; ++x)
      image.setPixel(x, y, qRgb(255, 0, 0));
  image.setText("Description", "taken at 12 Nowhere Lane");
  const QString path = shop.folder() + "/deck.png";
  image.save(path);
  return path;
}

TEST(PhotoDropped, IsKeptForTheMachineAndUndoneAsOneAction) {
  YardShop shop;
  const MachineId machine = shop.log("Tarnwick", YardShop::today(), 20);
  const auto page = shown(shop.session(), makeYardPage);
  auto* strip = named<PhotoStrip>(page.get(), "photoStrip");
  QMimeData data;
  data.setUrls({QUrl::fromLocalFile(pictureFile(shop, {3000, 1500}))});
  QDragEnterEvent enter{QPoint{10, 10}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier};
  QApplication::sendEvent(strip->viewport(), &enter);
  EXPECT_TRUE(enter.isAccepted());
  QDropEvent drop{QPointF{10, 10}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier};
  QApplication::sendEvent(strip->viewport(), &drop);
  ASSERT_EQ(shop.shop()->all<Photo>().size(), 1u);
  const Photo photo = *shop.shop()->all<Photo>().begin();
  EXPECT_EQ(photo.machine, machine);
  EXPECT_EQ(photo.name, "deck.png");
  EXPECT_EQ(strip->count(), 1);
  const QByteArray kept = shop.session().photo(photo.sha256);
  EXPECT_EQ(QImage::fromData(kept).size(), QSize(2000, 1000));
  EXPECT_FALSE(kept.contains("Nowhere Lane"));

  ASSERT_FALSE(shop.session().undo());
  EXPECT_TRUE(shop.shop()->all<Photo>().empty());
  EXPECT_EQ(strip->count(), 0);
}

TEST(PhotoReading, KeepsWhatIsNoPictureAsItWas) {
  EXPECT_EQ(readyPhoto("%PDF-1.4 a scanned slip"), "%PDF-1.4 a scanned slip");
}

/// A JPEG of 40 x 20 points with an EXIF block that says "turn it a quarter to the right" and where it was
/// taken.
QByteArray turnedPhoto() {
  QImage image{40, 20, QImage::Format_RGB32};
  image.fill(Qt::red);
  QByteArray jpeg;
  QBuffer buffer{&jpeg};
  buffer.open(QIODevice::WriteOnly);
  image.save(&buffer, "JPEG");
  // EXIF 2.3, 4.5.2 to 4.6.4: APP1, TIFF header (little-endian), one IFD of two entries: orientation (0x0112)
  // 6, image description (0x010E) as text.
  const QByteArray place = QByteArray{"12 Nowhere Lane\0", 16};
  QByteArray tiff = QByteArray::fromHex(
      "49492a0008000000"
      "0200");
  tiff += QByteArray::fromHex(
      "0e010200"
      "10000000"
      "26000000");
  tiff += QByteArray::fromHex(
      "12010300"
      "01000000"
      "06000000");
  tiff += QByteArray::fromHex("00000000") + place;
  const QByteArray body = QByteArray{"Exif\0\0", 6} + tiff;
  const auto length = body.size() + 2;
  QByteArray block = QByteArray::fromHex("ffe1");
  block += static_cast<char>(length >> 8);
  block += static_cast<char>(length & 0xff);
  return jpeg.insert(2, block + body);
}

TEST(PhotoReading, TurnsAPhotoUprightAndForgetsWhereItWasTaken) {
  const QByteArray original = turnedPhoto();
  ASSERT_TRUE(original.contains("Nowhere Lane"));
  const QByteArray kept = readyPhoto(original);
  EXPECT_EQ(QImage::fromData(kept).size(), QSize(20, 40));
  EXPECT_FALSE(kept.contains("Nowhere Lane"));
  EXPECT_FALSE(kept.contains("Exif"));
}

}  // namespace
}  // namespace secondpull::app
