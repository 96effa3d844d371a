#pragma once

#include <memory>

#include <QWidget>

#include "app/planning/latest_task.h"
#include "core/planning/would_change.h"

class QLabel;

namespace secondpull::app {

class Session;

/// What an entry that is not kept yet would do to the machines that wait: the next step, the verdict and the
/// worth of each whose case it changes, before and after, worked out in the background. Object names:
/// knowledgeWouldChange, knowledgeWouldChangeList.
class WouldChangeView : public QWidget {
  Q_OBJECT
 public:
  WouldChangeView(Session& session, QWidget* parent);

  /// The text as the shop's own entry; what was asked before is forgotten.
  void ask(const std::string& section, const std::string& entry, const std::string& text);
  void say(const QString& sentence);  ///< instead
  bool isWorking() const { return is_working_; }

 signals:
  void wantsMachine(secondpull::MachineId machine);

 private:
  struct Found {
    std::optional<Problem> problem;
    std::shared_ptr<const learning::KnowledgeBase> base;  ///< as it would be
    std::vector<planning::PlanChange> plans;              ///< so far
    std::size_t touched = 0;
  };
  void showFound(const Found& found);
  void clearList();
  QString line(const planning::PlanChange& plan, const learning::Knowledge& then) const;

  Session& session_;
  bool is_working_ = false;
  std::pair<std::string, std::string> asked_;  ///< section and entry
  std::uint64_t turn_ = 0;
  QLabel* sum_;
  QLabel* list_;
  LatestTask worker_;  // after all that its tasks tell: it goes first
};

}  // namespace secondpull::app
