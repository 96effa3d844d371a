#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <optional>
#include <sys/types.h>

namespace secondpull::faults {

/// Tells the parent numbers from within a child.
class Teller {
 public:
  explicit Teller(int pipe_end) : pipe_end_{pipe_end} {}
  void tell(std::uint64_t number) const;

 private:
  int pipe_end_;
};

/// A process of its own that runs `work` and ends, or is killed.
class Child {
 public:
  explicit Child(const std::function<void(const Teller&)>& work);
  Child(const Child&) = delete;
  Child& operator=(const Child&) = delete;
  ~Child();  ///< kills it if it still runs

  /// The next number that the child tells; nothing once it has ended.
  std::optional<std::uint64_t> next();
  void kill();  ///< kill -9, and waits until it is gone

 private:
  pid_t id_ = -1;
  int pipe_end_ = -1;
};

}  // namespace secondpull::faults
