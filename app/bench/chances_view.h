#pragma once

#include <vector>

#include <QWidget>

namespace secondpull::app {

/// What it may be: causes with their chances, the likeliest first, each a name, a bar and a figure; what is
/// unlikely is summed up in the last line. For a screen reader the description says the lines.
class ChancesView : public QWidget {
  Q_OBJECT
 public:
  struct Line {
    QString name;
    double chance = 0;  ///< [0, 1]
    QString whose;      ///< where the number comes from; shown under the pointer, and to a screen reader
    friend bool operator==(const Line&, const Line&) = default;
  };
  explicit ChancesView(QWidget* parent);
  /// Likeliest first.
  void setLines(const std::vector<Line>& lines);
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  int lineHeight() const;
  std::vector<Line> lines_;
};

/// "62 %", "under 1 %", "over 99 %".
QString percent(double chance);

}  // namespace secondpull::app
