#pragma once

#include <optional>
#include <vector>

#include "app/bench/bench_panel.h"
#include "app/planning/planning.h"

namespace secondpull::app {

/// The endings of a machine side by side, each a line: what it would bring, its hours, its pay per hour and,
/// of one that is uncertain, the range from the 10th to the 90th percent drawn over a common scale.
class EndingLines : public QWidget {
  Q_OBJECT
 public:
  struct Line {
    QString name;
    QString brings;
    QString hours;
    QString per_hour;
    double low = 0, middle = 0, high = 0;  ///< money
    bool chosen = false;                   ///< the verdict
    friend bool operator==(const Line&, const Line&) = default;
  };
  explicit EndingLines(QWidget* parent);
  void setLines(std::vector<Line> lines);
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  int lineHeight() const;
  std::vector<Line> lines_;
};

/// The band at the foot: the verdict in words, and what revive, sell as is, part out and scrap would each
/// bring. Object names: "verdictSays", "verdictStop", "verdictSunk", "verdictLines".
class VerdictBand : public BenchPanel {
  Q_OBJECT
 public:
  VerdictBand(Session& session, QWidget* parent);
  void refresh() override;
  void showPlan(const MachinePlan& plan);

 protected:
  void paintEvent(QPaintEvent* event) override;
  bool event(QEvent* event) override;  ///< other words may be higher
  void resizeEvent(QResizeEvent* event) override;

 private:
  void fit();
  QLabel* says_;
  QLabel* stop_;
  QLabel* sunk_;
  EndingLines* lines_;
};

}  // namespace secondpull::app
