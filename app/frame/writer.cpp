#include "app/frame/writer.h"

namespace secondpull::app {

Writer::Writer(db::Store store) : store_{std::move(store)}, thread_{[this] { work(); }} {}

Writer::~Writer() {
  {
    const std::lock_guard lock(mutex_);
    closing_ = true;
  }
  waiting_.notify_one();
  thread_.join();
}

void Writer::post(std::function<void(db::Store&)> task) {
  {
    const std::lock_guard lock(mutex_);
    tasks_.push_back(std::move(task));
  }
  waiting_.notify_one();
}

void Writer::work() {
  for (;;) {
    std::unique_lock lock(mutex_);
    waiting_.wait(lock, [this] { return closing_ || !tasks_.empty(); });
    if (tasks_.empty()) return;
    const std::function<void(db::Store&)> task = std::move(tasks_.front());
    tasks_.pop_front();
    lock.unlock();
    task(store_);
  }
}

}  // namespace secondpull::app
