#include "app/planning/latest_task.h"

#include <utility>

namespace secondpull::app {

LatestTask::LatestTask() : thread_{[this] { work(); }} {}

LatestTask::~LatestTask() {
  {
    const std::lock_guard lock{mutex_};
    closing_ = true;
    ++turn_;
  }
  waiting_.notify_one();
  thread_.join();
}

void LatestTask::run(Task task) {
  {
    const std::lock_guard lock{mutex_};
    next_ = std::move(task);
    ++turn_;
  }
  waiting_.notify_one();
}

void LatestTask::work() {
  for (;;) {
    Task task;
    std::uint64_t turn = 0;
    {
      std::unique_lock lock{mutex_};
      waiting_.wait(lock, [this] { return closing_ || next_; });
      if (closing_) return;
      task = std::exchange(next_, nullptr);
      turn = turn_;
    }
    task([this, turn] { return turn_ != turn; });
  }
}

}  // namespace secondpull::app
