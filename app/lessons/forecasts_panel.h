#pragma once

#include "app/lessons/tables_panel.h"
#include "core/lessons/forecasts.h"

namespace secondpull::app {

/// What the plans promised when work began, against what came. Object names: forecasts... (TablesPanel);
/// tables forecastsRuns, forecastsCauses, forecastsFigures, forecastsMachines.
class ForecastsPanel : public TablesPanel {
  Q_OBJECT
 public:
  ForecastsPanel(Session& session, QWidget* parent);
  void refresh() override;

 private:
  struct Figure {
    QString name;
    lessons::Off off;
    std::function<QString(double)> text;
  };
  LessonSays ofRuns(const lessons::ForecastsHeld& held) const;
  LessonSays ofCauses(const lessons::ForecastsHeld& held) const;
  LessonSays ofFigures(const lessons::ForecastsHeld& held) const;
  LessonSays ofMachines(const lessons::ForecastsHeld& held) const;

  RowModel<lessons::Tenth>*runs_, *causes_;
  RowModel<Figure>* figures_;
  RowModel<lessons::ForecastOutcome>* machines_;
};

}  // namespace secondpull::app
