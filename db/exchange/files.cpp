#include "db/exchange/files.h"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <string_view>
#include <unistd.h>
#include <utility>

#include <fmt/format.h>

#include "db/exchange/columns.h"

namespace secondpull::db {
namespace {

namespace fs = std::filesystem;

bool is_csv(const fs::path& file) {
  std::string extension = file.extension().string();
  std::transform(extension.begin(), extension.end(), extension.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return extension == ".csv" || file.filename() == ".csv";
}

auto failed(const fs::path& path, std::string_view what, int error) {
  return problem(fmt::format("{} cannot be {}: {}.", path.string(), what, std::strerror(error)), "folder",
                 path.string());
}

class Descriptor {
 public:
  explicit Descriptor(int number) : number_{number} {}
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int number() const { return number_; }

 private:
  int number_;
};

/// Writes a file and waits until it is on the disk.
Result<void> write_through(const fs::path& path, std::string_view text) {
  constexpr mode_t owner_alone = 0600;  // names and telephone numbers are in it
  const Descriptor file{::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, owner_alone)};
  if (file.number() < 0) return failed(path, "written", errno);
  while (!text.empty()) {
    const ssize_t done = ::write(file.number(), text.data(), text.size());
    if (done < 0 && errno == EINTR) continue;
    if (done < 0) return failed(path, "written", errno);
    text.remove_prefix(static_cast<std::size_t>(done));
  }
  if (::fsync(file.number()) != 0) return failed(path, "written", errno);
  return {};
}

/// A folder of its own in another that vanishes with all in it, unless it was moved away.
class Scratch {
 public:
  explicit Scratch(const fs::path& in) {
    std::string pattern = (in / ".export-XXXXXX").string();
    if (::mkdtemp(pattern.data()) != nullptr) path_ = pattern;
  }
  ~Scratch() {
    std::error_code gone;
    if (!path_.empty()) fs::remove_all(path_, gone);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  const fs::path& path() const { return path_; }  ///< empty if it could not be made

 private:
  fs::path path_;
};

Result<void> move_into(const fs::path& scratch, const fs::path& folder,
                       const std::map<std::string, std::string>& texts) {
  std::error_code error;
  for (const auto& [file, text] : texts) {
    fs::rename(scratch / file, folder / file, error);
    if (error) return failed(folder / file, "replaced", error.value());
  }
  for (const std::string& file : table_files()) {
    if (!texts.contains(file)) fs::remove(folder / file, error);
    if (error) return failed(folder / file, "removed", error.value());
  }
  return {};
}

}  // namespace

const std::vector<std::string>& table_files() {
  static const std::vector<std::string> files = [] {
    std::vector<std::string> all{std::string{format_of<Settings>().file}};
    Shop{}.each_table([&]<class Record>(const Table<Record>&) {
      if constexpr (has_file<Record>) all.emplace_back(format_of<Record>().file);
    });
    return all;
  }();
  return files;
}

std::size_t table_place(std::string_view file) {
  const auto at = std::find(table_files().begin(), table_files().end(), file);
  return at == table_files().end() ? 0 : static_cast<std::size_t>(at - table_files().begin()) + 1;
}

std::vector<std::string> other_csv_files(const fs::path& folder) {
  std::vector<std::string> files;
  std::error_code error;
  for (const fs::directory_entry& entry : fs::directory_iterator{folder, error}) {
    const std::string name = entry.path().filename().string();
    if (is_csv(entry.path()) && !entry.is_directory(error) && table_place(name) == 0) files.push_back(name);
  }
  std::sort(files.begin(), files.end());
  return files;
}

Result<void> replace_files(const fs::path& folder, const std::map<std::string, std::string>& texts) {
  std::error_code error;
  fs::path target = fs::absolute(folder, error).lexically_normal();
  if (!target.has_filename()) target = target.parent_path();  // "folder/"
  const bool there = fs::exists(target, error);
  if (there && !fs::is_directory(target, error))
    return problem(fmt::format("{} is a file; an export needs a folder.", target.string()), "folder",
                   target.string());
  if (const auto others = other_csv_files(target); !others.empty())
    return problem(
        fmt::format("The folder {} holds {}, which is no table of a shop: export into another folder.",
                    target.string(), others.front()),
        "folder", target.string());
  if (!there) fs::create_directories(target.parent_path(), error);
  // In the folder itself if there is one: it may be a file system of its own, into which nothing can be
  // moved.
  const Scratch scratch{there ? target : target.parent_path()};
  if (scratch.path().empty()) return failed(target, "written", errno);
  for (const auto& [file, text] : texts)
    if (auto written = write_through(scratch.path() / file, text); !written) return written;
  if (there) return move_into(scratch.path(), target, texts);
  fs::rename(scratch.path(), target, error);
  if (error) return failed(target, "made", error.value());
  return {};
}

}  // namespace secondpull::db
