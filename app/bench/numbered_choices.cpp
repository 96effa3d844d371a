#include "app/bench/numbered_choices.h"

#include <algorithm>

#include <QGridLayout>
#include <QKeyEvent>
#include <QPainter>

#include "app/parts/grown.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr int kPad = kGrid;
constexpr int kNumberWidth = 4 * kGrid;
constexpr int kLeastHeight = 5 * kGrid;  // a finger in a glove
constexpr int kLeastWidth = 22 * kGrid;
constexpr int kColumns = 2;
constexpr int kMostDigit = 9;
constexpr qreal kSmaller = 0.9;

}  // namespace

bool operator==(const NumberedChoices::Choice& a, const NumberedChoices::Choice& b) {
  return a.text == b.text && a.follows == b.follows;
}

int digitOf(const QKeyEvent& event) {
  if ((event.modifiers() & ~Qt::KeypadModifier) != 0) return 0;
  const int digit = event.key() - Qt::Key_0;
  return digit >= 1 && digit <= kMostDigit ? digit : 0;
}

ChoiceButton::ChoiceButton(int number, const QString& text, const QString& follows, QWidget* parent)
    : QAbstractButton(parent), number_{number}, follows_{follows} {
  setText(text);
  setAccessibleName(tr("%1: %2").arg(number).arg(text));
  setAccessibleDescription(follows);
  setFocusPolicy(Qt::StrongFocus);
  QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Minimum);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
  setAttribute(Qt::WA_Hover);
}

QFont ChoiceButton::smallFont() const {
  QFont small = font();
  small.setPointSizeF(small.pointSizeF() * kSmaller);
  return small;
}

int ChoiceButton::textWidth(int width) const {
  return std::max(1, width - grown(kNumberWidth) - 2 * kPad);
}

int ChoiceButton::heightForWidth(int width) const {
  const QRect room{0, 0, textWidth(width), 10'000};
  int height = fontMetrics().boundingRect(room, Qt::TextWordWrap, text()).height();
  if (!follows_.isEmpty())
    height += QFontMetrics{smallFont()}.boundingRect(room, Qt::TextWordWrap, follows_).height();
  return std::max(grown(kLeastHeight), height + 2 * kPad);
}

QSize ChoiceButton::sizeHint() const {
  const int width = grown(2 * kLeastWidth);
  return {width, heightForWidth(width)};
}

QSize ChoiceButton::minimumSizeHint() const {
  return {grown(kLeastWidth), grown(kLeastHeight)};
}

void ChoiceButton::paintEvent(QPaintEvent*) {
  const Look& now = look();
  QPainter painter{this};
  painter.setRenderHint(QPainter::Antialiasing);
  const bool on = isEnabled();
  const QColor surface =
      isDown() ? now.select : (on && underMouse() ? now.hover : (on ? now.card : now.paper));
  painter.setBrush(surface);
  painter.setPen(hasFocus() ? QPen{now.accent, 2.0} : QPen{on ? now.edge : now.line, 1.0});
  painter.drawRoundedRect(QRectF{rect()}.adjusted(1, 1, -1, -1), 6, 6);

  QFont number_font = font();
  number_font.setBold(true);
  painter.setFont(number_font);
  painter.setPen(on ? now.accent : now.faded);
  const int number_width = grown(kNumberWidth);
  painter.drawText(QRect{0, 0, number_width, height()}, Qt::AlignCenter, QString::number(number_));

  const QRect room{number_width, 0, textWidth(width()), height()};
  const QFontMetrics small{smallFont()};
  const int text_height = fontMetrics().boundingRect(room, Qt::TextWordWrap, text()).height();
  const int follows_height =
      follows_.isEmpty() ? 0 : small.boundingRect(room, Qt::TextWordWrap, follows_).height();
  const int top = (height() - text_height - follows_height) / 2;
  painter.setFont(font());
  painter.setPen(on ? now.ink : now.faded);
  painter.drawText(QRect{room.left(), top, room.width(), text_height}, Qt::TextWordWrap, text());
  painter.setFont(smallFont());
  painter.setPen(now.faded);
  painter.drawText(QRect{room.left(), top + text_height, room.width(), follows_height}, Qt::TextWordWrap,
                   follows_);
}

NumberedChoices::NumberedChoices(const QString& name, QWidget* parent)
    : QWidget(parent), name_{name}, grid_{new QGridLayout(this)} {
  grid_->setContentsMargins(0, 0, 0, 0);
  grid_->setSpacing(kGrid);
  for (int column = 0; column < kColumns; ++column)
    grid_->setColumnStretch(column, 1);
}

void NumberedChoices::setChoices(const std::vector<Choice>& choices) {
  if (choices == shown_) return;
  shown_ = choices;
  const bool had_focus = std::any_of(buttons_.begin(), buttons_.end(),
                                     [](const ChoiceButton* each) { return each->hasFocus(); });
  for (ChoiceButton* button : buttons_) {
    button->hide();
    button->deleteLater();
  }
  buttons_.clear();
  for (const Choice& choice : choices) {
    const int index = count();
    auto* button = new ChoiceButton(index + 1, choice.text, choice.follows, this);
    button->setObjectName(name_ + QString::number(index + 1));
    connect(button, &QAbstractButton::clicked, this, [this, index] { emit chosen(index); });
    grid_->addWidget(button, index / kColumns, index % kColumns);
    buttons_.push_back(button);
    button->show();
  }
  if (had_focus) start();
}

bool NumberedChoices::press(int number) {
  if (!isEnabled() || !isVisible() || number < 1 || number > count()) return false;
  emit chosen(number - 1);
  return true;
}

void NumberedChoices::start() {
  if (!buttons_.empty()) buttons_.front()->setFocus();
}

void NumberedChoices::keyPressEvent(QKeyEvent* event) {
  if (const int digit = digitOf(*event); digit != 0 && press(digit)) return;
  const auto at = std::find_if(buttons_.begin(), buttons_.end(),
                               [](const ChoiceButton* each) { return each->hasFocus(); });
  if (at == buttons_.end()) return QWidget::keyPressEvent(event);
  auto* const current = *at;
  const int index = static_cast<int>(at - buttons_.begin());
  int to = -1;
  switch (event->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
      return current->click();
    case Qt::Key_Right:
      to = index + 1;
      break;
    case Qt::Key_Left:
      to = index - 1;
      break;
    case Qt::Key_Down:
      to = index + kColumns;
      break;
    case Qt::Key_Up:
      to = index - kColumns;
      break;
    default:
      return QWidget::keyPressEvent(event);
  }
  if (to >= 0 && to < count()) buttons_[static_cast<std::size_t>(to)]->setFocus();
}

}  // namespace secondpull::app
