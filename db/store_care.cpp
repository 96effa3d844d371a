// What keeps a shop safe beside its actions: photos, backups, archives, and the check of all of it.

#include <fmt/format.h>

#include "core/shop/rules.h"
#include "db/archive.h"
#include "db/failure.h"
#include "db/files.h"
#include "db/migrations.h"
#include "db/store_impl.h"

namespace secondpull::db {

namespace fs = std::filesystem;

Result<std::string> Store::keep_photo(const std::vector<std::byte>& content) {
  Impl& in = *impl_;
  if (content.empty()) return problem("There is nothing in that picture's file.", "photo");
  return guarded(photo_folder(in.folder), [&] {
    in.expect_writer();
    std::string name = in.photos.keep(content);
    in.kept_photos.insert(name);
    return name;
  });
}

Result<std::vector<std::byte>> Store::photo(const std::string& sha256) const {
  return guarded(photo_folder(impl_->folder), [&] { return impl_->photos.read(sha256); });
}

void Store::Impl::sweep_photos() {
  std::set<std::string> in_use = kept_photos;
  for (const Photo& photo : shop->all<Photo>())
    in_use.insert(photo.sha256);
  in_use.merge(photos_of_drafts());
  for (const auto& names : {history.photos(), backups.photos()})
    in_use.insert(names.begin(), names.end());
  photos.sweep(in_use);
}

std::set<std::string> Store::Impl::photos_of_drafts() const {
  constexpr std::size_t name_length = 64;
  std::set<std::string> names;
  for (const Draft& draft : desk.drafts())
    for (std::size_t at = 0; at + name_length <= draft.text.size(); ++at)
      if (const std::string word = draft.text.substr(at, name_length); is_sha256(word)) names.insert(word);
  return names;
}

fs::path Store::Impl::make_backup() {
  fs::path made = backups.make(database, now);
  const auto named = history.backups();
  std::set<std::string> keep{named.begin(), named.end()};
  keep.insert(made.filename().string());
  backups.thin(now, keep);
  sweep_photos();
  return made;
}

void Store::Impl::back_up_the_day() {
  if (shop->empty()) return;
  const auto made = guarded(backup_folder(folder), [&] {
    if (!backups.has_one_of(utc_day(now))) make_backup();
  });
  backup_trouble = made ? std::nullopt : std::optional{made.error()};
}

Result<fs::path> Store::backup_now(Instant now) {
  Impl& in = *impl_;
  return guarded(backup_folder(in.folder), [&] {
    in.expect_writer();
    in.now = now;
    return in.make_backup();
  });
}

Result<void> Store::backup_to(const fs::path& file) const {
  Impl& in = *impl_;
  return guarded(file, [&] {
    const ScratchFolder scratch;
    const fs::path copy = scratch.path() / "shop.sqlite";
    copy_database(in.database, copy);
    std::set<std::string> names;
    for (const Photo& photo : in.shop->all<Photo>())
      names.insert(photo.sha256);
    for (const std::string& name : in.history.photos())
      names.insert(name);
    write_archive(file, copy, photo_folder(in.folder), names);
  });
}

Result<void> Store::restore(const fs::path& file, const fs::path& folder) {
  const fs::path making = folder.string() + ".restoring";
  const auto restored = guarded(file, [&] {
    if (fs::exists(folder) && !(fs::is_directory(folder) && fs::is_empty(folder)))
      throw Failure{
          {fmt::format("{} is there already. A backup is restored into a new folder.", folder.string()),
           "folder", folder.string()}};
    if (!fs::is_regular_file(file))
      throw Failure{{fmt::format("There is no backup {}.", file.string()), "", file.string()}};
    fs::remove_all(making);
    make_private_folder(making);
    read_archive(file, making);
    judge_shop_file(shop_file(making), schema_migrations());
    fs::remove(folder);
    put_in_place(making, folder);
  });
  if (!restored) {
    std::error_code ignored;  // the first error is the one to tell
    fs::remove_all(making, ignored);
  }
  return restored;
}

std::vector<Problem> Store::check() const {
  Impl& in = *impl_;
  std::vector<Problem> found;
  const auto looked = guarded(in.file(), [&] {
    SQLite::Statement integrity{in.database, "PRAGMA integrity_check"};
    while (integrity.executeStep())
      if (const std::string line = integrity.getColumn(0).getString(); line != "ok")
        found.push_back({fmt::format("The shop file is damaged: {}.", line), "", in.file().string()});
    SQLite::Statement references{in.database, "PRAGMA foreign_key_check"};
    while (references.executeStep())
      found.push_back({fmt::format("Record {} of {} points at a record of {} that is not there.",
                                   references.getColumn(1).getInt64(), references.getColumn(0).getString(),
                                   references.getColumn(2).getString()),
                       "", references.getColumn(0).getString()});
    Shop reloaded;
    in.records.load(reloaded);
    if (in.access == Access::write && !reloaded.same_records(*in.shop))
      found.push_back(
          {"The records in memory are not those of the file. Close the shop and open it again.", "", ""});
    const std::int64_t next_id = in.desk.state().next_id;
    reloaded.each_table([&](const auto& table) {
      for (const auto& record : table)
        if (number(record.id) >= next_id)
          found.push_back(
              {fmt::format("The record {} has an id that is still to be handed out.", number(record.id)),
               "id", ""});
    });
    for (const RuleBreak& broken : broken_rules(reloaded))
      found.push_back(broken.problem);
    std::set<std::string> looked_at;
    for (const Photo& photo : reloaded.all<Photo>()) {
      if (!looked_at.insert(photo.sha256).second) continue;
      if (const auto content = this->photo(photo.sha256); !content) found.push_back(content.error());
    }
  });
  if (!looked) found.push_back(looked.error());
  if (in.backup_trouble) found.push_back(*in.backup_trouble);
  return found;
}

}  // namespace secondpull::db
