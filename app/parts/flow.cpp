#include "app/parts/flow.h"

#include <algorithm>

#include <QWidget>

namespace secondpull::app {

Flow::Flow(QWidget* parent, int gap) : QLayout(parent), gap_{gap} {
  setContentsMargins(0, 0, 0, 0);
}

void Flow::setGap(int gap) {
  if (gap_ == gap) return;
  gap_ = gap;
  invalidate();
}

Flow::~Flow() {
  for (QLayoutItem* item : items_)
    delete item;
}

void Flow::addItem(QLayoutItem* item) {
  items_.push_back(item);
}
int Flow::count() const {
  return static_cast<int>(items_.size());
}

QLayoutItem* Flow::itemAt(int index) const {
  return index >= 0 && index < count() ? items_[static_cast<std::size_t>(index)] : nullptr;
}

QLayoutItem* Flow::takeAt(int index) {
  QLayoutItem* item = itemAt(index);
  if (item != nullptr) items_.erase(items_.begin() + index);
  return item;
}

int Flow::heightForWidth(int width) const {
  return place(QRect{0, 0, width, 0}, false);
}

QSize Flow::sizeHint() const {
  const QMargins margins = contentsMargins();
  int width = 0, height = 0;
  for (const QLayoutItem* item : items_) {
    if (item->isEmpty()) continue;
    width += item->sizeHint().width() + (width > 0 ? gap_ : 0);
    height = std::max(height, item->sizeHint().height());
  }
  return QSize{width, height}.grownBy(margins);
}

QSize Flow::minimumSize() const {
  QSize size;
  for (const QLayoutItem* item : items_)
    size = size.expandedTo(item->minimumSize());
  return size.grownBy(contentsMargins());
}

void Flow::setGeometry(const QRect& rect) {
  QLayout::setGeometry(rect);
  place(rect, true);
}

int Flow::place(const QRect& rect, bool move) const {
  const QRect inside = rect.marginsRemoved(contentsMargins());
  int x = inside.left(), y = inside.top(), row = 0;
  for (QLayoutItem* item : items_) {
    if (item->isEmpty()) continue;
    QSize size = item->sizeHint();
    if (x > inside.left() && x + size.width() > inside.right() + 1) {
      x = inside.left();
      y += row + gap_;
      row = 0;
    }
    size.setWidth(std::min(size.width(), std::max(inside.width(), item->minimumSize().width())));
    if (item->hasHeightForWidth()) size.setHeight(item->heightForWidth(size.width()));
    if (move) item->setGeometry(QRect{QPoint{x, y}, size});
    x += size.width() + gap_;
    row = std::max(row, size.height());
  }
  return y + row - rect.top() + contentsMargins().bottom();
}

}  // namespace secondpull::app
