#pragma once

#include <QWidget>

#include "app/frame/session.h"
#include "app/print/report.h"

namespace secondpull::app {

/// One sub-page of the Lessons. The frame page shows one at a time and prints what it reports.
class LessonsPanel : public QWidget {
  Q_OBJECT
 public:
  LessonsPanel(Session& session, QWidget* parent) : QWidget(parent), session_{session} {}

  virtual void refresh() = 0;  ///< the records may be others
  virtual void start() = 0;    ///< puts the focus where a person starts
  /// What goes to paper, PDF and CSV; the frame adds the shop's name and the day.
  virtual Report report() const = 0;

 signals:
  void said(const QString& sentence, bool problem);
  void wantsMachine(secondpull::MachineId machine);
  void wantsPage(const QString& word);  ///< another screen

 protected:
  Session& session() const { return session_; }

 private:
  Session& session_;
};

}  // namespace secondpull::app
