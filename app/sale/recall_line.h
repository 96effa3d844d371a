#pragma once

#include <QWidget>

#include "core/shop/ids.h"

class QLabel;
class QPushButton;

namespace secondpull::app {

class Session;

/// When a machine's recalls were looked up and what that gave; where a look-up is due, two buttons write
/// today's down in place. Not to have looked keeps nobody from selling. Object names: recallLine, recallSays,
/// recallNone, recallFound.
class RecallLine : public QWidget {
  Q_OBJECT
 public:
  RecallLine(Session& session, MachineId machine, QWidget* parent = nullptr);

 private:
  void tell();
  void record(bool recalled);

  Session& session_;
  MachineId machine_;
  QLabel *says_, *problem_;
  QPushButton *none_, *found_;
};

}  // namespace secondpull::app
