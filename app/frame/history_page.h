#pragma once

#include "app/frame/page.h"

namespace secondpull::app {

/// What was done, one line an action, newest first; what was taken back stands apart as long as it can be
/// done again.
class HistoryPage : public Page {
  Q_OBJECT
 public:
  explicit HistoryPage(Session& session, QWidget* parent = nullptr);
  QString word() const override { return tr("History"); }
  QString iconName() const override { return "history"; }
  QKeySequence key() const override { return QKeySequence{"Ctrl+H"}; }
  void refresh(const std::vector<AnyId>& ids) override;
  void start() override;

 signals:
  void wantsUndo();
  void wantsRedo();

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  void showHistory();
  struct Impl;
  Impl* impl_;
};

}  // namespace secondpull::app
