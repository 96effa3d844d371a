#include "app/print/tag_paper.h"

#include <algorithm>

#include <QCoreApplication>
#include <QPagedPaintDevice>
#include <QPainter>
#include <QPainterPath>

#include "app/print/qr_code.h"

namespace secondpull::app {
namespace {

constexpr double kMillimetre = 25.4;
constexpr double kWidth = 90;  // mm, of a tag
constexpr double kHeight = 50;
constexpr double kPageMargin = 8;
constexpr double kCut = 9;     // the two corners at the string's end
constexpr double kHole = 2.5;  // radius
constexpr double kHoleAt = 8;
constexpr double kTextAt = 15;
constexpr double kInset = 3.5;
constexpr double kCode = 30;
constexpr double kLargestNumber = 40;  // points
constexpr double kLeastNumber = 10;
constexpr double kLeast = 6;
constexpr double kNumberHeight = 16.5;  // mm

QString say(const char* text) {
  return QCoreApplication::translate("Paper", text);
}

QString text(const std::string& words) {
  return QString::fromStdString(words);
}

/// Draws one tag with its corner at the painter's origin. Units are mm.
class TagDrawing {
 public:
  TagDrawing(QPainter& painter, QPagedPaintDevice& device)
      : painter_{painter}, device_{device}, per_mm_{device.logicalDpiX() / kMillimetre} {}

  void draw(const paper::Tag& tag, bool outlined) {
    painter_.setRenderHint(QPainter::Antialiasing);
    if (outlined) outline();
    hole();
    double right = kWidth - kInset;
    if (const auto code = qrCode(tag.code)) {
      const double side = qrSide(*code, kCode);
      // A number so long that its code would leave no room for words goes without one.
      if (side <= kHeight - 2 && right - side >= kTextAt + kCode / 2) {
        right -= side;
        drawQr(painter_, rect(right, (kHeight - side) / 2, side, side), *code);
      }
    }
    words(tag, right - kTextAt - 1);
  }

 private:
  QRectF rect(double x, double y, double width, double height) const {
    return {x * per_mm_, y * per_mm_, width * per_mm_, height * per_mm_};
  }
  QFont font(double points, QFont::Weight weight) const {
    QFont made = paperFont(points);
    made.setWeight(weight);
    return {made, &device_};
  }

  void outline() {
    QPainterPath path;
    path.moveTo(kCut, 0);
    for (const QPointF& corner : {QPointF{kWidth, 0}, QPointF{kWidth, kHeight}, QPointF{kCut, kHeight},
                                  QPointF{0, kHeight - kCut}, QPointF{0, kCut}})
      path.lineTo(corner);
    path.closeSubpath();
    painter_.setPen(QPen{QColor{0x80, 0x80, 0x80}, 0.15 * per_mm_, Qt::DashLine});
    painter_.setBrush(Qt::NoBrush);
    painter_.drawPath(QTransform::fromScale(per_mm_, per_mm_).map(path));
  }
  void hole() {
    painter_.setPen(QPen{Qt::black, 0.25 * per_mm_});
    painter_.setBrush(Qt::NoBrush);
    painter_.drawEllipse(QPointF{kHoleAt * per_mm_, kHeight / 2 * per_mm_}, kHole * per_mm_, kHole * per_mm_);
  }

  /// Number, machine, symptom and day from the top down; a text that is too long gets smaller letters, and
  /// goes on in as many lines as there is room for.
  void words(const paper::Tag& tag, double width) {
    double points = kLargestNumber;
    const auto numberWidth = [&] {
      return QFontMetricsF{font(points, QFont::Black), &device_}.horizontalAdvance(text(tag.number)) /
             per_mm_;
    };
    while (points > kLeastNumber && numberWidth() > width)
      points -= 1;
    double y = kInset;
    y += write(text(tag.number), {kTextAt, y, width, kNumberHeight}, points, kLeast, QFont::Black);
    if (points < kLargestNumber / 2) y += 1.5;
    const double day_height = 5;
    const double rest = kHeight - kInset - day_height - y;
    const double share = tag.symptom.empty() ? 1 : 0.55;
    const double used = write(text(tag.machine), {kTextAt, y, width, rest * share}, 11, kLeast, QFont::Bold);
    y += used + 0.8;
    write(text(tag.symptom), {kTextAt, y, width, kHeight - kInset - day_height - y}, 10, kLeast,
          QFont::Normal);
    write(say("in since %1").arg(text(shown(tag.came))),
          {kTextAt, kHeight - kInset - day_height + 1, width, day_height}, 8, kLeast, QFont::Normal);
  }

  struct Place {
    double x, y, width, height;
  };
  /// Returns the height that the words take, in mm.
  double write(const QString& words, const Place& place, double points, double least, QFont::Weight weight) {
    if (words.isEmpty()) return 0;
    const QRectF where = rect(place.x, place.y, place.width, place.height);
    QTextOption option;
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    QRectF taken;
    for (;; points -= 0.5) {
      painter_.setFont(font(points, weight));
      taken = painter_.boundingRect(QRectF{where.x(), where.y(), where.width(), 10 * where.height()}, words,
                                    option);
      if (points <= least || taken.height() <= where.height()) break;
    }
    painter_.setPen(Qt::black);
    painter_.save();
    painter_.setClipRect(where.adjusted(0, 0, 0, per_mm_ / 2));
    painter_.drawText(QRectF{where.x(), where.y(), where.width(), std::max(taken.height(), where.height())},
                      words, option);
    painter_.restore();
    return std::min(taken.height() / per_mm_, place.height);
  }

  QPainter& painter_;
  QPagedPaintDevice& device_;
  double per_mm_;
};

int drawTags(const std::vector<paper::Tag>& tags, QPagedPaintDevice& device) {
  QPainter painter{&device};
  if (!painter.isActive() || tags.empty()) return 0;
  const double per_mm = device.logicalDpiX() / kMillimetre;
  const int across = std::max(1, static_cast<int>(device.width() / per_mm / kWidth));
  const int down = std::max(1, static_cast<int>(device.height() / per_mm / kHeight));
  int pages = 1;
  for (std::size_t at = 0; at < tags.size(); ++at) {
    const int place = static_cast<int>(at) % (across * down);
    if (at > 0 && place == 0) {
      device.newPage();
      ++pages;
    }
    painter.save();
    painter.translate((place % across) * kWidth * per_mm, (place / across) * kHeight * per_mm);
    TagDrawing{painter, device}.draw(tags[at], true);
    painter.restore();
  }
  return pages;
}

int drawLabel(const paper::Tag& tag, QPagedPaintDevice& device) {
  QPainter painter{&device};
  if (!painter.isActive()) return 0;
  TagDrawing{painter, device}.draw(tag, false);
  return 1;
}

}  // namespace

Sheet tagSheet(const std::vector<paper::Tag>& tags, const QString& file_name) {
  QPageLayout layout = paperPage();
  layout.setMargins({kPageMargin, kPageMargin, kPageMargin, kPageMargin});
  return {.title = tags.size() == 1 ? say("Tag %1").arg(text(tags.front().number)) : say("Tags"),
          .file_name = file_name,
          .layout = layout,
          .draw = [tags](QPagedPaintDevice& device) { return drawTags(tags, device); }};
}

Sheet tagLabel(const paper::Tag& tag) {
  // Upright is how the size is given: it must not be turned.
  const QPageSize size{QSizeF{kWidth, kHeight}, QPageSize::Millimeter, say("Tag"), QPageSize::ExactMatch};
  return {.title = say("Tag %1").arg(text(tag.number)),
          .file_name = QStringLiteral("label"),
          .layout = {size, QPageLayout::Portrait, QMarginsF{}, QPageLayout::Millimeter},
          .draw = [tag](QPagedPaintDevice& device) { return drawLabel(tag, device); }};
}

std::optional<Problem> writeTagsPdf(const std::vector<paper::Tag>& tags, const QString& path) {
  return writeSheetPdf(tagSheet(tags, QStringLiteral("tags")), path);
}

std::optional<Problem> writeTagLabelPdf(const paper::Tag& tag, const QString& path) {
  return writeSheetPdf(tagLabel(tag), path);
}

}  // namespace secondpull::app
