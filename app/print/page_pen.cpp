#include "app/print/page_pen.h"

#include <algorithm>

#include <QCoreApplication>
#include <QPagedPaintDevice>
#include <QPainter>
#include <QTextLayout>

#include "app/print/sheet.h"

namespace secondpull::app {
namespace {

constexpr double kMillimetre = 25.4;
constexpr double kFoot = 9;        // mm
constexpr double kDash = 4;        // mm, from a dash to its words
constexpr double kBox = 3.6;       // mm
constexpr double kBar = 2.4;       // mm
constexpr double kThin = 0.15;     // mm
constexpr double kStrong = 0.45;   // mm
constexpr qreal kHeading = 13;     // points
constexpr double kLeading = 1.14;  // from line to line, in heights of the letters
const QColor kGrey{0x50, 0x50, 0x50};
const QColor kPaleGrey{0xd8, 0xd8, 0xd8};

QString say(const char* text) {
  return QCoreApplication::translate("Paper", text);
}

double heightOfLines(const QTextLayout& layout) {
  double height = 0;
  for (int at = 0; at < layout.lineCount(); ++at)
    height = std::max(height, layout.lineAt(at).y() + layout.lineAt(at).height() * kLeading);
  return height;
}

}  // namespace

PagePen::PagePen(QPagedPaintDevice& device, QPainter* painter, QString foot, int pages)
    : device_{device},
      painter_{painter},
      foot_{std::move(foot)},
      per_mm_{device.logicalDpiY() / kMillimetre},
      width_{device.width() / per_mm_},
      height_{device.height() / per_mm_ - kFoot},
      pages_{pages} {}

std::unique_ptr<QTextLayout> PagePen::laidOut(const QString& words, const PenStyle& style,
                                              double width) const {
  QFont font = paperFont(style.points);
  if (style.bold) font.setWeight(QFont::Bold);
  QString lines = words;
  lines.replace(u'\n', QChar::LineSeparator);
  auto layout = std::make_unique<QTextLayout>(lines, QFont{font, &device_}, &device_);
  QTextOption option{style.align};
  option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);  // a long name is cut, never lost
  layout->setTextOption(option);
  layout->beginLayout();
  double y = 0;
  for (QTextLine line = layout->createLine(); line.isValid(); line = layout->createLine()) {
    line.setLineWidth(dots(width));
    line.setPosition({0, y});
    y += line.height() * kLeading;
  }
  layout->endLayout();
  return layout;
}

void PagePen::writeFoot() {
  if (painter_ == nullptr) return;
  const QFont font = paperFont(8.5);
  painter_->setFont(font);
  painter_->setPen(kGrey);
  const QRectF foot{0, dots(height_), dots(width_), dots(kFoot)};
  painter_->drawText(foot, Qt::AlignLeft | Qt::AlignBottom, foot_);
  painter_->drawText(foot, Qt::AlignRight | Qt::AlignBottom, say("page %1 of %2").arg(page_).arg(pages_));
}

void PagePen::newPage() {
  writeFoot();
  if (painter_ != nullptr) device_.newPage();
  y_ = 0;
  ++page_;
}

void PagePen::space(double mm) {
  if (y_ > 0) y_ += mm;
}

void PagePen::keepTogether(double mm) {
  if (y_ > 0 && left() < mm) newPage();
}

void PagePen::text(const QString& words, PenStyle style, double from, double width) {
  if (words.isEmpty()) return;
  const auto layout = laidOut(words, style, width > 0 ? width : width_ - from);
  for (int at = 0; at < layout->lineCount(); ++at) {
    const QTextLine line = layout->lineAt(at);
    const double height = line.height() * kLeading / per_mm_;
    if (y_ > 0 && left() < height) newPage();
    if (painter_ != nullptr) {
      painter_->setPen(style.faded ? kGrey : QColor{Qt::black});
      line.draw(painter_, {dots(from), dots(y_) - line.y()});
    }
    y_ += height;
  }
}

void PagePen::heading(const QString& words) {
  constexpr double kWithText = 18;  // mm: a heading is never the last of a page
  space(4);
  keepTogether(kWithText);
  text(words, {.points = kHeading, .bold = true});
  space(1);
}

void PagePen::list(const std::vector<std::string>& items, PenStyle style, double from) {
  for (const std::string& item : items) {
    const QString words = QString::fromStdString(item);
    const auto dash = laidOut(QStringLiteral("–"), style, kDash);
    if (y_ > 0 && left() < dash->lineAt(0).height() / per_mm_) newPage();
    if (painter_ != nullptr) {
      painter_->setPen(style.faded ? kGrey : QColor{Qt::black});
      dash->draw(painter_, {dots(from), dots(y_)});
    }
    text(words, style, from + kDash);
    space(0.6);
  }
}

double PagePen::heightOf(const std::vector<PenCell>& cells) const {
  double height = 0;
  for (const PenCell& cell : cells)
    height = std::max(height, cell.what == PenCell::What::text
                                  ? heightOfLines(*laidOut(cell.text, cell.style, cell.width)) / per_mm_
                                  : kBox);
  return height;
}

void PagePen::row(const std::vector<PenCell>& cells, double gap) {
  const double height = heightOf(cells);
  if (height > height_) {  // no page holds it: one cell after another, line by line
    for (const PenCell& cell : cells)
      text(cell.text, cell.style, cell.left, cell.width);
    return space(gap);
  }
  keepTogether(height);
  for (const PenCell& cell : cells) {
    if (painter_ == nullptr) break;
    const double line = heightOfLines(*laidOut(QStringLiteral("x"), cell.style, cell.width)) / per_mm_;
    const double middle = y_ + line / 2;
    painter_->setPen(cell.style.faded ? kGrey : QColor{Qt::black});
    switch (cell.what) {
      case PenCell::What::text:
        laidOut(cell.text, cell.style, cell.width)->draw(painter_, {dots(cell.left), dots(y_)});
        break;
      case PenCell::What::box:
        painter_->setPen(QPen{Qt::black, dots(0.3)});
        painter_->setBrush(Qt::NoBrush);
        painter_->drawRect(QRectF{dots(cell.left), dots(middle - kBox / 2), dots(kBox), dots(kBox)});
        break;
      case PenCell::What::bar:
        painter_->setPen(Qt::NoPen);
        painter_->setBrush(kPaleGrey);
        painter_->drawRect(QRectF{dots(cell.left), dots(middle - kBar / 2), dots(cell.width), dots(kBar)});
        painter_->setBrush(Qt::black);
        painter_->drawRect(
            QRectF{dots(cell.left), dots(middle - kBar / 2), dots(cell.width * cell.share), dots(kBar)});
        break;
      case PenCell::What::line:
        painter_->setPen(QPen{kGrey, dots(kThin)});
        painter_->drawLine(QPointF{dots(cell.left), dots(y_ + height - 0.4)},
                           QPointF{dots(cell.left + cell.width), dots(y_ + height - 0.4)});
        break;
    }
  }
  y_ += height;
  space(gap);
}

void PagePen::rule(bool strong) {
  if (painter_ != nullptr) {
    painter_->setPen(QPen{strong ? QColor{Qt::black} : kGrey, dots(strong ? kStrong : kThin)});
    painter_->drawLine(QPointF{0, dots(y_)}, QPointF{dots(width_), dots(y_)});
  }
  y_ += kStrong;
}

void PagePen::linesToWriteOn(int at_least, double gap) {
  keepTogether(at_least * gap);
  while (left() >= gap) {
    y_ += gap - kStrong;
    rule();
  }
}

void PagePen::columns(const std::vector<double>& at, double from) {
  if (painter_ == nullptr) return;
  painter_->setPen(QPen{kGrey, dots(kThin)});
  for (const double x : at)
    painter_->drawLine(QPointF{dots(x), dots(from)}, QPointF{dots(x), dots(y_)});
}

int drawPages(QPagedPaintDevice& device, const QString& foot, const std::function<void(PagePen&)>& write) {
  PagePen counting{device, nullptr, foot, 0};
  write(counting);
  QPainter painter{&device};
  if (!painter.isActive()) return 0;
  PagePen pen{device, &painter, foot, counting.page_};
  write(pen);
  pen.writeFoot();
  return counting.page_;
}

}  // namespace secondpull::app
