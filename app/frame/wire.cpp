#include "app/frame/wire.h"

#include <QEvent>
#include <QPainter>
#include <QPainterPath>

#include "app/parts/look.h"
#include "app/parts/tag_badge.h"

namespace secondpull::app {
namespace {

// Measures in heights of running text, so that all of it grows with the font.
constexpr qreal kWireAt = 2.25;  // from the top of the window to the wire's ends
constexpr qreal kSag = 0.55;     // and this much lower in its middle
constexpr qreal kTagHeight = 2.1;
constexpr qreal kTagLeast = 2.2;  // the least width
constexpr qreal kStringLength = 0.45;
constexpr qreal kBelow = 0.3;  // free below the tags
constexpr qreal kSmallWord = 0.92;
constexpr qreal kBigWord = 1.25;
constexpr int kMargin = 3 * kGrid;
constexpr int kWordGap = 3 * kGrid;
constexpr int kTagGap = 2 * kGrid;
constexpr int kKnot = 3;  // radius of the bead under the current word

QFont wordFont(const QWidget& widget, bool small, bool current) {
  QFont font = widget.font();
  font.setPointSizeF(font.pointSizeF() * (small ? kSmallWord : kBigWord));
  font.setWeight(current ? QFont::Bold : QFont::Medium);
  return font;
}

void paintFocus(QPainter& painter, const QRect& rect) {
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen{look().accent, 1.5});
  painter.setBrush(Qt::NoBrush);
  painter.drawRoundedRect(QRectF{rect}.adjusted(1, 1, -1, -1), 5, 5);
}

}  // namespace

/// A screen's word, or its icon. It is as tall as its letters; the wire draws itself beneath.
class WireWord : public QAbstractButton {
 public:
  WireWord(const Wire::Word& word, QWidget* parent)
      : QAbstractButton(parent), small_{word.small}, icon_{word.icon} {
    setText(word.word);
    setObjectName("wire." + word.word);
    setAccessibleName(word.word);
    setToolTip(QString{"%1   %2"}.arg(word.word, word.key.toString(QKeySequence::NativeText)));
    setCheckable(true);
    setCursor(Qt::PointingHandCursor);
    setFocusPolicy(Qt::TabFocus);
  }
  bool isSmall() const { return small_; }
  QSize sizeHint() const override {
    // As wide as the bold word, so that nothing moves when it becomes the current one.
    const QFontMetrics metrics(wordFont(*this, small_, true));
    if (!icon_.isEmpty()) return {metrics.height() + 2 * kGrid, metrics.height() + kGrid / 2};
    return {metrics.horizontalAdvance(text()) + 2 * kGrid, metrics.height() + kGrid / 2};
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    const bool current = isChecked();
    const QColor colour = current || underMouse()     ? look().accent
                          : small_ && icon_.isEmpty() ? look().faded
                                                      : look().ink;
    if (icon_.isEmpty()) {
      painter.setFont(wordFont(*this, small_, current));
      painter.setPen(colour);
      painter.drawText(rect(), Qt::AlignHCenter | Qt::AlignVCenter, text());
    } else {
      const int side = rect().height();
      app::icon(icon_, colour)
          .paint(&painter, rect().adjusted((width() - side) / 2, 0, (side - width()) / 2, 0));
    }
    if (hasFocus()) paintFocus(painter, rect());
  }
  void enterEvent(QEnterEvent*) override { update(); }
  void leaveEvent(QEvent*) override { update(); }
  void nextCheckState() override {}  // the wire says which one is current

 private:
  bool small_;
  QString icon_;
};

/// A machine's tag on its string.
class HangingTag : public QAbstractButton {
 public:
  HangingTag(const Wire::Tag& tag, QWidget* parent) : QAbstractButton(parent), machine_{tag.machine} {
    setText(tag.number);
    setObjectName("wire.tag." + tag.number);
    setAccessibleName("#" + tag.number);
    setAccessibleDescription(tag.says);
    setToolTip(tag.says);
    setCheckable(true);
    setCursor(Qt::PointingHandCursor);
    setFocusPolicy(Qt::TabFocus);
  }
  MachineId machine() const { return machine_; }
  QSize sizeHint() const override {
    const qreal line = fontMetrics().height();
    const qreal number = fontMetrics().horizontalAdvance(text()) * 1.1 + kGrid;
    return {qCeil(std::max(line * kTagLeast, number)), qCeil(line * (kStringLength + kTagHeight)) + 2};
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    painter.setFont(font());
    const qreal string = fontMetrics().height() * kStringLength;
    const QRectF body = QRectF{rect()}.adjusted(1, string, -1, -1);
    paintHangingTag(painter, QPointF{width() / 2.0, 0}, body, text(), isChecked() || hasFocus(), palette());
  }
  void nextCheckState() override {}

 private:
  MachineId machine_;
};

/// The running clock: a wider card with the machine's number and the time.
class ClockTag : public QAbstractButton {
 public:
  explicit ClockTag(QWidget* parent) : QAbstractButton(parent) {
    setObjectName("wire.clock");
    setCursor(Qt::PointingHandCursor);
    setFocusPolicy(Qt::TabFocus);
    hide();
  }
  void run(const Wire::Running& running) {
    number_ = "#" + running.number;
    setText(running.time);
    setAccessibleName(Wire::tr("clock on %1: %2").arg(number_, running.time));
    setToolTip(Wire::tr("The clock runs on %1. Click, or Ctrl+T, stops it.").arg(number_));
    updateGeometry();
    setVisible(true);
    update();
  }
  QSize sizeHint() const override {
    const int line = fontMetrics().height();
    const QFontMetrics time(timeFont());
    return {time.horizontalAdvance(text()) + fontMetrics().horizontalAdvance(number_) + line + 5 * kGrid,
            qCeil(line * (kStringLength + kTagHeight)) + 2};
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const qreal string = fontMetrics().height() * kStringLength;
    const QRectF body = QRectF{rect()}.adjusted(1, string, -1, -1);
    painter.setPen(QPen{palette().color(QPalette::Dark), 1.25});
    for (const qreal at : {body.left() + body.width() * 0.25, body.right() - body.width() * 0.25})
      painter.drawLine(QPointF{at, 0}, QPointF{at, string});
    painter.setPen(Qt::NoPen);
    painter.setBrush(look().accent);
    painter.drawRoundedRect(body, 4, 4);
    const int side = qRound(fontMetrics().height() * 0.9);
    const QRect picture{qRound(body.left()) + kGrid, qRound(body.center().y()) - side / 2, side, side};
    app::icon("clock", look().on_accent).paint(&painter, picture);
    painter.setPen(look().on_accent);
    QRectF words = body.adjusted(2 * kGrid + side, 0, -kGrid, 0);
    painter.setFont(font());
    painter.drawText(words, Qt::AlignVCenter | Qt::AlignLeft, number_);
    painter.setFont(timeFont());
    painter.drawText(words, Qt::AlignVCenter | Qt::AlignRight, text());
    if (hasFocus()) {
      painter.setBrush(Qt::NoBrush);
      painter.setPen(QPen{look().ink, 1.5});
      painter.drawRoundedRect(body.adjusted(0.5, 0.5, -0.5, -0.5), 4, 4);
    }
  }

 private:
  QFont timeFont() const {
    QFont larger = font();
    larger.setPointSizeF(larger.pointSizeF() * 1.15);
    larger.setWeight(QFont::Bold);
    return larger;
  }
  QString number_;
};

Wire::Wire(QWidget* parent) : QWidget(parent), clock_{new ClockTag{this}} {
  setObjectName("wire");
  setAccessibleName(tr("Screens and machines in hand"));
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  connect(clock_, &QAbstractButton::clicked, this, &Wire::clockChosen);
}

void Wire::setWords(const std::vector<Word>& words) {
  qDeleteAll(words_);
  words_.clear();
  for (const Word& word : words) {
    auto* at = new WireWord{word, this};
    connect(at, &QAbstractButton::clicked, this, [this, name = word.word] { emit wordChosen(name); });
    at->show();
    words_.push_back(at);
  }
  arrange();
}

void Wire::setCurrent(const QString& word) {
  for (WireWord* at : words_)
    at->setChecked(at->text() == word);
  update();
}

void Wire::setTags(const std::vector<Tag>& tags) {
  qDeleteAll(tags_);
  tags_.clear();
  for (const Tag& tag : tags) {
    auto* at = new HangingTag{tag, this};
    connect(at, &QAbstractButton::clicked, this,
            [this, machine = tag.machine] { emit machineChosen(machine); });
    at->show();
    tags_.push_back(at);
  }
  setCurrentMachine(current_machine_);
  arrange();
}

void Wire::setCurrentMachine(std::optional<MachineId> machine) {
  current_machine_ = machine;
  for (HangingTag* tag : tags_)
    tag->setChecked(machine && tag->machine() == *machine);
}

void Wire::setClock(const std::optional<Running>& clock) {
  if (clock)
    clock_->run(*clock);
  else
    clock_->hide();
  arrange();
}

qreal Wire::heightAt(qreal x) const {
  const qreal line = fontMetrics().height();
  const qreal t = width() > 0 ? std::clamp(x / width(), 0.0, 1.0) : 0;
  return line * (kWireAt + kSag * 4 * t * (1 - t));
}

QSize Wire::sizeHint() const {
  const qreal line = fontMetrics().height();
  return {80 * kGrid, qCeil(line * (kWireAt + kSag + kStringLength + kTagHeight + kBelow))};
}

QSize Wire::minimumSizeHint() const {
  return {0, sizeHint().height()};
}

void Wire::arrange() {
  const auto standOn = [this](QWidget* word, int x) {
    const QSize size = word->sizeHint();
    const qreal wire = heightAt(x + size.width() / 2.0);
    word->setGeometry(x, qRound(wire) - size.height() - 2, size.width(), size.height());
    return size.width();
  };
  const auto hangFrom = [this](QWidget* tag, int x) {
    const QSize size = tag->sizeHint();
    tag->setGeometry(x, qRound(heightAt(x + size.width() / 2.0)), size.width(), size.height());
    return size.width();
  };
  int left = kMargin - kGrid, right = width() - kMargin + kGrid;
  for (WireWord* word : words_)
    if (!word->isSmall()) left += standOn(word, left) + kWordGap / 2;
  for (auto at = words_.rbegin(); at != words_.rend(); ++at)
    if ((*at)->isSmall()) {
      right -= (*at)->sizeHint().width();
      standOn(*at, right);
      right -= kGrid / 2;
    }
  // The tags hang from the free wire behind the words, the newest first; where it is too short for them, they
  // begin further left. The clock hangs at the right end.
  const int clock_room = clock_->isHidden() ? 0 : clock_->sizeHint().width() + kTagGap;
  int wanted = 0;
  for (const HangingTag* tag : tags_)
    wanted += tag->sizeHint().width() + kTagGap;
  int x = std::max(kMargin, std::min(left + kTagGap, width() - kMargin - clock_room - wanted));
  for (HangingTag* tag : tags_)
    x += hangFrom(tag, x) + kTagGap;
  if (!clock_->isHidden()) hangFrom(clock_, width() - kMargin - clock_->sizeHint().width());
  update();
}

void Wire::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  QPainterPath line(QPointF{0, heightAt(0)});
  // The parabola of heightAt is exactly a quadratic curve with its handle twice the sag below the ends.
  const qreal sag = fontMetrics().height() * kSag;
  line.quadTo(QPointF{width() / 2.0, heightAt(0) + 2 * sag}, QPointF{qreal(width()), heightAt(width())});
  painter.setPen(QPen{look().edge, 1.5});
  painter.drawPath(line);
  for (const WireWord* word : words_)
    if (word->isChecked()) {
      const qreal x = word->geometry().center().x() + 0.5;
      painter.setPen(Qt::NoPen);
      painter.setBrush(look().accent);
      painter.drawEllipse(QPointF{x, heightAt(x)}, kKnot, kKnot);
    }
  painter.setPen(Qt::NoPen);
  painter.setBrush(look().edge);
  for (const HangingTag* tag : tags_) {
    const qreal x = tag->geometry().center().x() + 0.5;
    painter.drawEllipse(QPointF{x, heightAt(x)}, 2, 2);
  }
}

void Wire::resizeEvent(QResizeEvent*) {
  arrange();
}

void Wire::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::FontChange || event->type() == QEvent::StyleChange) {
    updateGeometry();
    arrange();
  }
}

}  // namespace secondpull::app
