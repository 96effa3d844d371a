#include "app/books/money_bars.h"

#include <algorithm>
#include <array>

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QScrollBar>
#include <QSignalBlocker>
#include <QWheelEvent>
#include <QtCharts/QBarCategoryAxis>
#include <QtCharts/QBarSet>
#include <QtCharts/QCategoryAxis>
#include <QtCharts/QChart>
#include <QtCharts/QChartView>
#include <QtCharts/QHorizontalStackedBarSeries>

#include "app/parts/grown.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr int kRowHeight = 24;     // room for a line of text at the usual size
constexpr int kAxisHeight = 52;    // the ticks' texts and the axis title, at the usual size
constexpr int kLeastHeight = 104;  // with large text: the axis is then most of it
constexpr int kLabelGap = 6;       // between a bar and its amount
constexpr int kMostTicks = 5;
constexpr qreal kBarShare = 0.62;  // of a row's height
constexpr qreal kEdge = 1.5;       // outline of the chosen row
constexpr std::size_t kKinds = 3;

double value(Money amount) {
  return static_cast<double>(amount.minor());
}

QBrush brushOf(MoneyBar::Kind kind) {
  switch (kind) {
    case MoneyBar::Kind::gain:
      return {look().series[0], Qt::SolidPattern};
    case MoneyBar::Kind::loss:
      return {look().series[1], Qt::BDiagPattern};
    case MoneyBar::Kind::level:
      return {look().series[2], Qt::DiagCrossPattern};
  }
  return {};
}

/// A bar between two levels, cut at zero: Qt stacks what is above and what is below zero apart.
struct Pieces {
  double below_gap = 0, above_gap = 0;  // from zero to the bar
  double below = 0, above = 0;          // the bar itself
};
Pieces pieces(const MoneyBar& bar) {
  const double low = value(std::min(bar.from, bar.to)), high = value(std::max(bar.from, bar.to));
  if (low >= 0) return {.above_gap = low, .above = high - low};
  if (high <= 0) return {.below_gap = high, .below = low - high};
  return {.below = low, .above = high};
}

}  // namespace

Money tickStep(Money span, int most_steps) {
  const std::int64_t least = span.minor() / most_steps + (span.minor() % most_steps != 0 ? 1 : 0);
  std::int64_t power = 1;
  while (true) {
    for (const std::int64_t times : {1, 2, 5})
      if (power * times >= least) return Money::from_minor(power * times);
    power *= 10;
  }
}

/// The chart itself. The amounts and the frame of the chosen row are drawn over it, so that they stand where
/// we want them and never on each other.
class MoneyBars::View : public QChartView {
 public:
  explicit View(MoneyBars* bars) : QChartView(new QChart, bars), bars_{bars} {
    setRenderHint(QPainter::Antialiasing);
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::NoFocus);
    chart()->setMargins({0, 0, 0, 0});
    chart()->layout()->setContentsMargins(0, 0, 0, 0);
  }

  void show(std::vector<MoneyBar> rows, Money low, Money high, const QString& axis_title);
  /// A row of those in sight, in the scene's coordinates.
  QRectF rowRect(int row) const {
    const QRectF plot = chart()->plotArea();
    const qreal height = plot.height() / static_cast<qreal>(std::max<std::size_t>(rows_.size(), 1));
    return {plot.left(), plot.top() + height * row, plot.width(), height};
  }
  int rowAt(QPointF where) const {
    for (int row = 0; row < static_cast<int>(rows_.size()); ++row) {
      const QRectF at = rowRect(row);
      if (where.y() >= at.top() && where.y() < at.bottom()) return row;
    }
    return -1;
  }

 protected:
  void drawForeground(QPainter* painter, const QRectF& rect) override {
    QChartView::drawForeground(painter, rect);
    if (rows_.empty() || series_ == nullptr) return;
    for (int row = 0; row < static_cast<int>(rows_.size()); ++row) {
      const MoneyBar& bar = rows_[static_cast<std::size_t>(row)];
      const QRectF at = rowRect(row);
      const bool chosen = bars_->first_ + row == bars_->current_;
      const qreal end = xOf(std::max({bar.from, bar.to}));
      QFont font = text_font_;
      font.setBold(chosen || bar.kind == MoneyBar::Kind::level);
      painter->setFont(font);
      painter->setPen(look().ink);
      painter->drawText(QRectF{end + kLabelGap, at.top(), at.right() - end + at.width(), at.height()},
                        Qt::AlignLeft | Qt::AlignVCenter, bar.amount);
      if (chosen) {
        painter->setPen(QPen{look().accent, kEdge});
        painter->setBrush(Qt::NoBrush);
        painter->drawRoundedRect(QRectF{kEdge, at.top() + 1, scene()->width() - 2 * kEdge, at.height() - 2},
                                 4, 4);
      }
    }
  }

 private:
  qreal xOf(Money amount) const { return chart()->mapToPosition({value(amount), 0}, series_).x(); }

  MoneyBars* bars_;
  std::vector<MoneyBar> rows_;
  QHorizontalStackedBarSeries* series_ = nullptr;
  QFont text_font_;  // of names and amounts
};

void MoneyBars::View::show(std::vector<MoneyBar> rows, Money low, Money high, const QString& axis_title) {
  rows_ = std::move(rows);
  chart()->removeAllSeries();
  series_ = nullptr;
  for (QAbstractAxis* axis : chart()->axes()) {
    chart()->removeAxis(axis);
    delete axis;
  }
  dressChart(*chart());
  chart()->setBackgroundVisible(false);
  setBackgroundBrush(Qt::NoBrush);
  if (rows_.empty()) return;

  auto* series = new QHorizontalStackedBarSeries;
  series->setBarWidth(kBarShare);
  auto* gap = new QBarSet({});
  gap->setBrush(Qt::NoBrush);
  gap->setPen(Qt::NoPen);
  std::array<QBarSet*, kKinds> above{}, below{};
  for (std::size_t kind = 0; kind < kKinds; ++kind) {
    for (QBarSet*& set : {std::ref(above[kind]), std::ref(below[kind])}) {
      set = new QBarSet({});
      const QBrush brush = brushOf(static_cast<MoneyBar::Kind>(kind));
      set->setBrush(brush);
      set->setPen(QPen{brush.color(), 1});
    }
  }
  auto* names = new QBarCategoryAxis;
  // Qt counts rows from the bottom; a person reads them from the top.
  for (auto row = rows_.rbegin(); row != rows_.rend(); ++row) {
    const Pieces cut = pieces(*row);
    names->append(row->name);
    gap->append(cut.above_gap + cut.below_gap);
    for (std::size_t kind = 0; kind < kKinds; ++kind) {
      const bool its = static_cast<std::size_t>(row->kind) == kind;
      above[kind]->append(its ? cut.above : 0);
      below[kind]->append(its ? cut.below : 0);
    }
  }
  series->append(gap);
  for (std::size_t kind = 0; kind < kKinds; ++kind) {
    series->append(above[kind]);
    series->append(below[kind]);
  }
  chart()->addSeries(series);
  series_ = series;
  chart()->addAxis(names, Qt::AlignLeft);
  series->attachAxis(names);
  dressChart(*chart());
  text_font_ = names->labelsFont();

  // Room at the right for the longest amount, whatever the scale.
  const QFontMetricsF metrics{text_font_};
  qreal name_width = 0, amount_width = 0;
  for (const MoneyBar& row : rows_) {
    name_width = std::max(name_width, metrics.horizontalAdvance(row.name));
    amount_width = std::max(amount_width, metrics.horizontalAdvance(row.amount) * 1.1);
  }
  const qreal plot = std::max<qreal>(width() - name_width - 4 * kGrid, 2 * amount_width);
  const Money span = std::max(high - low, Money::from_minor(1));
  const double room =
      value(span) * (amount_width + kLabelGap + kGrid) / (plot - amount_width - kLabelGap - kGrid);

  auto* amounts = new QCategoryAxis;
  amounts->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
  amounts->setStartValue(value(low));
  amounts->setRange(value(low), value(high) + room);
  const Money unit = bars_->unit_;
  const Money step =
      unit *
      tickStep(Money::from_minor(std::max<std::int64_t>(span.minor() / unit.minor(), 1)), kMostTicks).minor();
  const std::int64_t below_zero = -(low.minor() / step.minor());
  for (std::int64_t tick = -below_zero; step * tick <= high; ++tick)
    amounts->append(bars_->tick_text_(step * tick), value(step * tick));
  amounts->setTitleText(axis_title);
  chart()->addAxis(amounts, Qt::AlignBottom);
  series->attachAxis(amounts);
  dressChart(*chart());
  chart()->setMargins({kGrid, 0, 0, 0});  // the chosen row's frame stands clear of its name
  names->setTruncateLabels(false);
  names->setGridLineVisible(false);
  names->setLineVisible(false);
  names->setLabelsBrush(look().ink);
}

MoneyBars::MoneyBars(const QString& name, const QString& axis_title, Currency currency, QWidget* parent)
    : QWidget(parent),
      view_{new View{this}},
      scroll_{new QScrollBar{Qt::Vertical, this}},
      axis_title_{axis_title},
      currency_{std::move(currency)} {
  setAccessibleName(name);
  tick_text_ = [this](Money amount) { return QString::fromStdString(shown_short(amount, currency_)); };
  auto* box = new QHBoxLayout{this};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(0);
  box->addWidget(view_, 1);
  box->addWidget(scroll_);
  scroll_->setFocusPolicy(Qt::NoFocus);
  view_->viewport()->installEventFilter(this);
  connect(scroll_, &QScrollBar::valueChanged, this, &MoneyBars::scrollTo);
  draw();
}

QSize MoneyBars::sizeHint() const {
  const int rows = std::clamp(static_cast<int>(bars_.size()), 4, 12);
  return {480, rows * kRowHeight + kAxisHeight};
}

QSize MoneyBars::minimumSizeHint() const {
  // Large text fills a window's height: charts give way first.
  return {280, isTextLarge() ? kLeastHeight : 4 * kRowHeight + kAxisHeight};
}

int MoneyBars::shownRows() const {
  const int line = std::max(kRowHeight, QFontMetrics{font()}.height() + kGrid / 2);
  return std::max(1, (height() - grown(kAxisHeight)) / line);
}

void MoneyBars::setBars(std::vector<MoneyBar> bars) {
  bars_ = std::move(bars);
  current_ = -1;
  first_ = 0;
  updateGeometry();
  draw();
}

void MoneyBars::setAxisTitle(const QString& title) {
  axis_title_ = title;
  draw();
}

void MoneyBars::setScale(Money unit, std::function<QString(Money)> text) {
  unit_ = unit;
  tick_text_ = std::move(text);
  draw();
}

void MoneyBars::setChoosing(bool choosing) {
  choosing_ = choosing;
  setFocusPolicy(choosing ? Qt::StrongFocus : Qt::NoFocus);
}

void MoneyBars::setCurrent(int row) {
  if (row < -1 || row >= static_cast<int>(bars_.size())) row = -1;
  current_ = row;
  if (row >= 0 && row < first_) first_ = row;
  if (row >= first_ + shownRows()) first_ = row - shownRows() + 1;
  draw();
}

QRectF MoneyBars::rowRect(int row) const {
  if (row < first_ || row >= first_ + shownRows() || row >= static_cast<int>(bars_.size())) return {};
  const QRectF in_scene = view_->rowRect(row - first_);
  const QPolygon in_view = view_->mapFromScene(in_scene);
  return {view_->viewport()->mapTo(this, in_view.boundingRect().topLeft()), in_view.boundingRect().size()};
}

QString MoneyBars::inWords() const {
  QStringList words;
  const int end = std::min(first_ + shownRows(), static_cast<int>(bars_.size()));
  for (int row = first_; row < end; ++row) {
    const MoneyBar& bar = bars_[static_cast<std::size_t>(row)];
    words << QStringLiteral("%1 %2").arg(bar.name, bar.amount);
  }
  return axis_title_ + QStringLiteral(": ") + words.join(QStringLiteral("; "));
}

void MoneyBars::draw() {
  if (drawing_) return;
  drawing_ = true;
  const int rows = shownRows(), all = static_cast<int>(bars_.size());
  first_ = std::clamp(first_, 0, std::max(0, all - rows));
  {
    const QSignalBlocker quiet{scroll_};
    scroll_->setRange(0, std::max(0, all - rows));
    scroll_->setPageStep(rows);
    scroll_->setValue(first_);
  }
  scroll_->setVisible(all > rows);
  Money low, high;
  for (const MoneyBar& bar : bars_) {
    low = std::min({low, bar.from, bar.to});
    high = std::max({high, bar.from, bar.to});
  }
  const auto begin = bars_.begin() + first_;
  view_->show({begin, begin + std::min(rows, all - first_)}, low, high, axis_title_);
  view_->scene()->update();
  setAccessibleDescription(inWords());
  drawing_ = false;
}

void MoneyBars::scrollTo(int first) {
  first_ = first;
  draw();
}

void MoneyBars::choose(int row) {
  if (!choosing_ || bars_.empty()) return;
  setCurrent(std::clamp(row, 0, static_cast<int>(bars_.size()) - 1));
  emit currentChanged(current_);
}

void MoneyBars::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  setCurrent(current_);
}

void MoneyBars::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::PaletteChange || event->type() == QEvent::StyleChange ||
      event->type() == QEvent::FontChange)
    draw();
}

void MoneyBars::keyPressEvent(QKeyEvent* event) {
  const int page = shownRows();
  switch (event->key()) {
    case Qt::Key_Up:
      return choose(current_ - 1);
    case Qt::Key_Down:
      return choose(current_ + 1);
    case Qt::Key_PageUp:
      return choose(current_ - page);
    case Qt::Key_PageDown:
      return choose(current_ + page);
    case Qt::Key_Home:
      return choose(0);
    case Qt::Key_End:
      return choose(static_cast<int>(bars_.size()) - 1);
    default:
      QWidget::keyPressEvent(event);
  }
}

void MoneyBars::wheelEvent(QWheelEvent* event) {
  scroll_->setValue(scroll_->value() - (event->angleDelta().y() > 0 ? 3 : -3));
  event->accept();
}

bool MoneyBars::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::Wheel) {
    wheelEvent(static_cast<QWheelEvent*>(event));
    return true;
  }
  if (event->type() == QEvent::MouseButtonRelease && choosing_) {
    const int row = view_->rowAt(view_->mapToScene(static_cast<QMouseEvent*>(event)->pos()));
    if (row >= 0) {
      setFocus(Qt::MouseFocusReason);
      choose(first_ + row);
    }
  }
  return QWidget::eventFilter(watched, event);
}

}  // namespace secondpull::app
