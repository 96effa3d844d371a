#pragma once

#include <vector>

#include <QToolButton>
#include <QWidget>

#include "core/shop/words.h"

class QLineEdit;

namespace secondpull::app {

class Session;

/// Work that can be seen at the intake, to be ticked: dull blade, flat tire... What is ticked stands as words
/// in the field of the condition, where it can be typed as well; the planner reads it there. Object names:
/// "seenWork" and, of the buttons, "seen-" + the id of the work.
class SeenWork : public QWidget {
  Q_OBJECT
 public:
  SeenWork(Session& session, QLineEdit* condition, QWidget* parent);
  void setKind(MachineKind kind);

 private:
  struct Tick {
    QToolButton* button = nullptr;
    QString name;
    QStringList phrases;  ///< the name and what else people call it, in lower case
    std::vector<MachineKind> kinds;
  };
  void turn(const Tick& tick, bool on);
  void showWhatIsTyped();

  QLineEdit* condition_;
  std::vector<Tick> ticks_;
};

}  // namespace secondpull::app
