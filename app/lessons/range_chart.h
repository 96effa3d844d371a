#pragma once

#include <functional>
#include <optional>
#include <vector>

#include <QWidget>

class QScrollBar;

namespace secondpull::app {

/// One row of a chart of figures that are not known exactly.
struct RangeRow {
  QString name;                     ///< before it; no two rows have the same
  QString label;                    ///< beside it, as it is to be read
  std::optional<double> figure;     ///< a dot, or the end of a bar
  std::optional<double> low, high;  ///< the range: a line with ends; both or none
  std::optional<double> beside;     ///< what it is held against: a hollow diamond
  bool bar = false;                 ///< the figure as a bar from zero, hatched where it is below
};

/// What a chart shows.
struct RangeChartOf {
  QString title;  ///< and what the marks mean
  QString axis;   ///< what is measured, and its unit
  std::vector<RangeRow> rows;
  std::function<QString(double)> tick;  ///< the text at a tick
  std::optional<double> least, most;    ///< of the scale, where they are given; else those of the rows
};

/// Figures as dots with the range in which they lie, a row each, drawn with Qt Charts in the program's look.
/// It shows as many rows as its height holds legibly and scrolls over the rest; the scale is that of all
/// rows.
class RangeChart : public QWidget {
  Q_OBJECT
 public:
  explicit RangeChart(QWidget* parent = nullptr);

  void setChart(RangeChartOf what);
  const RangeChartOf& shown() const { return what_; }
  void setCurrent(int row);  ///< is framed, and scrolled into sight; -1: none
  int current() const { return current_; }
  int shownRows() const;  ///< rows that fit
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 signals:
  void rowChosen(int row);  ///< by a click

 protected:
  void resizeEvent(QResizeEvent* event) override;
  void changeEvent(QEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  class View;
  void draw();
  QString inWords() const;

  View* view_;
  QScrollBar* scroll_;
  RangeChartOf what_;
  int first_ = 0;
  int current_ = -1;
  bool drawing_ = false;
};

/// The smallest of 1, 2 and 5 times a power of ten that covers `span` (> 0) in at most `most_steps` steps.
double niceStep(double span, int most_steps);

}  // namespace secondpull::app
