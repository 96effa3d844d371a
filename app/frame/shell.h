#pragma once

#include <filesystem>
#include <memory>
#include <optional>

#include <QObject>

#include "app/frame/session.h"

namespace secondpull::app {

class FirstRun;
class MainWindow;
class OneWindow;

/// The program around its windows: opens a shop, or the first-run page that makes one, and goes from one to
/// the other.
class Shell : public QObject {
  Q_OBJECT
 public:
  /// @param home   where new shops are made
  /// @param today  fixes the day (pictures, reproducible output); absent: the day it is
  Shell(std::filesystem::path home, std::optional<Date> today, QObject* parent = nullptr);
  ~Shell() override;
  /// Opens the shop; if it cannot be, the first-run page says why. True also if another window of it was
  /// raised: then there is none here.
  bool open(const std::filesystem::path& shop);
  void showFirstRun(const QString& problem = {});
  void lookAtDemo();
  bool hasWindow() const;
  MainWindow* window() const { return window_.get(); }
  FirstRun* firstRun() const { return first_run_.get(); }

  static std::filesystem::path defaultHome();

 private:
  void use(db::Store store, bool new_shop);
  db::Instant now() const;

  std::filesystem::path home_;
  std::optional<Date> today_;
  std::unique_ptr<Session> session_;
  std::unique_ptr<OneWindow> one_window_;
  std::unique_ptr<MainWindow> window_;  // after the session that it shows
  std::unique_ptr<FirstRun> first_run_;
};

}  // namespace secondpull::app
