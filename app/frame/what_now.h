#pragma once

#include <functional>
#include <vector>

#include <QFrame>
#include <QPointer>

#include "app/frame/finder.h"

class QLabel;
class QLineEdit;
class QListWidget;

namespace secondpull::app {

/// The line at the foot of the window: finds and does what is typed, and says what was just done. Its results
/// drop up above it, over `over`.
class WhatNow : public QFrame {
  Q_OBJECT
 public:
  using Find = std::function<std::vector<Found>(const QString& typed)>;
  WhatNow(Find find, QWidget* over, QWidget* parent = nullptr);
  void go();  ///< puts the focus here; Esc takes it back to where it was
  void say(const QString& sentence, bool problem = false);
  QString said() const;

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  void lookUp();
  void place();
  void leave();
  void run(int row);
  void showSaid();

  Find find_;
  QWidget* over_;
  QLineEdit* field_;
  QLabel* said_ = nullptr;
  QListWidget* list_;
  std::vector<Found> found_;
  QPointer<QWidget> before_;
  QString sentence_;
  bool problem_ = false;
};

}  // namespace secondpull::app
