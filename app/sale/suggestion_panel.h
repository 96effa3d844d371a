#pragma once

#include <optional>

#include <QWidget>

#include "app/planning/latest_task.h"
#include "core/books/books.h"
#include "core/planning/sale_outlook.h"

class QLabel;
class QPushButton;

namespace secondpull::app {

class Session;
class WhyFigure;

/// What to ask for a machine that is here, how long it takes, below what to refuse, and whether to wait for
/// spring, each with its "why?"; worked out in the background. One key puts the price into the asking form.
/// Object names: salesAsk, salesDays, salesFloor, salesHold, salesSays, salesDrops, salesUse.
class SuggestionPanel : public QWidget {
  Q_OBJECT
 public:
  explicit SuggestionPanel(Session& session, QWidget* parent = nullptr);

  /// Shows the outlook of a machine that is here, as the records are now, or nothing.
  void setMachine(std::optional<MachineId> machine);
  bool isWorking() const { return working_; }
  std::optional<Money> ask() const { return ask_; }
  std::optional<Money> floor() const { return floor_; }

 signals:
  void used(secondpull::Money ask);  ///< the price is to be asked
  void worked();                     ///< ask() and floor() are known, or that they are not

 private:
  void work();
  void showOutlook(const Result<planning::SaleOutlook>& outlook);
  void sayOnly(const QString& sentence);  ///< there is no figure to show
  void clear();

  Session& session_;
  std::optional<MachineId> machine_;
  std::shared_ptr<const Books> of_;  ///< what was worked with last, and for which machine
  std::optional<MachineId> of_machine_;
  std::optional<Money> ask_, floor_;
  bool working_ = false;
  WhyFigure *price_, *days_, *least_, *hold_;
  QLabel *says_, *drops_;
  QPushButton* use_;
  std::uint64_t turn_ = 0;
  LatestTask worker_;  // last: it goes first
};

}  // namespace secondpull::app
