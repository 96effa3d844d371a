#include "db/archive.h"

#include <cstddef>
#include <fcntl.h>
#include <memory>
#include <span>
#include <string_view>
#include <vector>

#include <archive.h>
#include <archive_entry.h>
#include <fmt/format.h>

#include "db/failure.h"
#include "db/files.h"

namespace secondpull::db {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view shop_member = "shop.sqlite";
constexpr std::string_view photo_prefix = "photos/";

using Writer = std::unique_ptr<archive, decltype([](archive* a) { archive_write_free(a); })>;
using Reader = std::unique_ptr<archive, decltype([](archive* a) { archive_read_free(a); })>;
using Entry = std::unique_ptr<archive_entry, decltype([](archive_entry* e) { archive_entry_free(e); })>;

void expect(int code, archive* handle, const fs::path& file, std::string_view doing) {
  if (code >= ARCHIVE_WARN) return;
  const char* why = archive_error_string(handle);
  throw Failure{{fmt::format("{} {} failed: {}.", doing, file.string(), why != nullptr ? why : "unknown"), "",
                 file.string()}};
}

void add(archive* writer, const fs::path& target, const std::string& name, const fs::path& from) {
  const std::vector<std::byte> content = read_whole(from);
  const Entry entry{archive_entry_new()};
  archive_entry_set_pathname(entry.get(), name.c_str());
  archive_entry_set_size(entry.get(), static_cast<la_int64_t>(content.size()));
  archive_entry_set_filetype(entry.get(), AE_IFREG);
  constexpr mode_t owner_only = 0600;
  archive_entry_set_perm(entry.get(), owner_only);
  expect(archive_write_header(writer, entry.get()), writer, target, "Writing the archive");
  if (archive_write_data(writer, content.data(), content.size()) != static_cast<la_ssize_t>(content.size()))
    expect(ARCHIVE_FATAL, writer, target, "Writing the archive");
}

[[noreturn]] void refuse(const fs::path& archive, const std::string& member) {
  throw Failure{{fmt::format("{} is not a backup of a shop: it holds \"{}\". Nothing was restored.",
                             archive.string(), member),
                 "", member}};
}

std::vector<std::byte> content_of(archive* reader, const fs::path& file) {
  std::vector<std::byte> content;
  constexpr std::size_t piece = 1 << 16;
  std::vector<std::byte> buffer(piece);
  for (;;) {
    const la_ssize_t got = archive_read_data(reader, buffer.data(), buffer.size());
    if (got < 0) expect(ARCHIVE_FATAL, reader, file, "Reading the archive");
    if (got <= 0) return content;
    content.insert(content.end(), buffer.begin(), buffer.begin() + got);
  }
}

}  // namespace

void write_archive(const fs::path& target, const fs::path& shop_copy, const fs::path& photos,
                   const std::set<std::string>& names) {
  const fs::path part = target.string() + ".part";
  try {
    const FileHandle file{part, O_WRONLY | O_CREAT | O_TRUNC};
    {
      const Writer writer{archive_write_new()};
      archive_write_add_filter_gzip(writer.get());
      archive_write_set_format_pax_restricted(writer.get());
      expect(archive_write_open_fd(writer.get(), file.get()), writer.get(), target, "Writing the archive");
      add(writer.get(), target, std::string{shop_member}, shop_copy);
      for (const std::string& name : names)
        if (fs::exists(photos / name))
          add(writer.get(), target, std::string{photo_prefix} + name, photos / name);
      expect(archive_write_close(writer.get()), writer.get(), target, "Writing the archive");
    }
    sync_to_disk(part);
    put_in_place(part, target);
  } catch (...) {
    std::error_code ignored;  // the first error is the one to tell
    fs::remove(part, ignored);
    throw;
  }
}

void read_archive(const fs::path& source, const fs::path& folder) {
  const Reader reader{archive_read_new()};
  archive_read_support_filter_gzip(reader.get());
  archive_read_support_format_tar(reader.get());
  constexpr std::size_t block = 1 << 16;
  expect(archive_read_open_filename(reader.get(), source.c_str(), block), reader.get(), source,
         "Reading the archive");
  std::set<std::string> seen;
  for (;;) {
    archive_entry* entry = nullptr;
    const int code = archive_read_next_header(reader.get(), &entry);
    if (code == ARCHIVE_EOF) break;
    expect(code, reader.get(), source, "Reading the archive");
    const char* path = archive_entry_pathname(entry);
    const std::string member = path != nullptr ? path : "";
    const bool is_shop = member == shop_member;
    const bool is_photo =
        member.starts_with(photo_prefix) && is_sha256(std::string_view{member}.substr(photo_prefix.size()));
    // Only these two shapes of name, and plain files: nothing in an archive can then write outside the
    // folder.
    if ((!is_shop && !is_photo) || archive_entry_filetype(entry) != AE_IFREG ||
        archive_entry_hardlink(entry) != nullptr || !seen.insert(member).second)
      refuse(source, member);
    const std::vector<std::byte> content = content_of(reader.get(), source);
    if (is_photo) {
      make_private_folder(folder / "photos");
      if (sha256(content) != member.substr(photo_prefix.size())) refuse(source, member);
    }
    write_whole(folder / member, content);
  }
  if (!seen.contains(std::string{shop_member}))
    throw Failure{
        {fmt::format("{} is not a backup of a shop: there is no shop.sqlite in it.", source.string()), "",
         source.string()}};
}

}  // namespace secondpull::db
