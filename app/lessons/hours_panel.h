#pragma once

#include "app/lessons/tables_panel.h"
#include "core/lessons/flow.h"
#include "core/lessons/time_spent.h"

namespace secondpull::app {

class WhyFigure;

/// What an hour is worth, where the hours go, and how machines go through the shop. Object names: hours...
/// (TablesPanel); figures hoursAhead, hoursPaid, hoursAll, hoursSaid; tables hoursWork, hoursFlow.
class HoursPanel : public TablesPanel {
  Q_OBJECT
 public:
  HoursPanel(Session& session, QWidget* parent);
  void refresh() override;

 private:
  struct Month {
    lessons::Flow flow;
  };
  void showFigures();
  LessonSays ofWork(const lessons::TimeSpent& spent) const;
  LessonSays ofFlow(const std::vector<Month>& months, const lessons::Flow& year,
                    const lessons::Waits& waits) const;

  WhyFigure *ahead_, *paid_, *all_, *said_;
  RowModel<lessons::TimeOfWork>* work_;
  RowModel<Month>* flow_;
  std::size_t gone_ = 0;  ///< machines that have left
  Minutes spent_;         ///< on them
};

}  // namespace secondpull::app
