#pragma once

#include <QObject>
#include <QTimer>

#include "core/shop/words.h"

namespace secondpull {
struct Problem;
}

namespace secondpull::app {

class AskBar;
class Session;

/// What the window does about the bench clock: one key starts and stops it, and one left running too long is
/// asked about when the person is back.
class ClockKeeper : public QObject {
  Q_OBJECT
 public:
  ClockKeeper(Session& session, AskBar& ask, QObject* parent = nullptr);
  /// Starts it on the machine in hand, or stops it and logs the kind of work that is usual there.
  void toggle();
  /// Asks which kind of work to log.
  void askToStop();
  /// Asks keep, cut or discard if it has run past two hours; once a return.
  void askIfForgotten();
  QString time() const;  ///< "1:07"

 signals:
  void ticked();  ///< the time shown is another one
  void wentWrong(const QString& sentence);

 private:
  void stop(Work work);
  Work usualWork() const;
  Session& session_;
  AskBar& ask_;
  QTimer tick_;
  QString shown_;
};

}  // namespace secondpull::app
