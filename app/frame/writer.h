#pragma once

#include <condition_variable>
#include <deque>
#include <functional>
#include <future>
#include <mutex>
#include <thread>

#include "db/store.h"

namespace secondpull::app {

/// The thread that owns the store. Tasks run one after the other, in the order given; what is still waiting
/// when the writer goes is done first.
class Writer {
 public:
  explicit Writer(db::Store store);
  Writer(const Writer&) = delete;
  Writer& operator=(const Writer&) = delete;
  ~Writer();

  /// Has the task done and waits for what it returns.
  template <class Task>
  auto ask(Task task) -> std::invoke_result_t<Task&, db::Store&> {
    std::packaged_task<std::invoke_result_t<Task&, db::Store&>(db::Store&)> packed(std::move(task));
    auto answer = packed.get_future();
    post([&packed](db::Store& store) { packed(store); });
    return answer.get();
  }
  /// Has the task done without waiting for it.
  void post(std::function<void(db::Store&)> task);

 private:
  void work();
  db::Store store_;
  std::mutex mutex_;
  std::condition_variable waiting_;
  std::deque<std::function<void(db::Store&)>> tasks_;
  bool closing_ = false;
  std::thread thread_;  // last: it starts when all the rest is there
};

}  // namespace secondpull::app
