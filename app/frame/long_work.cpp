#include "app/frame/long_work.h"

namespace secondpull::app {

void LongWork::Reins::step(const QString& words) const {
  LongWork* work = work_;
  QMetaObject::invokeMethod(
      work, [work, words] { emit work->stepped(words); }, Qt::QueuedConnection);
}

LongWork::~LongWork() {
  finish();
}

void LongWork::start(Task task) {
  finish();
  cancelled_ = std::make_shared<std::atomic<bool>>(false);
  running_ = true;
  Reins reins;
  reins.work_ = this;
  reins.cancelled_ = cancelled_;
  thread_ = std::thread{[this, reins, task = std::move(task)] {
    const std::optional<Problem> wrong = task(reins);
    // Queued to this object: if it goes first, the call goes with it.
    QMetaObject::invokeMethod(
        this,
        [this, wrong, cancelled = reins.cancelled_] {
          if (cancelled != cancelled_) return;  // an earlier piece of work
          running_ = false;
          if (*cancelled)
            emit givenUp();
          else if (wrong)
            emit failed(QString::fromStdString(wrong->sentence));
          else
            emit done();
        },
        Qt::QueuedConnection);
  }};
}

void LongWork::cancel() {
  *cancelled_ = true;
}

void LongWork::finish() {
  if (!thread_.joinable()) return;
  cancel();
  thread_.join();
}

}  // namespace secondpull::app
