#include <QFile>
#include <QProcess>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <gtest/gtest.h>

#include "app/print/paper.h"
#include "app/print/report_bar.h"
#include "app/print/report_csv.h"
#include "db/exchange/csv.h"

namespace secondpull::app::test {
namespace {

Report aReport() {
  return {.title = "The year 2026",
          .subtitle = "Wendle Garage, 20 May 2026",
          .sections = {{.heading = "Part I: income",
                        .columns = {{"Line", false}, {"What", false}, {"Amount", true}},
                        .rows = {{{"1", "gross receipts, \"all\"", {"$1,189.20", "1189.20"}}, false},
                                 {{"2", "returns\nand allowances", {"−$4.00", "-4.00"}}, false},
                                 {{"7", "gross income", {"$1,185.20", "1185.20"}}, true}}},
                       {.heading = "Notes", .columns = {{"What", false}}, .rows = {{{"=1+1"}, false}}}},
          .notes = {noTaxAdvice()},
          .file_name = "year-2026"};
}

QString textOf(const QString& pdf) {
  QProcess reader;
  reader.start("pdftotext", {"-layout", pdf, "-"});
  if (!reader.waitForFinished()) return {};
  return QString::fromUtf8(reader.readAllStandardOutput());
}

TEST(Paper, APdfHoldsTitleFiguresAndTheNote) {
  const QTemporaryDir folder;
  const QString path = folder.filePath("year.pdf");
  const auto wrong = writePdf(aReport(), path);
  ASSERT_FALSE(wrong) << wrong->sentence;
  const QString text = textOf(path).simplified();
  for (const char* words : {"The year 2026", "Wendle Garage", "Part I: income", "gross receipts", "$1,189.20",
                            "−$4.00", "$1,185.20", "This is no tax advice", "page 1 of 1"})
    EXPECT_TRUE(text.contains(words)) << words << "\n" << text.toStdString();
}

TEST(Paper, ALongTableGoesOnWithItsHeadAndNumberedPages) {
  Report report = aReport();
  for (int row = 0; row < 200; ++row)
    report.sections[0].rows.push_back({{QString::number(row), "more", {"$1.00", "1.00"}}, false});
  const QTemporaryDir folder;
  const QString path = folder.filePath("long.pdf");
  ASSERT_FALSE(writePdf(report, path));
  const QString text = textOf(path);
  const auto pages = text.count('\f');
  EXPECT_GT(pages, 2);
  EXPECT_TRUE(text.contains(QString{"page %1 of %1"}.arg(pages))) << text.toStdString();
  EXPECT_GE(text.count("Amount"), 3);
  EXPECT_TRUE(text.contains("199"));
}

TEST(Paper, AHeadingIsNeverTheLastOfAPage) {
  const QTemporaryDir folder;
  const QString path = folder.filePath("heading.pdf");
  // Row by row longer: somewhere among these the second heading would come to the foot of the page.
  for (int rows = 25; rows < 50; ++rows) {
    Report report = aReport();
    report.sections[0].rows.resize(1);
    for (int row = 0; row < rows; ++row)
      report.sections[0].rows.push_back({{QString::number(row), "more", {"$1.00", "1.00"}}, false});
    report.sections[1].heading = "Second heading";
    report.sections.push_back(report.sections[1]);
    report.sections[2].heading = "Third heading";
    report.sections[1].rows[0].cells[0] = {"its first row"};
    ASSERT_FALSE(writePdf(report, path));
    const QString text = textOf(path);
    EXPECT_TRUE(text.contains("Second heading")) << rows;
    EXPECT_TRUE(text.contains("Third heading")) << rows;
    for (const QString& page : text.split(u'\f'))
      EXPECT_EQ(page.contains("Second heading"), page.contains("its first row")) << rows;
  }
}

TEST(Paper, AFileThatCannotBeWrittenIsNamed) {
  const auto wrong = writePdf(aReport(), "/no/such/folder/year.pdf");
  ASSERT_TRUE(wrong);
  EXPECT_NE(wrong->sentence.find("/no/such/folder/year.pdf"), std::string::npos);
  EXPECT_TRUE(writeCsv(aReport(), "/no/such/folder/year.csv"));
}

TEST(ReportCsv, ReadsBackAsTheCells) {
  const std::string text = csvOf(aReport());
  const db::CsvTable table = db::read_csv(text);
  ASSERT_TRUE(table.faults().empty());
  const std::vector<std::vector<std::string>> wanted{{"Part I: income", "", ""},
                                                     {"Line", "What", "Amount"},
                                                     {"1", "gross receipts, \"all\"", "1189.20"},
                                                     {"2", "returns\nand allowances", "-4.00"},
                                                     {"7", "gross income", "1185.20"},
                                                     {"", "", ""},
                                                     {"Notes", "", ""},
                                                     {"What", "", ""},
                                                     {"=1+1", "", ""}};
  ASSERT_EQ(table.size(), wanted.size());
  for (std::size_t row = 0; row < wanted.size(); ++row) {
    const db::CsvRow read = table.row(row);
    std::vector<std::string> cells;
    for (const std::string_view cell : read.cells)
      cells.emplace_back(db::unguard_formula(cell));
    EXPECT_EQ(cells, wanted[row]);
  }
}

TEST(ReportCsv, GuardsFormulasAndLeavesFiguresPlain) {
  const std::string text = csvOf(aReport());
  EXPECT_NE(text.find("'=1+1"), std::string::npos);
  EXPECT_EQ(text.find("'-4.00"), std::string::npos);
}

TEST(ReportBar, SaysWhereItWroteAndWhatWentWrong) {
  ReportBar bar{aReport};
  QSignalSpy said{&bar, &ReportBar::said};
  const QTemporaryDir folder;
  bar.writeCsvTo(folder.filePath("year.csv"));
  bar.writePdfTo(folder.filePath("year.pdf"));
  bar.writePdfTo("/no/such/folder/year.pdf");
  ASSERT_EQ(said.count(), 3);
  EXPECT_FALSE(said[0][1].toBool());
  EXPECT_TRUE(QFile::exists(folder.filePath("year.csv")));
  EXPECT_FALSE(said[1][1].toBool());
  EXPECT_TRUE(said[2][1].toBool());
  EXPECT_TRUE(said[2][0].toString().contains("/no/such/folder/year.pdf"));
}

}  // namespace
}  // namespace secondpull::app::test
