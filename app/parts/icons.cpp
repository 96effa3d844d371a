#include <QFile>
#include <QIconEngine>
#include <QPainter>
#include <QSvgRenderer>

#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr qreal kDisabledOpacity = 0.45;

/// Draws one of our icons from its SVG each time it is wanted, so that it is sharp at any scale and follows
/// the look in force. `currentColor` in the file stands for the colour.
class InkIcon : public QIconEngine {
 public:
  InkIcon(QByteArray svg, std::optional<QColor> colour) : svg_{std::move(svg)}, colour_{std::move(colour)} {}

  void paint(QPainter* painter, const QRect& rect, QIcon::Mode mode, QIcon::State) override {
    QByteArray svg = svg_;
    svg.replace("currentColor", colour_.value_or(look().ink).name().toLatin1());
    QSvgRenderer renderer(svg);
    const qreal side = std::min(rect.width(), rect.height());
    QRectF square{0, 0, side, side};
    square.moveCenter(QRectF{rect}.center());
    painter->save();
    if (mode == QIcon::Disabled) painter->setOpacity(painter->opacity() * kDisabledOpacity);
    renderer.render(painter, square);
    painter->restore();
  }
  QPixmap pixmap(const QSize& size, QIcon::Mode mode, QIcon::State state) override {
    QPixmap pixmap(size);
    pixmap.fill(Qt::transparent);
    QPainter painter(&pixmap);
    painter.setRenderHint(QPainter::Antialiasing);
    paint(&painter, QRect{QPoint{}, size}, mode, state);
    return pixmap;
  }
  QIconEngine* clone() const override { return new InkIcon{*this}; }
  bool isNull() override { return svg_.isEmpty(); }

 private:
  QByteArray svg_;
  std::optional<QColor> colour_;
};

QIcon load(const QString& name, std::optional<QColor> colour) {
  QFile file(":/icons/" + name + ".svg");
  if (!file.open(QIODevice::ReadOnly)) {
    qWarning("There is no icon named %s.", qUtf8Printable(name));
    return {};
  }
  return QIcon{new InkIcon{file.readAll(), std::move(colour)}};
}

}  // namespace

QIcon icon(const QString& name) {
  return load(name, std::nullopt);
}
QIcon icon(const QString& name, const QColor& colour) {
  return load(name, colour);
}

}  // namespace secondpull::app
