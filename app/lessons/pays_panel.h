#pragma once

#include <array>

#include "app/lessons/tables_panel.h"
#include "core/lessons/paid.h"

namespace secondpull::app {

class WhyFigure;

/// What pays by the hour: by kind, make, source, symptom and month. Object names: pays... (TablesPanel);
/// figures paysHourly, paysProfit, paysHours; tables paysKind, paysMake, paysSource, paysSymptom, paysMonth.
class PaysPanel : public TablesPanel {
  Q_OBJECT
 public:
  PaysPanel(Session& session, QWidget* parent);
  void refresh() override;

 private:
  LessonSays saysOf(lessons::PaidBy by, const std::vector<lessons::Paid>& groups, const Earned& all) const;

  WhyFigure *hourly_, *profit_, *hours_;
  std::array<RowModel<lessons::Paid>*, 5> models_{};
};

}  // namespace secondpull::app
