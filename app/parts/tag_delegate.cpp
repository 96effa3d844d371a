#include "app/parts/tag_delegate.h"

#include <algorithm>

#include <QApplication>
#include <QPainter>

#include "app/parts/look.h"
#include "app/parts/tag_badge.h"

namespace secondpull::app {
namespace {

qreal tagHeight(const QStyleOptionViewItem& option) {
  return option.fontMetrics.height() + kGrid / 4.0;
}

/// The tag's number: the shop's mark stands for the sign before it.
QString numberOf(const QString& text) {
  return text.startsWith(QLatin1Char('#')) ? text.mid(1) : text;
}

}  // namespace

void TagDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                        const QModelIndex& index) const {
  QStyleOptionViewItem cell{option};
  initStyleOption(&cell, index);
  const QString number = numberOf(std::exchange(cell.text, {}));
  const QStyle* style = cell.widget != nullptr ? cell.widget->style() : QApplication::style();
  style->drawControl(QStyle::CE_ItemViewItem, &cell, painter, cell.widget);
  if (number.isEmpty()) return;

  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  painter->setFont(cell.font);
  const qreal height = std::min<qreal>(tagHeight(cell), cell.rect.height() - 2);
  const qreal width = std::min<qreal>(tagWidth(number, height, cell.font), cell.rect.width() - kGrid);
  const QRectF where{cell.rect.left() + kGrid / 2.0, cell.rect.center().y() + 0.5 - height / 2, width,
                     height};
  paintTag(*painter, where, number, false, cell.palette);
  painter->restore();
}

QSize TagDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
  const QSize usual = QStyledItemDelegate::sizeHint(option, index);
  const qreal height = tagHeight(option);
  const qreal width = tagWidth(numberOf(index.data(Qt::DisplayRole).toString()), height, option.font);
  return {std::max(usual.width(), static_cast<int>(width) + 2 * kGrid),
          std::max(usual.height(), static_cast<int>(height) + kGrid / 2)};
}

}  // namespace secondpull::app
