#pragma once

#include <map>
#include <optional>

#include <QMainWindow>

#include "app/frame/pages.h"
#include "core/money/money.h"

class QStackedWidget;

namespace secondpull::app {

class AskBar;
class ClockKeeper;
class Session;
class WhatNow;
class Wire;

/// The frame: the wire along the top, one page at a time below it, the What-now line at the foot, and the
/// keys that work from anywhere.
class MainWindow : public QMainWindow {
  Q_OBJECT
 public:
  explicit MainWindow(Session& session, std::span<const PageEntry> pages = pageEntries());
  ~MainWindow() override;
  /// Turns to a screen, about a machine if one is given.
  void goTo(const QString& word, MachineId about = {});
  void openMachine(MachineId machine);
  QString currentWord() const;
  /// The page of that word, made if need be; nullptr if there is none.
  Page* page(const QString& word);
  /// A shop just made from what its owner has already: the log form of the Yard, marked as opening stock.
  void logWhatIsHere();
  void undo();
  void redo();

 signals:
  void wantsOtherShop();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void changeEvent(QEvent* event) override;
  void closeEvent(QCloseEvent* event) override;

 private:
  void makeKeys();
  Page* add(Page* page);
  void bindDeeds(Page& page);
  std::vector<Page::Deed> deeds();
  void showWire();
  void showClock();
  void showTitle();
  void goBack();
  /// Makes the pages anew, once what goes on is over: their fields hold the currency and the widths of the
  /// size of text that they were made with.
  void remakeLater();
  void remakePages();
  void report(const std::optional<Problem>& problem);

  Session& session_;
  std::span<const PageEntry> entries_;
  std::map<QString, Page*> pages_;
  Wire* wire_;
  QStackedWidget* stack_;
  AskBar* ask_;
  WhatNow* what_now_;
  ClockKeeper* clock_;
  Currency currency_;
  qreal points_;  ///< the size of text that the pages were made with
  bool remaking_ = false;
  QString before_;  ///< the screen that History or Settings go back to
};

}  // namespace secondpull::app
