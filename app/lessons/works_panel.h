#pragma once

#include "app/lessons/tables_panel.h"
#include "core/lessons/causes.h"
#include "core/lessons/rates.h"
#include "core/lessons/step_times.h"

namespace secondpull::app {

/// What works here: how often each repair mends, what is behind each symptom, how long each step takes.
/// Object names: works... (TablesPanel); tables worksRepairs, worksCauses, worksMinutes.
class WorksPanel : public TablesPanel {
  Q_OBJECT
 public:
  WorksPanel(Session& session, QWidget* parent);
  void refresh() override;

 private:
  struct Repair {
    QString name, cause;  ///< cause empty: all together
    lessons::CureRate rate;
  };
  struct Cause {
    QString symptom, name;
    std::int64_t cases = 0;  ///< of the symptom
    lessons::CauseShare share;
  };
  struct Step {
    QString name, sort;
    lessons::StepTime time;
  };
  LessonSays ofRepairs(const std::vector<Repair>& rows) const;
  LessonSays ofCauses(const std::vector<Cause>& rows) const;
  LessonSays ofSteps(const std::vector<Step>& rows) const;

  RowModel<Repair>* repairs_;
  RowModel<Cause>* causes_;
  RowModel<Step>* steps_;
};

}  // namespace secondpull::app
