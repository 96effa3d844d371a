#include "app/parts/two_sides.h"

#include <utility>

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QSplitter>

#include "app/parts/grown.h"
#include "app/parts/look.h"

namespace secondpull::app {

TwoSides::TwoSides(const QString& name, const QString& object, const Side& first, const Side& second,
                   Between between, QWidget* parent)
    : QWidget(parent),
      sides_{first, second},
      words_{new WordRow{name, {first.word, second.word}, this}},
      box_{new QHBoxLayout{this}} {
  words_->setObjectName(object);
  box_->setContentsMargins(0, 0, 0, 0);
  if (between == Between::handle) {
    splitter_ = new QSplitter{Qt::Horizontal, this};
    splitter_->setChildrenCollapsible(false);
    box_->addWidget(splitter_);
  }
  for (int at = 0; at < 2; ++at) {
    const Side& side = sides_[static_cast<std::size_t>(at)];
    if (splitter_ != nullptr) {
      splitter_->addWidget(side.widget);
      splitter_->setStretchFactor(at, side.stretch);
    } else {
      box_->addWidget(side.widget, side.stretch);
    }
  }
  setGap(3 * kGrid);
  connect(words_, &WordRow::chosen, this, &TwoSides::showChosen);
  showChosen();
}

void TwoSides::setGap(int pixels) {
  gap_ = pixels;
  if (splitter_ != nullptr)
    splitter_->setHandleWidth(pixels);
  else
    box_->setSpacing(pixels);
}

void TwoSides::setGone(std::optional<int> side) {
  if (std::exchange(gone_, side) != side) showChosen();
}

void TwoSides::turnTo(int side) {
  words_->setCurrent(side);
  showChosen();
}

QSize TwoSides::minimumSizeHint() const {
  int width = 0;
  for (const Side& side : sides_)
    width = std::max(width, side.widget->minimumSizeHint().width());
  return {width, box_->minimumSize().height()};
}

void TwoSides::decide() {
  const bool room = width() >= grown(sides_[0].least) + gap_ + grown(sides_[1].least);
  const bool changed = room != both_;
  both_ = room;
  showChosen();
  if (changed) emit bothChanged(both_);
}

void TwoSides::showChosen() {
  const int shown = gone_ ? 1 - *gone_ : words_->current();
  // What is hidden loses the focus; it goes to what takes its place, not to the next page's.
  const bool had_focus =
      (!both_ || gone_) &&
      sides_[static_cast<std::size_t>(1 - shown)].widget->isAncestorOf(window()->focusWidget());
  for (int at = 0; at < 2; ++at) {
    const Side& side = sides_[static_cast<std::size_t>(at)];
    if (side.stretch == 0) {
      const int least = grown(side.least);
      side.widget->setMinimumWidth(both_ ? least : 0);
      side.widget->setMaximumWidth(both_ ? least : QWIDGETSIZE_MAX);
    }
    side.widget->setVisible((both_ && !gone_) || at == shown);
  }
  words_->setVisible(!both_ && !gone_ && isVisible());
  if (had_focus) words_->setFocus();
  updateGeometry();
}

void TwoSides::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  decide();
}

void TwoSides::hideEvent(QHideEvent* event) {
  QWidget::hideEvent(event);
  words_->hide();
}

void TwoSides::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  decide();
}

void TwoSides::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::FontChange || event->type() == QEvent::StyleChange) decide();
}

void TwoSides::keyPressEvent(QKeyEvent* event) {
  if (event->key() != Qt::Key_Escape || both_ || words_->current() == 0) return QWidget::keyPressEvent(event);
  turnTo(0);
  sides_[0].widget->setFocus();
}

}  // namespace secondpull::app
