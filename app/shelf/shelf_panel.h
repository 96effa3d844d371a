#pragma once

#include <QWidget>

#include "app/frame/session.h"

namespace secondpull::app {

/// One of the things that the shelf is about.
class ShelfPanel : public QWidget {
  Q_OBJECT
 public:
  ShelfPanel(Session& session, QWidget* parent) : QWidget(parent), session_{session} {}
  virtual void refresh() = 0;
  virtual void start() = 0;

 signals:
  void said(const QString& sentence, bool problem);
  void wantsMachine(MachineId machine);

 protected:
  Session& session() const { return session_; }

 private:
  Session& session_;
};

}  // namespace secondpull::app
