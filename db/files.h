#pragma once

#include <cstddef>
#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace secondpull::db {

// Files of a shop's folder: for their owner alone (0700, 0600), since buyers' names and numbers are in them.
// Everything here throws std::filesystem::filesystem_error naming the file.

/// A file descriptor that closes itself.
class FileHandle {
 public:
  /// @param flags  of open(2); O_CLOEXEC is added, a new file gets mode 0600
  FileHandle(const std::filesystem::path& path, int flags);
  FileHandle(FileHandle&& other) noexcept;
  FileHandle& operator=(FileHandle&& other) noexcept;
  ~FileHandle();
  int get() const { return fd_; }

 private:
  int fd_ = -1;
};

/// Makes a folder of mode 0700 (its parents as usual); one that exists gets that mode.
void make_private_folder(const std::filesystem::path& folder);
/// Makes an empty file of mode 0600, or gives one that exists that mode.
void make_private_file(const std::filesystem::path& file);
/// Waits until what was written to a file, or the names in a folder, are on the disk.
void sync_to_disk(const std::filesystem::path& path);
/// Writes a whole file so that it is there entirely or not at all: a temporary file, synced, then renamed.
void write_whole(const std::filesystem::path& file, std::span<const std::byte> content);
std::vector<std::byte> read_whole(const std::filesystem::path& file);
/// Renames a finished, synced file to its place and syncs the folder.
void put_in_place(const std::filesystem::path& from, const std::filesystem::path& to);

/// A folder of mode 0700 in the system's temporary one, removed with all it holds.
class ScratchFolder {
 public:
  ScratchFolder();
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;
  ~ScratchFolder();
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

/// SHA-256 (FIPS 180-4) in 64 lower-case hex digits.
std::string sha256(std::span<const std::byte> content);
/// Is it 64 lower-case hex digits?
bool is_sha256(std::string_view text);

}  // namespace secondpull::db
