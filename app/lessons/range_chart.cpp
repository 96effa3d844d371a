#include "app/lessons/range_chart.h"

#include <algorithm>
#include <cmath>

#include <QScrollBar>
#include <QSignalBlocker>
#include <QWheelEvent>
#include <QtCharts/QCategoryAxis>
#include <QtCharts/QChart>
#include <QtCharts/QChartView>
#include <QtCharts/QLineSeries>
#include <QtCharts/QScatterSeries>

#include "app/parts/grown.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr int kRowHeight = 30;     // room for a line of text and the marks, at the usual size
constexpr int kAxisHeight = 52;    // the ticks' texts and the axis title, at the usual size
constexpr int kLeastHeight = 104;  // with large text: the axis is then most of it
constexpr int kLabelGap = 10;      // between the last mark and the label
constexpr int kMostTicks = 5;
constexpr qreal kDot = 11, kDiamond = 12;  // sizes of the marks
constexpr qreal kRange = 3, kBar = 14;     // widths of the lines
constexpr qreal kEnd = 0.18;               // half the height of a range's end, in rows
constexpr qreal kMostName = 0.36;          // of the chart's width, for the names before the rows
constexpr qreal kEdge = 1.5;               // outline of the chosen row

/// How far a row reaches, zero included where it is a bar.
std::pair<double, double> reach(const RangeRow& row) {
  std::vector<double> all;
  for (const auto& each : {row.figure, row.low, row.high, row.beside})
    if (each) all.push_back(*each);
  if (row.bar || all.empty()) all.push_back(0);
  const auto [low, high] = std::minmax_element(all.begin(), all.end());
  return {*low, *high};
}

}  // namespace

double niceStep(double span, int most_steps) {
  const double least = span / most_steps;
  const double power = std::pow(10.0, std::floor(std::log10(least)));
  for (const double times : {1.0, 2.0, 5.0})
    if (power * times >= least * (1 - 1e-9)) return power * times;
  return power * 10;
}

/// The chart itself. The labels and the frame of the chosen row are drawn over it, so that they stand where
/// we want them and never on each other.
class RangeChart::View : public QChartView {
 public:
  explicit View(RangeChart* of) : QChartView(new QChart, of), of_{of} {
    setRenderHint(QPainter::Antialiasing);
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::NoFocus);
    chart()->setMargins({0, 0, 0, 0});
    chart()->layout()->setContentsMargins(0, 0, 0, 0);
  }

  void show(std::vector<RangeRow> rows, double low, double high);
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
    if (scale_ == nullptr) return;
    for (int row = 0; row < static_cast<int>(rows_.size()); ++row) {
      const QRectF at = rowRect(row);
      const bool chosen = of_->first_ + row == of_->current_;
      const RangeRow& each = rows_[static_cast<std::size_t>(row)];
      const qreal end = chart()->mapToPosition({reach(each).second, 0}, scale_).x();
      QFont font = font_;
      font.setBold(chosen);
      painter->setFont(font);
      painter->setPen(look().ink);
      painter->drawText(QRectF{end + kLabelGap, at.top(), at.width(), at.height()},
                        Qt::AlignLeft | Qt::AlignVCenter, each.label);
      if (!chosen) continue;
      painter->setPen(QPen{look().accent, kEdge});
      painter->setBrush(Qt::NoBrush);
      painter->drawRoundedRect(QRectF{kEdge, at.top() + 1, scene()->width() - 2 * kEdge, at.height() - 2}, 4,
                               4);
    }
  }

 private:
  /// A row of those in sight, in the scene's coordinates.
  QRectF rowRect(int row) const {
    const QRectF plot = chart()->plotArea();
    const qreal height = plot.height() / static_cast<qreal>(std::max<std::size_t>(rows_.size(), 1));
    return {plot.left(), plot.top() + height * row, plot.width(), height};
  }
  /// Qt counts from the bottom; a person reads from the top.
  double heightOf(std::size_t row) const { return static_cast<double>(rows_.size() - row) - 0.5; }
  void addLine(const QPen& pen, std::initializer_list<QPointF> points) {
    auto* line = new QLineSeries;
    line->setPen(pen);
    for (const QPointF& point : points)
      line->append(point);
    chart()->addSeries(line);
  }
  QScatterSeries* addMarks(QScatterSeries::MarkerShape shape, qreal size, const QBrush& brush,
                           const QPen& pen) {
    auto* marks = new QScatterSeries;
    marks->setMarkerShape(shape);
    marks->setMarkerSize(size);
    marks->setBrush(brush);
    marks->setPen(pen);
    return marks;
  }
  void addRow(std::size_t at);

  RangeChart* of_;
  std::vector<RangeRow> rows_;
  QScatterSeries* scale_ = nullptr;  // what the labels are placed by
  QFont font_;
};

void RangeChart::View::addRow(std::size_t at) {
  const RangeRow& row = rows_[at];
  const double y = heightOf(at);
  if (row.bar && row.figure) {
    const bool below = *row.figure < 0;
    const QBrush brush{look().series[below ? 1 : 0], below ? Qt::Dense4Pattern : Qt::SolidPattern};
    addLine(QPen{brush, kBar, Qt::SolidLine, Qt::FlatCap}, {{0, y}, {*row.figure, y}});
  }
  if (row.low && row.high) {
    const QPen pen{look().series[0], kRange, Qt::SolidLine, Qt::FlatCap};
    addLine(pen, {{*row.low, y}, {*row.high, y}});
    for (const double end : {*row.low, *row.high})
      addLine(QPen{look().series[0], kRange - 1, Qt::SolidLine, Qt::FlatCap},
              {{end, y - kEnd}, {end, y + kEnd}});
  }
}

void RangeChart::View::show(std::vector<RangeRow> rows, double low, double high) {
  rows_ = std::move(rows);
  scale_ = nullptr;
  // A new chart each time: axes that are taken out of one stay on the screen until the event loop comes
  // round.
  QChart* const old = chart();
  setChart(new QChart);
  delete old;
  chart()->layout()->setContentsMargins(0, 0, 0, 0);
  dressChart(*chart());
  setBackgroundBrush(Qt::NoBrush);
  if (rows_.empty()) return;

  for (std::size_t at = 0; at < rows_.size(); ++at)
    addRow(at);
  auto* dots = addMarks(QScatterSeries::MarkerShapeCircle, kDot, look().series[0], QPen{look().paper, 1});
  auto* diamonds = addMarks(QScatterSeries::MarkerShapeRotatedRectangle, kDiamond, look().paper,
                            QPen{look().series[1], 2});
  for (std::size_t at = 0; at < rows_.size(); ++at) {
    const RangeRow& row = rows_[at];
    if (row.beside) diamonds->append(*row.beside, heightOf(at));
    if (row.figure && !row.bar) dots->append(*row.figure, heightOf(at));
  }
  chart()->addSeries(diamonds);
  chart()->addSeries(dots);
  scale_ = dots;

  auto* names = new QCategoryAxis;
  names->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
  names->setRange(0, static_cast<double>(rows_.size()));
  chart()->addAxis(names, Qt::AlignLeft);
  dressChart(*chart());
  font_ = names->labelsFont();
  // A long name leaves the marks their room; two that are cut alike still stand in rows of their own.
  const qreal most_name = width() * kMostName;
  for (std::size_t at = 0; at < rows_.size(); ++at)
    rows_[at].name = QFontMetricsF{font_}.elidedText(rows_[at].name, Qt::ElideRight, most_name) +
                     QString(static_cast<qsizetype>(at), QChar{0x200B});
  for (std::size_t at = rows_.size(); at-- > 0;)
    names->append(rows_[at].name, heightOf(at));

  // Room at the right for the longest label, whatever the scale.
  const QFontMetricsF metrics{font_};
  qreal name_width = 0, label_width = 0;
  for (const RangeRow& row : rows_) {
    name_width = std::max(name_width, metrics.horizontalAdvance(row.name));
    label_width = std::max(label_width, metrics.horizontalAdvance(row.label) * 1.1 + kLabelGap + kGrid);
  }
  const double span = high - low;
  const qreal plot = std::max<qreal>(width() - name_width - 4 * kGrid, 1.6 * label_width);
  const double room = span * label_width / std::max<qreal>(plot - label_width, 1);
  auto* amounts = new QCategoryAxis;
  amounts->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
  amounts->setStartValue(low);
  amounts->setRange(low, high + room);
  const double step = niceStep(span, kMostTicks);
  for (double tick = std::ceil(low / step - 1e-9) * step; tick <= high + step * 1e-9; tick += step)
    amounts->append(of_->what_.tick ? of_->what_.tick(tick) : QString::number(tick), tick);
  amounts->setTitleText(of_->what_.axis);
  chart()->addAxis(amounts, Qt::AlignBottom);
  for (QAbstractSeries* series : chart()->series()) {
    series->attachAxis(names);
    series->attachAxis(amounts);
  }
  dressChart(*chart());
  chart()->setMargins({kGrid, 0, 0, 0});  // the chosen row's frame stands clear of its name
  names->setTruncateLabels(false);
  names->setGridLineVisible(false);
  names->setLineVisible(false);
  names->setLabelsBrush(look().ink);
}

RangeChart::RangeChart(QWidget* parent)
    : QWidget(parent), view_{new View{this}}, scroll_{new QScrollBar{Qt::Vertical, this}} {
  scroll_->setFocusPolicy(Qt::NoFocus);
  view_->viewport()->installEventFilter(this);
  connect(scroll_, &QScrollBar::valueChanged, this, [this](int first) {
    first_ = first;
    draw();
  });
}

void RangeChart::setChart(RangeChartOf what) {
  what_ = std::move(what);
  first_ = 0;
  current_ = -1;
  setAccessibleName(what_.title);
  updateGeometry();
  draw();
}

void RangeChart::setCurrent(int row) {
  if (row < -1 || row >= static_cast<int>(what_.rows.size())) row = -1;
  current_ = row;
  if (row >= 0 && row < first_) first_ = row;
  if (row >= first_ + shownRows()) first_ = row - shownRows() + 1;
  draw();
}

QSize RangeChart::sizeHint() const {
  const int rows = std::clamp(static_cast<int>(what_.rows.size()), 3, 12);
  return {460, rows * kRowHeight + kAxisHeight};
}

QSize RangeChart::minimumSizeHint() const {
  return {280, isTextLarge() ? kLeastHeight : 3 * kRowHeight + kAxisHeight};
}

int RangeChart::shownRows() const {
  const int line = std::max(kRowHeight, QFontMetrics{font()}.height() + kGrid);
  return std::max(1, (height() - grown(kAxisHeight)) / line);
}

QString RangeChart::inWords() const {
  QStringList words;
  for (const RangeRow& row : what_.rows)
    words << QStringLiteral("%1 %2").arg(row.name, row.label);
  return what_.axis + QStringLiteral(": ") + words.join(QStringLiteral("; "));
}

void RangeChart::draw() {
  if (drawing_) return;
  drawing_ = true;
  const int all = static_cast<int>(what_.rows.size());
  const int rows = shownRows();
  first_ = std::clamp(first_, 0, std::max(0, all - rows));
  {
    const QSignalBlocker quiet{scroll_};
    scroll_->setRange(0, std::max(0, all - rows));
    scroll_->setPageStep(rows);
    scroll_->setValue(first_);
  }
  scroll_->setVisible(all > rows);
  double low = what_.least.value_or(0), high = what_.most.value_or(0);
  for (const RangeRow& row : what_.rows) {
    const auto [from, to] = reach(row);
    if (!what_.least) low = std::min(low, from);
    if (!what_.most) high = std::max(high, to);
  }
  if (!(high > low)) high = low + 1;
  constexpr double kClear = 0.03;  // of the scale: a mark below zero stands clear of the axis
  if (!what_.least && low < 0) low -= kClear * (high - low);
  const auto begin = what_.rows.begin() + first_;
  // Few rows stand close together at the top rather than far apart.
  const int shown = std::min(rows, all - first_);
  const int line = std::max(kRowHeight, QFontMetrics{font()}.height() + kGrid);
  const int bar = scroll_->isVisibleTo(this) ? scroll_->sizeHint().width() : 0;
  view_->setGeometry(0, 0, width() - bar, std::min(height(), shown * 2 * line + grown(kAxisHeight)));
  scroll_->setGeometry(width() - bar, 0, bar, height());
  view_->show({begin, begin + shown}, low, high);
  view_->scene()->update();
  setAccessibleDescription(inWords());
  drawing_ = false;
}

void RangeChart::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  setCurrent(current_);
}

void RangeChart::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::PaletteChange || event->type() == QEvent::StyleChange ||
      event->type() == QEvent::FontChange)
    draw();
}

void RangeChart::wheelEvent(QWheelEvent* event) {
  scroll_->setValue(scroll_->value() - (event->angleDelta().y() > 0 ? 3 : -3));
  event->accept();
}

bool RangeChart::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::Wheel) {
    wheelEvent(static_cast<QWheelEvent*>(event));
    return true;
  }
  if (event->type() == QEvent::MouseButtonRelease) {
    const int row = view_->rowAt(view_->mapToScene(static_cast<QMouseEvent*>(event)->pos()));
    if (row >= 0) emit rowChosen(first_ + row);
  }
  return QWidget::eventFilter(watched, event);
}

}  // namespace secondpull::app
