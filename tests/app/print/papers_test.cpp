#include <QDir>
#include <QFile>
#include <QImage>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <gtest/gtest.h>

#include "app/print/bench_sheet_paper.h"
#include "app/print/listing_paper.h"
#include "app/print/receipt_paper.h"
#include "app/print/tag_paper.h"

namespace secondpull::app::test {
namespace {

struct Ran {
  int code = -1;
  QString out;
};
Ran run(const QString& program, const QStringList& arguments) {
  QProcess process;
  process.start(program, arguments);
  constexpr int kLongest = 300'000;  // ms; a busy machine
  if (!process.waitForFinished(kLongest)) return {};
  return {process.exitCode(), QString::fromUtf8(process.readAllStandardOutput())};
}

/// A PDF that was written; its words, with every run of spaces as one.
class Pdf {
 public:
  template <class Write>
  explicit Pdf(Write write) {
    const auto wrong = write(path());
    EXPECT_FALSE(wrong) << wrong->sentence;
    const Ran checked = run("qpdf", {"--check", path()});
    EXPECT_EQ(checked.code, 0) << checked.out.toStdString();
    layout_ = run("pdftotext", {"-layout", path(), "-"}).out;
  }
  QString path() const { return folder_.filePath("paper.pdf"); }
  QString words() const { return layout_.simplified(); }
  /// Words without any space: how a text that was wrapped is found again.
  QString letters() const { return QString{layout_}.remove(QRegularExpression{"\\s"}); }
  qsizetype pages() const { return layout_.count(u'\f'); }
  bool holds(const char* text) const { return words().contains(QString::fromUtf8(text).simplified()); }
  /// What a scanner reads that is held over one place after another, of this size, from the margins in; at
  /// 300 dpi; sorted.
  QStringList scanned(QSizeF place = {}, double margin = 0) const {
    constexpr double kDots = 300 / 25.4;  // a mm
    EXPECT_EQ(run("pdftoppm", {"-r", "300", "-gray", "-png", path(), folder_.filePath("page")}).code, 0);
    QStringList pieces;
    for (const QString& page : QDir{folder_.path()}.entryList({"page*.png"}, QDir::Files, QDir::Name)) {
      const QImage image{folder_.filePath(page)};
      const QSizeF size = place.isEmpty() ? QSizeF{image.size()} : place * kDots;
      for (double y = margin * kDots; y + size.height() <= image.height() + 1; y += size.height())
        for (double x = margin * kDots; x + size.width() <= image.width() + 1; x += size.width()) {
          pieces << folder_.filePath(QString{"piece%1.png"}.arg(pieces.size()));
          EXPECT_TRUE(image.copy(QRectF{{x, y}, size}.toRect()).save(pieces.back()));
        }
    }
    QStringList codes =
        run("zbarimg", QStringList{"--quiet", "--raw"} + pieces).out.split(u'\n', Qt::SkipEmptyParts);
    codes.sort();
    return codes;
  }

 private:
  QTemporaryDir folder_;
  QString layout_;
};

Date day(int month, int of_month) {
  return std::chrono::year{2026} / month / of_month;
}
Money cents(std::int64_t count) {
  return Money::from_minor(count);
}

paper::Tag aTag(const std::string& number = "#14") {
  return {.number = number,
          .machine = "Tarnwick TW-2 self-propelled mower",
          .symptom = "starts on prime, then dies",
          .came = day(3, 5),
          .code = number};
}

const std::string kLongName = "Großhöfer Überlängenmäher " + std::string(150, 'W') + " Ende";

paper::Receipt aReceipt() {
  return {
      .number = "26",
      .date = day(5, 20),
      .seller = "Wendle Garage",
      .buyer = "Jürgen Ångström-Müller",
      .buyer_contact = "555 01",
      .lines = {{"#14 Tarnwick TW-2 self-propelled mower", "serial 66G84520, 2016, 21 in cut", cents(18'550)},
                {"#15 Ostrel lawn tractor", "serial number not on record", cents(140'000)},
                {"3 x spark plug", "", cents(1'800)}},
      .goods = cents(160'350),
      .taxes = {{"Sales tax, Ovenden", cents(11'099)}},
      .total = cents(171'449),
      .deposits = {{"Deposit of 11 May 2026, cash", cents(2'000)}},
      .balance = cents(169'449),
      .payment = "cash",
      .delivered = true,
      .machines = {{.name = "#14 Tarnwick TW-2 self-propelled mower",
                    .terms = "It is sold as a running machine.",
                    .warranty = "Warranty of 14 days, until 3 June 2026.",
                    .recall = "Recalls: looked up on 19 May 2026: none found."},
                   {.name = "#15 Ostrel lawn tractor",
                    .terms = "It is sold as it stands.",
                    .warranty = "No warranty is given.",
                    .wrong = {"Does not start", "flat tire"}}},
      .safety = {"Read the maker's manual.", "Fill fuel outdoors only."}};
}

paper::BenchSheet aBenchSheet() {
  return {.tag = aTag(),
          .facts = "serial 66G84520, engine Orlick 163",
          .came_with = "starts on prime, then dies; rusty deck",
          .made = day(5, 4),
          .causes = {{"Main jet clogged", 0.6}, {"Fuel line kinked", 0.25}},
          .other_causes = 0.15,
          .steps = {{.title = "Look at the jet against the light",
                     .takes = "12 min, about $4",
                     .says = "Bowl off, jet out.",
                     .why = "It beats the next best by 12.40.",
                     .cautions = {"Gasoline fire. Outside only, engine cold."},
                     .readings = {{"Jet bore", "0.6 to 0.7 mm"}},
                     .outcomes = {{"clear", "40 %; then: Fuel line renewed"},
                                  {"clogged", "60 %; then: Bowl and jet cleaned"}}},
                    {.when = "If it shows \"clogged\" (60 %):",
                     .title = "Bowl and jet cleaned",
                     .takes = "40 min",
                     .outcomes = {{"It is mended", "75 %; then the test run"}}}},
          .stop_if = {"Stop if \"Bowl and jet cleaned\" does not help: scrap (15 %)."},
          .seen = {"Spark tester: strong"}};
}

TEST(TagPaper, IsReadBackByAScanner) {
  const Pdf pdf{[](const QString& path) { return writeTagsPdf({aTag()}, path); }};
  EXPECT_EQ(pdf.scanned(), QStringList{"#14"});
  EXPECT_EQ(pdf.pages(), 1);
  for (const char* words :
       {"#14", "Tarnwick TW-2 self-", "starts on prime, then dies", "in since 5 March 2026"})
    EXPECT_TRUE(pdf.holds(words)) << words << "\n" << pdf.words().toStdString();
}

TEST(TagPaper, OfManyMachinesHasEachOnce) {
  std::vector<paper::Tag> tags;
  QStringList numbers;
  for (int number = 1; number <= 40; ++number) {
    tags.push_back(aTag("#" + std::to_string(number)));
    numbers << QString::fromStdString(tags.back().number);
  }
  numbers.sort();
  const Pdf pdf{[&](const QString& path) { return writeTagsPdf(tags, path); }};
  EXPECT_EQ(pdf.pages(), 4);  // ten on each, on A4 and on Letter
  EXPECT_EQ(pdf.scanned({90, 50}, 8), numbers);
}

TEST(TagPaper, ALabelIsOneTagOfItsOwnSize) {
  const Pdf pdf{[](const QString& path) { return writeTagLabelPdf(aTag(), path); }};
  EXPECT_EQ(pdf.scanned(), QStringList{"#14"});
  const QString info = run("pdfinfo", {pdf.path()}).out;
  // 90 x 50 mm at 72 points to the inch of 25.4 mm.
  EXPECT_TRUE(info.contains(QRegularExpression{"Page size: +255(\\.\\d+)? x 14[12](\\.\\d+)? pts"}))
      << info.toStdString();
}

TEST(TagPaper, KeepsUmlautsAndALongName) {
  paper::Tag tag = aTag("#Süd-7");
  tag.machine = "Großhöfer Überlängenmäher mit Fangkorb und Radantrieb, self-propelled mower";
  tag.symptom = "läuft nur mit gezogenem Choke, stirbt unter Last ab und raucht beim Anlassen blau";
  const Pdf pdf{[&](const QString& path) { return writeTagLabelPdf(tag, path); }};
  EXPECT_EQ(pdf.scanned(), QStringList{"#Süd-7"});
  EXPECT_TRUE(pdf.letters().contains(QString::fromStdString(tag.machine).remove(u' ')))
      << pdf.words().toStdString();
  EXPECT_TRUE(pdf.letters().contains(QString::fromStdString(tag.symptom).remove(u' ')))
      << pdf.words().toStdString();
}

TEST(TagPaper, KeepsEveryLetterOfALongNumber) {
  const std::string number = "#" + std::string(40, '8');
  const Pdf pdf{[&](const QString& path) { return writeTagLabelPdf(aTag(number), path); }};
  EXPECT_EQ(pdf.scanned(), QStringList{QString::fromStdString(number)});
  EXPECT_TRUE(pdf.letters().contains(QString::fromStdString(number))) << pdf.words().toStdString();
}

TEST(TagPaper, WithoutTagsIsAProblem) {
  const QTemporaryDir folder;
  EXPECT_TRUE(writeTagsPdf({}, folder.filePath("none.pdf")));
  EXPECT_FALSE(QFile::exists(folder.filePath("none.pdf")));
}

TEST(ReceiptPaper, HoldsThingsAmountsTermsAndBothNames) {
  const Pdf pdf{[](const QString& path) { return writeReceiptPdf(aReceipt(), {}, path); }};
  for (const char* words : {"Wendle Garage",
                            "Sales receipt 26",
                            "20 May 2026",
                            "Jürgen Ångström-Müller",
                            "555 01",
                            "#14 Tarnwick TW-2 self-propelled mower $185.50",
                            "serial 66G84520",
                            "#15 Ostrel lawn tractor $1,400.00",
                            "serial number not on record",
                            "3 x spark plug $18.00",
                            "Together $1,603.50",
                            "Sales tax, Ovenden $110.99",
                            "Total $1,714.49",
                            "Deposit of 11 May 2026, cash −$20.00",
                            "Paid on 20 May 2026, cash $1,694.49",
                            "Delivery is part of the price",
                            "It is sold as a running machine",
                            "Warranty of 14 days, until 3 June 2026",
                            "No fault of it was known",
                            "flat tire",
                            "Recalls: looked up on 19 May 2026",
                            "Read the maker's manual",
                            "Fill fuel outdoors",
                            "Seller: Wendle Garage",
                            "Buyer: Jürgen Ångström-Müller",
                            "page 1 of"})
    EXPECT_TRUE(pdf.holds(words)) << words << "\n" << pdf.words().toStdString();
}

TEST(ReceiptPaper, SaysWhenTheDepositWasMoreThanThePrice) {
  paper::Receipt receipt = aReceipt();
  receipt.balance = cents(-500);
  const Pdf pdf{[&](const QString& path) { return writeReceiptPdf(receipt, {}, path); }};
  EXPECT_TRUE(pdf.holds("To be given back to the buyer $5.00")) << pdf.words().toStdString();
}

TEST(ReceiptPaper, WrapsALongNameAndGoesOnOverPages) {
  paper::Receipt receipt = aReceipt();
  receipt.seller.clear();
  receipt.buyer = kLongName;
  receipt.lines[0].what = kLongName;
  for (int at = 0; at < 60; ++at)
    receipt.lines.push_back({"part " + std::to_string(at), "", cents(100 + at)});
  const Pdf pdf{[&](const QString& path) { return writeReceiptPdf(receipt, {}, path); }};
  EXPECT_GT(pdf.pages(), 1);
  EXPECT_TRUE(pdf.holds("part 59 $1.59"));
  EXPECT_TRUE(pdf.letters().contains(QString(150, u'W'))) << pdf.words().toStdString();
  EXPECT_TRUE(pdf.holds("Großhöfer Überlängenmäher"));
  EXPECT_TRUE(pdf.words().contains(QString{"page %1 of %1"}.arg(pdf.pages())));
}

TEST(ReceiptPaper, OfNothingIsAProblem) {
  const QTemporaryDir folder;
  EXPECT_TRUE(writeReceiptPdf({}, {}, folder.filePath("none.pdf")));
  EXPECT_FALSE(QFile::exists(folder.filePath("none.pdf")));
}

TEST(BenchSheetPaper, HoldsThePlanAndIsReadByAScanner) {
  const Pdf pdf{[](const QString& path) { return writeBenchSheetPdf(aBenchSheet(), path); }};
  for (const char* words :
       {"#14", "Tarnwick TW-2 self-propelled mower", "serial 66G84520, engine Orlick 163", "Main jet clogged",
        "60 %", "all others", "15 %", "Spark tester: strong",
        "1 Look at the jet against the light 12 min, about $4", "Bowl off, jet out.",
        "It beats the next best by 12.40.", "Care Gasoline fire. Outside only, engine cold.",
        "Jet bore published: 0.6 to 0.7 mm", "clogged 60 %; then: Bowl and jet cleaned",
        "If it shows \"clogged\" (60 %):", "2 Bowl and jet cleaned", "does not help: scrap (15 %).", "Notes",
        "the maker's manual comes first"})
    EXPECT_TRUE(pdf.holds(words)) << words << "\n" << pdf.words().toStdString();
  EXPECT_EQ(pdf.scanned(), QStringList{"#14"});
}

TEST(BenchSheetPaper, WithoutAPlanIsOnePageToWriteOn) {
  paper::BenchSheet sheet{.tag = aTag(), .made = day(5, 4)};
  sheet.tag.symptom.clear();
  sheet.tag.machine = kLongName;
  const Pdf pdf{[&](const QString& path) { return writeBenchSheetPdf(sheet, path); }};
  EXPECT_EQ(pdf.pages(), 1);
  EXPECT_TRUE(pdf.holds("What I did"));
  EXPECT_TRUE(pdf.holds("not tried yet"));
  EXPECT_FALSE(pdf.holds("Next steps"));
  EXPECT_TRUE(pdf.letters().contains(QString(150, u'W')));
}

TEST(ListingPaper, HoldsTitlePriceAndEveryParagraph) {
  ListingPaper listing{
      .words = {"Tarnwick TW-2, läuft", "First words.\n\nDone to it here:\n- Mended: Surges\n- Fitted: plug"},
      .price = "$145",
      .seller = "Wendle Garage",
      .number = "#14"};
  QImage photo{600, 400, QImage::Format_RGB32};
  photo.fill(Qt::darkGreen);
  listing.photo = photo;
  const Pdf pdf{[&](const QString& path) { return writeListingPdf(listing, path); }};
  for (const char* words : {"Tarnwick TW-2, läuft", "$145", "First words.", "– Mended: Surges",
                            "– Fitted: plug", "Wendle Garage: ask for #14"})
    EXPECT_TRUE(pdf.holds(words)) << words << "\n" << pdf.words().toStdString();
  EXPECT_TRUE(run("pdfimages", {"-list", pdf.path()}).out.contains("image"));
}

TEST(ListingPaper, GoesOnOverPages) {
  ListingPaper listing{.words = {"Mower", {}}};
  for (int line = 0; line < 200; ++line)
    listing.words.body += "line " + std::to_string(line) + "\n";
  const Pdf pdf{[&](const QString& path) { return writeListingPdf(listing, path); }};
  EXPECT_GT(pdf.pages(), 2);
  EXPECT_TRUE(pdf.holds("line 0 line 1"));
  EXPECT_TRUE(pdf.holds("line 199"));
}

TEST(Papers, AreWrittenWholeOrNotAtAll) {
  for (const auto& wrong : {writeTagsPdf({aTag()}, "/no/such/folder/a.pdf"),
                            writeReceiptPdf(aReceipt(), {}, "/no/such/folder/a.pdf"),
                            writeBenchSheetPdf(aBenchSheet(), "/no/such/folder/a.pdf"),
                            writeListingPdf({.words = {"Mower", ""}}, "/no/such/folder/a.pdf")}) {
    ASSERT_TRUE(wrong);
    EXPECT_NE(wrong->sentence.find("/no/such/folder/a.pdf"), std::string::npos);
  }
}

}  // namespace
}  // namespace secondpull::app::test
