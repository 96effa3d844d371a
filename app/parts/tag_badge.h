#pragma once

#include <QWidget>

#include "core/shop/ids.h"

class QPainter;

namespace secondpull::app {

/// Draws the shop's mark of a machine: a tie-on tag with its number, hole and string, at any size.
void paintTag(QPainter& painter, const QRectF& where, const QString& number, bool current,
              const QPalette& palette);
/// The width that a tag of this height needs for its number.
qreal tagWidth(const QString& number, qreal height, const QFont& font);

/// The same tag hanging from its string: `knot` is where the string is tied, `body` the paper below it.
void paintHangingTag(QPainter& painter, const QPointF& knot, const QRectF& body, const QString& number,
                     bool current, const QPalette& palette);

/// The tag as a widget; a click or Enter opens the machine.
class TagBadge : public QWidget {
  Q_OBJECT
 public:
  explicit TagBadge(QWidget* parent = nullptr);
  void setMachine(MachineId machine, const QString& tag, const QString& says);
  QSize sizeHint() const override;

 signals:
  void clicked(MachineId machine);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  MachineId machine_{};
  QString tag_;
};

}  // namespace secondpull::app
