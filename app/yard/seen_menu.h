#pragma once

#include <vector>

#include <QStringList>
#include <QToolButton>

#include "core/shop/words.h"

class QMenu;

namespace secondpull::app {

class Session;

/// Work that can be seen at the intake (see SeenWork), where there is room for a button alone: it opens a
/// list that stays open while several are ticked, and says what was. Object name as given; the list's is that
/// and "Menu".
class SeenMenu : public QToolButton {
  Q_OBJECT
 public:
  SeenMenu(Session& session, const QString& name, QWidget* parent);
  void setKind(
      MachineKind kind);     ///< shows what such a machine can need; what is ticked besides stays ticked
  QStringList seen() const;  ///< names of work, in the knowledge base's order
  void setSeen(const QStringList& names);

 signals:
  void edited();

 private:
  void showSeen();

  QMenu* menu_;
  struct Line {
    QAction* action = nullptr;
    std::vector<MachineKind> kinds;
  };
  std::vector<Line> lines_;
};

}  // namespace secondpull::app
