#pragma once

#include <atomic>
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <mutex>
#include <thread>

namespace secondpull::app {

/// A thread that does the latest thing it was asked to do: a new task makes the one under way stale, and one
/// that has not begun is forgotten.
class LatestTask {
 public:
  /// Whether the task has been overtaken; it asks now and then, and ends early if so.
  using IsStale = std::function<bool()>;
  using Task = std::function<void(const IsStale&)>;

  LatestTask();
  LatestTask(const LatestTask&) = delete;
  LatestTask& operator=(const LatestTask&) = delete;
  ~LatestTask();  ///< the task under way becomes stale and is waited for

  void run(Task task);

 private:
  void work();

  std::mutex mutex_;
  std::condition_variable waiting_;
  Task next_;
  bool closing_ = false;
  std::atomic<std::uint64_t> turn_ = 0;
  std::thread thread_;  // last: it starts when all the rest is there
};

}  // namespace secondpull::app
