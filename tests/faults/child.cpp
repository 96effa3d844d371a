#include "tests/faults/child.h"

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <exception>
#include <stdexcept>
#include <sys/wait.h>
#include <unistd.h>

namespace secondpull::faults {

void Teller::tell(std::uint64_t number) const {
  if (::write(pipe_end_, &number, sizeof number) != sizeof number) ::_exit(1);
}

Child::Child(const std::function<void(const Teller&)>& work) {
  int ends[2];
  if (::pipe(ends) != 0) throw std::runtime_error("no pipe");
  id_ = ::fork();
  if (id_ < 0) throw std::runtime_error("no process");
  if (id_ == 0) {
    ::close(ends[0]);
    try {
      work(Teller{ends[1]});
    } catch (const std::exception& error) {
      std::fprintf(stderr, "child: %s\n", error.what());
    }
    ::_exit(0);
  }
  ::close(ends[1]);
  pipe_end_ = ends[0];
}

Child::~Child() {
  kill();
  ::close(pipe_end_);
}

std::optional<std::uint64_t> Child::next() {
  std::uint64_t number = 0;
  ssize_t got = 0;
  do {
    got = ::read(pipe_end_, &number, sizeof number);
  } while (got < 0 && errno == EINTR);
  return got == sizeof number ? std::optional{number} : std::nullopt;
}

void Child::kill() {
  if (id_ <= 0) return;
  ::kill(id_, SIGKILL);
  ::waitpid(id_, nullptr, 0);
  id_ = -1;
}

}  // namespace secondpull::faults
