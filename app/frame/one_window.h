#pragma once

#include <filesystem>

#include <QObject>

class QSocketNotifier;

namespace secondpull::app {

/// Lets a second start of the program raise the window of the first. It goes through a socket file of this
/// user on this computer; no network is involved.
class OneWindow : public QObject {
  Q_OBJECT
 public:
  /// Asks the program that has this shop open to raise its window. False: nobody answers.
  static bool raiseOther(const std::filesystem::path& shop);
  /// Answers for this shop from now on. To be called only while its lock is held: what an earlier program
  /// left behind is cleared away.
  OneWindow(const std::filesystem::path& shop, QObject* parent);
  ~OneWindow() override;

 signals:
  void wantsRaise();

 private:
  std::string path_;
  int listening_ = -1;
};

}  // namespace secondpull::app
