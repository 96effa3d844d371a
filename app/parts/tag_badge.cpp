#include "app/parts/tag_badge.h"

#include <QApplication>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>

#include "app/parts/look.h"

namespace secondpull::app {
namespace {

// Proportions of a tie-on tag, as parts of its height.
constexpr qreal kCut = 0.30;         // the two cut corners at the string's end
constexpr qreal kHoleAt = 0.42;      // centre of the hole from that end
constexpr qreal kHoleRadius = 0.11;  // and of the paper ring around it: kRing
constexpr qreal kRing = 0.17;
constexpr qreal kString = 0.45;    // how far the string reaches beyond the end
constexpr qreal kNumberAt = 0.68;  // where the number may begin
constexpr qreal kNumberEnd = 0.30;
constexpr qreal kNumberSize = 0.56;
constexpr qreal kHangingNumber = 0.78;  // the same size, seen on a tag that hangs

QFont numberFont(QFont font, qreal height) {
  font.setPixelSize(std::max(8, qRound(height * kNumberSize)));
  font.setWeight(QFont::Bold);
  return font;
}

/// The outline of a tag lying with its string's end to the left.
QPainterPath outline(const QRectF& body, qreal height) {
  const qreal cut = height * kCut;
  QPainterPath path;
  path.moveTo(body.left() + cut, body.top());
  path.lineTo(body.right(), body.top());
  path.lineTo(body.right(), body.bottom());
  path.lineTo(body.left() + cut, body.bottom());
  path.lineTo(body.left(), body.bottom() - cut);
  path.lineTo(body.left(), body.top() + cut);
  path.closeSubpath();
  return path;
}

struct Colours {
  QColor fill, edge, number;
};
Colours coloursOf(bool current, const QPalette& palette) {
  if (current)
    return {palette.color(QPalette::Highlight), palette.color(QPalette::Highlight),
            palette.color(QPalette::HighlightedText)};
  return {palette.color(QPalette::Base), palette.color(QPalette::Dark), palette.color(QPalette::Text)};
}

}  // namespace

qreal tagWidth(const QString& number, qreal height, const QFont& font) {
  const QFontMetricsF metrics(numberFont(font, height));
  return height * (kString + kNumberAt + kNumberEnd) +
         std::max(metrics.horizontalAdvance(number), height * 0.4);
}

void paintTag(QPainter& painter, const QRectF& where, const QString& number, bool current,
              const QPalette& palette) {
  const qreal height = where.height();
  const Colours colours = coloursOf(current, palette);
  const QRectF body = where.adjusted(height * kString, 0.75, -0.75, -0.75);
  const QPointF hole{body.left() + height * kHoleAt, body.center().y()};
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);

  QPainterPath paper = outline(body, height);
  QPainterPath punched;
  punched.addEllipse(hole, height * kHoleRadius, height * kHoleRadius);
  painter.setPen(QPen{colours.edge, 1.25, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
  painter.setBrush(colours.fill);
  painter.drawPath(paper.subtracted(punched));
  painter.setBrush(Qt::NoBrush);
  QColor ring = current ? colours.number : colours.edge;
  ring.setAlphaF(0.55F);
  painter.setPen(QPen{ring, 1});
  painter.drawEllipse(hole, height * kRing, height * kRing);

  QPainterPath string(hole);
  string.cubicTo(QPointF{hole.x() - height * 0.35, hole.y() - height * 0.05},
                 QPointF{where.left() + height * 0.25, where.top() + height * 0.55},
                 QPointF{where.left() + height * 0.08, where.top() + height * 0.10});
  painter.setPen(QPen{palette.color(QPalette::Dark), 1.25, Qt::SolidLine, Qt::RoundCap});
  painter.drawPath(string);

  painter.setPen(colours.number);
  painter.setFont(numberFont(painter.font(), height));
  painter.drawText(QRectF{body.left() + height * kNumberAt, body.top(),
                          body.width() - height * (kNumberAt + kNumberEnd / 2), body.height()},
                   Qt::AlignVCenter | Qt::AlignLeft, number);
  painter.restore();
}

void paintHangingTag(QPainter& painter, const QPointF& knot, const QRectF& body, const QString& number,
                     bool current, const QPalette& palette) {
  // A tag that hangs is a lying one turned by a quarter, with its number upright again.
  const Colours colours = coloursOf(current, palette);
  const qreal size = std::min(body.width(), body.height()) * 0.62;
  const QPointF hole{body.center().x(), body.top() + size * 0.34};
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  const qreal cut = size * kCut;
  QPainterPath paper;
  paper.moveTo(body.left() + cut, body.top());
  paper.lineTo(body.right() - cut, body.top());
  paper.lineTo(body.right(), body.top() + cut);
  paper.lineTo(body.right(), body.bottom());
  paper.lineTo(body.left(), body.bottom());
  paper.lineTo(body.left(), body.top() + cut);
  paper.closeSubpath();
  QPainterPath punched;
  punched.addEllipse(hole, size * kHoleRadius, size * kHoleRadius);
  painter.setPen(QPen{colours.edge, 1.25, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
  painter.setBrush(colours.fill);
  painter.drawPath(paper.subtracted(punched));
  painter.setPen(QPen{palette.color(QPalette::Dark), 1.25, Qt::SolidLine, Qt::RoundCap});
  painter.drawLine(knot, hole);

  QFont font = numberFont(painter.font(), body.height() * kHangingNumber);
  const QRectF field{body.left(), body.top() + size * 0.5, body.width(), body.height() - size * 0.54};
  while (font.pixelSize() > 8 && QFontMetricsF(font).horizontalAdvance(number) > field.width() - 4)
    font.setPixelSize(font.pixelSize() - 1);
  painter.setFont(font);
  painter.setPen(colours.number);
  painter.drawText(field, Qt::AlignCenter, number);
  painter.restore();
}

TagBadge::TagBadge(QWidget* parent) : QWidget(parent) {
  setFocusPolicy(Qt::StrongFocus);
  setCursor(Qt::PointingHandCursor);
  setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

void TagBadge::setMachine(MachineId machine, const QString& tag, const QString& says) {
  machine_ = machine;
  tag_ = tag;
  setToolTip(says);
  setAccessibleName("#" + tag);
  setAccessibleDescription(says);
  updateGeometry();
  update();
}

QSize TagBadge::sizeHint() const {
  const qreal height = fontMetrics().height() * 1.5;
  return {qCeil(tagWidth(tag_, height, font())), qCeil(height)};
}

void TagBadge::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setFont(font());
  paintTag(painter, rect(), tag_, hasFocus(), palette());
}

void TagBadge::mouseReleaseEvent(QMouseEvent* event) {
  if (event->button() == Qt::LeftButton && rect().contains(event->position().toPoint()))
    emit clicked(machine_);
}

void TagBadge::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter || event->key() == Qt::Key_Space)
    emit clicked(machine_);
  else
    QWidget::keyPressEvent(event);
}

}  // namespace secondpull::app
