#include "app/print/paper.h"

#include <algorithm>
#include <set>

#include <QAbstractTextDocumentLayout>
#include <QCoreApplication>
#include <QPagedPaintDevice>
#include <QPainter>
#include <QTextBlock>
#include <QTextCursor>
#include <QTextDocument>
#include <QTextTable>

#include "app/print/report_csv.h"

namespace secondpull::app {
namespace {

constexpr int kManyColumns = 8;  // more than this lie better across the paper
constexpr double kMargin = 16;   // mm
constexpr double kFoot = 8;      // mm, for the page number
constexpr double kMillimetre = 25.4;
constexpr qreal kPoints = 9.5;
constexpr int kSectionLevel = 2;  // h2

QString tr(const char* text) {
  return QCoreApplication::translate("Paper", text);
}

/// What it says, as rich text of QTextDocument. Cells keep their words together where they are figures.
class Markup {
 public:
  /// With the headings, counted from 0, that begin a page.
  explicit Markup(std::set<int> on_new_page) : on_new_page_{std::move(on_new_page)} {}
  QString of(const Report& report) {
    text_ = QStringLiteral("<h1>%1</h1><p class='sub'>%2</p>")
                .arg(report.title.toHtmlEscaped(), report.subtitle.toHtmlEscaped());
    for (const ReportSection& section : report.sections)
      add(section);
    for (const QString& note : report.notes)
      text_ += QStringLiteral("<p class='note'>%1</p>").arg(note.toHtmlEscaped());
    return text_;
  }

 private:
  void add(const ReportSection& section) {
    if (!section.heading.isEmpty())
      text_ +=
          QStringLiteral("<h2%1>%2</h2>")
              .arg(on_new_page_.contains(headings_++) ? QStringLiteral(" style='page-break-before: always'")
                                                      : QString{},
                   section.heading.toHtmlEscaped());
    text_ += QStringLiteral("<table width='100%' cellspacing='0' cellpadding='3'><thead><tr>");
    const std::vector<int> shares = sharesOf(section);
    for (std::size_t at = 0; at < section.columns.size(); ++at)
      text_ += QStringLiteral("<th class='head' width='%1%' align='%2'>%3</th>")
                   .arg(QString::number(shares[at]), side(section.columns[at]),
                        section.columns[at].title.toHtmlEscaped());
    text_ += QStringLiteral("</tr></thead>");
    for (const ReportRow& row : section.rows) {
      text_ += QStringLiteral("<tr>");
      for (std::size_t at = 0; at < section.columns.size(); ++at) {
        const QString words = at < row.cells.size() ? row.cells[at].text.toHtmlEscaped() : QString{};
        QString cell = section.columns[at].figure ? QString{words}.replace(u' ', QChar{0xa0}) : words;
        // A table whose last cell is empty would take away the space above the heading that follows.
        if (cell.isEmpty()) cell = QChar{0xa0};
        if (row.sum && !words.isEmpty()) cell = QStringLiteral("<b>%1</b>").arg(cell);
        text_ +=
            QStringLiteral("<td align='%1'%2>%3</td>")
                .arg(side(section.columns[at]), row.sum ? QStringLiteral(" class='sum'") : QString{}, cell);
      }
      text_ += QStringLiteral("</tr>");
    }
    text_ += QStringLiteral("</table>");
  }
  /// The columns' widths in hundredths: by their longest text, so that like tables of a report line up.
  static std::vector<int> sharesOf(const ReportSection& section) {
    constexpr qsizetype kLeast = 8, kMost = 60;
    std::vector<qsizetype> longest;
    qsizetype all = 0;
    for (std::size_t at = 0; at < section.columns.size(); ++at) {
      qsizetype length = std::max(kLeast, section.columns[at].title.size());
      for (const ReportRow& row : section.rows)
        if (at < row.cells.size()) length = std::max(length, row.cells[at].text.size());
      longest.push_back(std::min(length, kMost));
      all += longest.back();
    }
    std::vector<int> shares;
    for (const qsizetype length : longest)
      shares.push_back(static_cast<int>(100 * length / all));
    return shares;
  }
  static QString side(const ReportColumn& column) {
    return column.figure ? QStringLiteral("right") : QStringLiteral("left");
  }
  std::set<int> on_new_page_;
  int headings_ = 0;
  QString text_;
};

/// Where the table of a heading begins to say something: its first row below the head, or what there is.
QTextBlock firstWordsOf(const QTextBlock& heading) {
  const QTextBlock next = heading.next();
  const QTextTable* table = next.isValid() ? QTextCursor{next}.currentTable() : nullptr;
  if (table == nullptr) return next;
  return table->cellAt(std::min(1, table->rows() - 1), 0).lastCursorPosition().block();
}

/// The first section whose heading stands on another page than what it is of; -1 if there is none.
int headingAlone(const QTextDocument& document) {
  const qreal page = document.pageSize().height();
  const QAbstractTextDocumentLayout& layout = *document.documentLayout();
  const auto pageOf = [&](qreal y) { return static_cast<int>(y / page); };
  int section = -1;
  for (QTextBlock block = document.begin(); block.isValid(); block = block.next()) {
    if (block.blockFormat().headingLevel() != kSectionLevel) continue;
    ++section;
    const QTextBlock words = firstWordsOf(block);
    if (words.isValid() &&
        pageOf(layout.blockBoundingRect(block).top()) != pageOf(layout.blockBoundingRect(words).bottom()))
      return section;
  }
  return -1;
}

/// Lays the report out on pages of that size; a heading that would be the last of a page begins the next.
void layOut(QTextDocument& document, const Report& report, const QSizeF& page) {
  std::set<int> on_new_page;
  while (true) {
    document.setHtml(Markup{on_new_page}.of(report));
    document.setPageSize(page);
    const int alone = headingAlone(document);
    if (alone < 0 || !on_new_page.insert(alone).second) return;
  }
}

void writePage(QPainter& painter, const QTextDocument& document, int page, const QSizeF& size) {
  painter.save();
  painter.translate(0, -page * size.height());
  QAbstractTextDocumentLayout::PaintContext context;
  context.clip = QRectF{0, page * size.height(), size.width(), size.height()};
  painter.setClipRect(context.clip);
  context.palette.setColor(QPalette::Text, Qt::black);
  document.documentLayout()->draw(&painter, context);
  painter.restore();
}

}  // namespace

QString noTaxAdvice() {
  return tr("This is no tax advice: rules differ by place and change, and a licensed preparer decides.");
}

Sheet sheetOf(const Report& report) {
  const bool across = std::any_of(report.sections.begin(), report.sections.end(),
                                  [](const auto& section) { return section.columns.size() > kManyColumns; });
  return {.title = report.title,
          .file_name = report.file_name,
          .layout = paperPage(across ? QPageLayout::Landscape : QPageLayout::Portrait),
          .draw = [report](QPagedPaintDevice& device) { return drawReport(report, device); }};
}

int drawReport(const Report& report, QPagedPaintDevice& device) {
  QPainter painter{&device};
  if (!painter.isActive()) return 0;
  const double per_mm = device.logicalDpiY() / kMillimetre;
  const QSizeF page{static_cast<qreal>(device.width()), device.height() - kFoot * per_mm};
  QTextDocument document;
  document.documentLayout()->setPaintDevice(&device);
  document.setDocumentMargin(0);
  document.setDefaultFont(paperFont(kPoints));
  document.setDefaultStyleSheet(
      QStringLiteral("h1 { font-size: 17pt; font-weight: normal; margin: 0 }"
                     "h2 { font-size: 12pt; font-weight: bold; margin-top: 10px; margin-bottom: 4px }"
                     "p.sub { color: #444444; margin-top: 2px; margin-bottom: 6px }"
                     "p.note { color: #222222; margin-top: 8px; margin-bottom: 0 }"
                     "th.head { font-weight: normal; color: #444444; border-bottom: 1px solid #888888 }"
                     "td.sum { border-top: 1px solid #888888 }"));
  layOut(document, report, page);
  const int pages = document.pageCount();
  for (int at = 0; at < pages; ++at) {
    if (at > 0) device.newPage();
    writePage(painter, document, at, page);
    painter.setPen(Qt::black);
    painter.setFont(paperFont(kPoints - 1));
    const QRectF foot{0, page.height(), page.width(), kFoot * per_mm};
    painter.drawText(foot, Qt::AlignLeft | Qt::AlignBottom, report.title);
    painter.drawText(foot, Qt::AlignRight | Qt::AlignBottom, tr("page %1 of %2").arg(at + 1).arg(pages));
  }
  return pages;
}

std::optional<Problem> writePdf(const Report& report, const QString& path) {
  return writeSheetPdf(sheetOf(report), path);
}

std::optional<Problem> writeCsv(const Report& report, const QString& path) {
  return writeWhole(path, QByteArray::fromStdString(csvOf(report)));
}

}  // namespace secondpull::app
