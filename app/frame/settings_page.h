#pragma once

#include "app/frame/page.h"

namespace secondpull::app {

/// What the owner says about the shop, how the program looks on this computer, and the shop's data on its way
/// out and in.
class SettingsPage : public Page {
  Q_OBJECT
 public:
  explicit SettingsPage(Session& session, QWidget* parent = nullptr);
  QString word() const override { return tr("Settings"); }
  QString iconName() const override { return "settings"; }
  QKeySequence key() const override { return QKeySequence{"Ctrl+,"}; }
  void refresh(const std::vector<AnyId>& ids) override;
  void start() override;
  std::vector<Deed> deeds() override;

 signals:
  void wantsBack();

 private:
  void fill();
  std::optional<Problem> save();
  struct Impl;
  Impl* impl_;
};

}  // namespace secondpull::app
