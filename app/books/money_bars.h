#pragma once

#include <functional>
#include <vector>

#include <QWidget>

#include "core/money/money.h"

class QChartView;
class QScrollBar;

namespace secondpull::app {

/// One row of a chart of amounts: a bar from one level to another, with its name before and its amount
/// beside it.
struct MoneyBar {
  enum class Kind {
    gain,  ///< plain
    loss,  ///< hatched, so that it does not rest on colour
    level  ///< where one has arrived: cross-hatched
  };
  QString name;    ///< before the bar; no two rows have the same
  QString amount;  ///< beside the bar, as it is to be read
  Money from, to;
  Kind kind = Kind::gain;
};

/// A chart of amounts as horizontal bars, a row each, drawn with Qt Charts in the program's look. It shows as
/// many rows as its height holds legibly and scrolls over the rest; the scale is that of all rows. Up, Down,
/// Page Up and Page Down, Home and End, the wheel and a click choose a row.
class MoneyBars : public QWidget {
  Q_OBJECT
 public:
  /// `axis_title` names what is measured and its unit; `name` is what a screen reader says.
  MoneyBars(const QString& name, const QString& axis_title, Currency currency, QWidget* parent = nullptr);

  void setBars(std::vector<MoneyBar> bars);
  const std::vector<MoneyBar>& bars() const { return bars_; }
  void setAxisTitle(const QString& title);
  /// For amounts that are no money: ticks stand at multiples of `unit`, and their texts are what `text` says.
  void setScale(Money unit, std::function<QString(Money)> text);
  /// Whether rows can be chosen; a chart that only shows does not take the focus.
  void setChoosing(bool choosing);
  int current() const { return current_; }  ///< -1: none
  void setCurrent(int row);                 ///< scrolls it into sight; does not send currentChanged
  int firstShown() const { return first_; }
  int shownRows() const;  ///< rows that fit
  /// Where that row is drawn, in this widget's coordinates; empty if it is not in sight.
  QRectF rowRect(int row) const;
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 signals:
  void currentChanged(int row);  ///< chosen here, by mouse or key

 protected:
  void resizeEvent(QResizeEvent* event) override;
  void changeEvent(QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  class View;
  void draw();
  void choose(int row);
  void scrollTo(int first);
  QString inWords() const;

  View* view_;
  QScrollBar* scroll_;
  QString axis_title_;
  Currency currency_;
  Money unit_ = Money::from_minor(1);
  std::function<QString(Money)> tick_text_;
  std::vector<MoneyBar> bars_;
  int first_ = 0;
  int current_ = -1;
  bool choosing_ = false;
  bool drawing_ = false;
};

/// The smallest step of 1, 2 or 5 times a power of ten, in minor units, that covers `span` in at most
/// `most_steps` steps. `span` > 0.
Money tickStep(Money span, int most_steps);

}  // namespace secondpull::app
