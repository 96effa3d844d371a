#include "db/files.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <fcntl.h>
#include <openssl/evp.h>
#include <stdexcept>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

namespace secondpull::db {

namespace fs = std::filesystem;

namespace {

[[noreturn]] void fail(const char* what, const fs::path& path) {
  throw fs::filesystem_error(what, path, std::error_code(errno, std::generic_category()));
}

constexpr mode_t owner_only_file = 0600;
constexpr auto owner_only_folder = fs::perms::owner_all;

}  // namespace

FileHandle::FileHandle(const fs::path& path, int flags)
    : fd_{::open(path.c_str(), flags | O_CLOEXEC, owner_only_file)} {
  if (fd_ < 0) fail("open", path);
}
FileHandle::FileHandle(FileHandle&& other) noexcept : fd_{std::exchange(other.fd_, -1)} {}
FileHandle& FileHandle::operator=(FileHandle&& other) noexcept {
  std::swap(fd_, other.fd_);
  return *this;
}
FileHandle::~FileHandle() {
  if (fd_ >= 0) ::close(fd_);
}

void make_private_folder(const fs::path& folder) {
  fs::create_directories(folder);
  fs::permissions(folder, owner_only_folder);
}

void make_private_file(const fs::path& file) {
  const FileHandle handle{file, O_RDWR | O_CREAT};
  if (::fchmod(handle.get(), owner_only_file) != 0) fail("chmod", file);
}

void sync_to_disk(const fs::path& path) {
  const FileHandle handle{path, O_RDONLY};
  if (::fsync(handle.get()) != 0) fail("fsync", path);
}

void put_in_place(const fs::path& from, const fs::path& to) {
  fs::rename(from, to);
  sync_to_disk(to.has_parent_path() ? to.parent_path() : fs::path{"."});
}

void write_whole(const fs::path& file, std::span<const std::byte> content) {
  const fs::path part = file.string() + ".part";
  try {
    const FileHandle handle{part, O_WRONLY | O_CREAT | O_TRUNC};
    while (!content.empty()) {
      const ssize_t written = ::write(handle.get(), content.data(), content.size());
      if (written < 0 && errno == EINTR) continue;
      if (written < 0) fail("write", file);
      content = content.subspan(static_cast<std::size_t>(written));
    }
    if (::fsync(handle.get()) != 0) fail("fsync", file);
    put_in_place(part, file);
  } catch (...) {
    std::error_code ignored;  // the first error is the one to tell
    fs::remove(part, ignored);
    throw;
  }
}

std::vector<std::byte> read_whole(const fs::path& file) {
  const FileHandle handle{file, O_RDONLY};
  struct stat facts {};
  if (::fstat(handle.get(), &facts) != 0) fail("stat", file);
  std::vector<std::byte> content(static_cast<std::size_t>(facts.st_size));
  std::size_t have = 0;
  while (have < content.size()) {
    const ssize_t got = ::read(handle.get(), content.data() + have, content.size() - have);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) fail("read", file);
    if (got == 0) break;
    have += static_cast<std::size_t>(got);
  }
  content.resize(have);
  return content;
}

ScratchFolder::ScratchFolder() {
  std::string name = (fs::temp_directory_path() / "secondpull-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) fail("mkdtemp", name);
  path_ = name;
}
ScratchFolder::~ScratchFolder() {
  std::error_code ignored;  // a temporary folder that stays does no harm
  fs::remove_all(path_, ignored);
}

std::string sha256(std::span<const std::byte> content) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned int length = 0;
  if (EVP_Digest(content.data(), content.size(), digest.data(), &length, EVP_sha256(), nullptr) != 1)
    throw std::runtime_error("SHA-256 is not available");
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (unsigned int i = 0; i < length; ++i) {
    text += digits[digest[i] >> 4U];
    text += digits[digest[i] & 0xfU];
  }
  return text;
}

bool is_sha256(std::string_view text) {
  constexpr std::size_t hex_digits = 64;
  return text.size() == hex_digits &&
         std::ranges::all_of(text, [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
}

}  // namespace secondpull::db
