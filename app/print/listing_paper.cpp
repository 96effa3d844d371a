#include "app/print/listing_paper.h"

#include <algorithm>

#include <QCoreApplication>
#include <QPainter>

#include "app/print/page_pen.h"

namespace secondpull::app {
namespace {

constexpr double kPhotoHeight = 105;  // mm at most
constexpr qreal kTitle = 24;
constexpr qreal kPrice = 44;
constexpr qreal kBody = 13;

QString say(const char* text) {
  return QCoreApplication::translate("Paper", text);
}

void drawPhoto(const QImage& photo, PagePen& pen) {
  if (photo.isNull()) return;
  const double shape = static_cast<double>(photo.width()) / photo.height();
  const double height = std::min(kPhotoHeight, pen.width() / shape);
  pen.keepTogether(height);
  if (QPainter* painter = pen.painter()) {
    painter->setRenderHint(QPainter::SmoothPixmapTransform);
    painter->drawImage(QRectF{pen.dots((pen.width() - height * shape) / 2), pen.dots(pen.y()),
                              pen.dots(height * shape), pen.dots(height)},
                       photo);
  }
  pen.space(height);
  pen.space(4);
}

/// Paragraphs, and lines that begin with a dash as a list.
void drawBody(const std::string& body, PagePen& pen) {
  const PenStyle style{.points = kBody};
  for (const QString& line : QString::fromStdString(body).split(u'\n')) {
    const QString words = line.trimmed();
    if (words.isEmpty())
      pen.space(2.5);
    else if (words.startsWith(QStringLiteral("- ")))
      pen.list({words.mid(2).toStdString()}, style, 2);
    else
      pen.text(words, style);
  }
}

int draw(const ListingPaper& listing, QPagedPaintDevice& device) {
  if (listing.words.title.empty()) return 0;
  const QString foot = listing.seller.isEmpty() || listing.number.isEmpty()
                           ? listing.seller + listing.number
                           : say("%1: ask for %2").arg(listing.seller, listing.number);
  return drawPages(device, foot, [&](PagePen& pen) {
    pen.text(QString::fromStdString(listing.words.title), {.points = kTitle, .bold = true});
    if (!listing.price.isEmpty()) {
      pen.space(1);
      pen.text(listing.price, {.points = kPrice, .bold = true});
    }
    pen.space(2);
    pen.rule(true);
    pen.space(4);
    drawPhoto(listing.photo, pen);
    drawBody(listing.words.body, pen);
  });
}

}  // namespace

Sheet listingSheet(const ListingPaper& listing) {
  const QString number = listing.number.startsWith(u'#') ? listing.number.mid(1) : listing.number;
  return {.title = QString::fromStdString(listing.words.title),
          .file_name = QStringLiteral("listing-%1").arg(number),
          .layout = paperPage(),
          .draw = [listing](QPagedPaintDevice& device) { return draw(listing, device); }};
}

std::optional<Problem> writeListingPdf(const ListingPaper& listing, const QString& path) {
  return writeSheetPdf(listingSheet(listing), path);
}

}  // namespace secondpull::app
