#pragma once

#include <atomic>
#include <functional>
#include <memory>
#include <optional>
#include <thread>

#include <QObject>
#include <QString>

#include "core/result.h"

namespace secondpull::app {

/// Work too long for the window's thread: says how far it is, can be cancelled, and tells its outcome in the
/// window's thread. One piece of work at a time; it is cancelled and waited for when this goes.
class LongWork : public QObject {
  Q_OBJECT
 public:
  /// What the task holds: it tells the step it is at, and asks now and then whether to go on.
  class Reins {
   public:
    void step(const QString& words) const;
    bool cancelled() const { return *cancelled_; }

   private:
    friend class LongWork;
    LongWork* work_ = nullptr;
    std::shared_ptr<std::atomic<bool>> cancelled_;
  };
  using Task = std::function<std::optional<Problem>(const Reins&)>;

  explicit LongWork(QObject* parent = nullptr) : QObject(parent) {}
  ~LongWork() override;
  void start(Task task);  ///< an earlier piece of work is cancelled and waited for
  void cancel();
  bool running() const { return running_; }

 signals:
  void stepped(const QString& words);
  void done();                           ///< it worked
  void failed(const QString& sentence);  ///< it did not, and why
  void givenUp();                        ///< it was cancelled

 private:
  void finish();
  std::shared_ptr<std::atomic<bool>> cancelled_ = std::make_shared<std::atomic<bool>>(false);
  std::thread thread_;
  bool running_ = false;
};

}  // namespace secondpull::app
