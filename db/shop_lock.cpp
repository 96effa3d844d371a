#include "db/shop_lock.h"

#include <array>
#include <cerrno>
#include <fcntl.h>
#include <string_view>
#include <unistd.h>

#include <fmt/format.h>

#include "db/failure.h"

namespace secondpull::db {

namespace fs = std::filesystem;

namespace {

fs::path lock_file(const fs::path& folder) {
  return folder / "shop.lock";
}

struct flock whole_file() {
  struct flock lock {};
  lock.l_type = F_WRLCK;
  lock.l_whence = SEEK_SET;
  return lock;
}

std::string holder_text(int file) {
  constexpr std::size_t longest = 200;
  std::array<char, longest> text{};
  const ssize_t length = ::pread(file, text.data(), text.size(), 0);
  if (length <= 0) return "another program";
  const std::string_view read{text.data(), static_cast<std::size_t>(length)};
  return std::string{read.substr(0, read.find('\n'))};
}

}  // namespace

std::string ShopLock::refusal(const fs::path& folder, const std::string& holder) {
  return fmt::format("The shop in {} is open already, in {}. Close it there, then try again.",
                     folder.string(), holder);
}

ShopLock ShopLock::take(const fs::path& folder, Instant now) {
  FileHandle file{lock_file(folder), O_RDWR | O_CREAT};
  struct flock lock = whole_file();
  if (::fcntl(file.get(), F_OFD_SETLK, &lock) != 0) {
    if (errno == EAGAIN || errno == EACCES)
      throw Failure{{refusal(folder, holder_text(file.get())), "", folder.string()}};
    throw fs::filesystem_error("lock", lock_file(folder), std::error_code(errno, std::generic_category()));
  }
  const std::string text = fmt::format("process {}, since {}\n", ::getpid(), utc_text(now));
  if (::ftruncate(file.get(), 0) != 0 || ::pwrite(file.get(), text.data(), text.size(), 0) < 0)
    throw fs::filesystem_error("write", lock_file(folder), std::error_code(errno, std::generic_category()));
  return ShopLock{std::move(file)};
}

std::optional<std::string> ShopLock::holder(const fs::path& folder) {
  if (!fs::exists(lock_file(folder))) return std::nullopt;
  const FileHandle file{lock_file(folder), O_RDONLY};
  struct flock lock = whole_file();
  if (::fcntl(file.get(), F_OFD_GETLK, &lock) != 0 || lock.l_type == F_UNLCK) return std::nullopt;
  return holder_text(file.get());
}

ShopLock::~ShopLock() {
  // The text is for people; the lock itself goes with the descriptor, so a failure here harms nothing.
  if (file_.get() >= 0 && ::ftruncate(file_.get(), 0) != 0) return;
}

}  // namespace secondpull::db
