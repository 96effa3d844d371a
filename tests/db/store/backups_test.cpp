#include "db/backups.h"

#include <fstream>

#include <archive.h>
#include <archive_entry.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/shop/bench.h"
#include "db/files.h"
#include "db/shop_folder.h"
#include "tests/db/store/test_shop.h"

namespace secondpull::db {
namespace {

using namespace testing;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
namespace fs = std::filesystem;

std::vector<std::string> copies(const TempFolder& folder) {
  return Backups{backup_folder(folder.shop())}.names();
}

TEST(DailyBackup, IsMadeBeforeTheFirstActionOfEachDay) {
  const TempFolder folder;
  Store store = new_store(folder);
  done(store, take_in(*store.shop(), "1"), noon(3, 5));
  EXPECT_THAT(copies(folder), IsEmpty()) << "there was nothing to keep yet";
  done(store, take_in(*store.shop(), "2"), noon(3, 5));
  done(store, take_in(*store.shop(), "3"), noon(3, 5));
  EXPECT_THAT(copies(folder), ElementsAre("shop-2026-03-05-120000.sqlite"));
  done(store, take_in(*store.shop(), "4"), noon(3, 6));
  EXPECT_THAT(copies(folder), ElementsAre("shop-2026-03-05-120000.sqlite", "shop-2026-03-06-120000.sqlite"));
}

TEST(DailyBackup, ThatCannotBeMadeIsToldByCheckAndStopsNoWork) {
  const TempFolder folder;
  Store store = new_store(folder);
  std::ofstream{backup_folder(folder.shop())} << "a file in the way";
  done(store, take_in(*store.shop(), "1"), noon(3, 5));
  done(store, take_in(*store.shop(), "2"), noon(3, 6));
  ASSERT_EQ(store.check().size(), 1U);
  EXPECT_THAT(store.check().front().sentence, HasSubstr("backups"));
  fs::remove(backup_folder(folder.shop()));
  done(store, take_in(*store.shop(), "3"), noon(3, 6));
  EXPECT_THAT(store.check(), IsEmpty());
}

TEST(Backup, IsAWholeShop) {
  const TempFolder folder;
  Store store = new_store(folder);
  done(store, take_in(*store.shop(), "1"));
  const auto made = store.backup_now(noon(3, 5));
  ASSERT_TRUE(made) << made.error().sentence;
  const auto other = folder.path() / "other";
  fs::create_directory(other);
  fs::copy_file(*made, other / "shop.sqlite");
  auto copy = Store::open(other, Access::write, noon(3, 6));
  ASSERT_TRUE(copy) << copy.error().sentence;
  EXPECT_EQ(copy->dump(), store.dump());
  EXPECT_TRUE(copy->undo()) << "with its history";
}

TEST(Backup, TwiceInOneSecondGivesTwo) {
  const TempFolder folder;
  Store store = new_store(folder);
  ASSERT_TRUE(store.backup_now(noon(3, 5)));
  ASSERT_TRUE(store.backup_now(noon(3, 5)));
  EXPECT_THAT(copies(folder), ElementsAre("shop-2026-03-05-120000.sqlite", "shop-2026-03-05-120001.sqlite"));
}

TEST(Thinning, KeepsTenDaysEightWeeksAndTwelveMonths) {
  // One copy a day for two years. 2026-03-05 was a Thursday.
  std::vector<std::string> names;
  const Instant today = noon(3, 5);
  for (int ago = 730; ago >= 0; --ago)
    names.push_back("shop-" + file_stamp(today - std::chrono::days{ago}) + ".sqlite");
  const auto gone = to_thin(names, utc_day(today));
  std::vector<std::string> kept;
  for (const std::string& name : names)
    if (std::ranges::find(gone, name) == gone.end()) kept.push_back(name.substr(5, 10));
  // Months: the last day of each of the twelve (this one's is today). Weeks: today and the Sundays before.
  EXPECT_THAT(kept,
              ElementsAre("2025-04-30", "2025-05-31", "2025-06-30", "2025-07-31", "2025-08-31", "2025-09-30",
                          "2025-10-31", "2025-11-30", "2025-12-31", "2026-01-18", "2026-01-25", "2026-01-31",
                          "2026-02-01", "2026-02-08", "2026-02-15", "2026-02-22", "2026-02-24", "2026-02-25",
                          "2026-02-26", "2026-02-27", "2026-02-28", "2026-03-01", "2026-03-02", "2026-03-03",
                          "2026-03-04", "2026-03-05"));
}

TEST(Thinning, KeepsEveryCopyOfTodayAndTheNewestOfAnotherDay) {
  const std::vector<std::string> names{"shop-2026-03-04-080000.sqlite", "shop-2026-03-04-200000.sqlite",
                                       "shop-2026-03-05-080000.sqlite", "shop-2026-03-05-200000.sqlite"};
  EXPECT_THAT(to_thin(names, day(3, 5)), ElementsAre("shop-2026-03-04-080000.sqlite"));
}

TEST(Thinning, LeavesOtherFilesAlone) {
  const TempFolder folder;
  Store store = new_store(folder);
  fs::create_directory(backup_folder(folder.shop()));
  std::ofstream{backup_folder(folder.shop()) / "shop-of-my-own.sqlite"} << "mine";
  for (unsigned at = 1; at <= 20; ++at)
    ASSERT_TRUE(store.backup_now(noon(3, at)));
  EXPECT_TRUE(fs::exists(backup_folder(folder.shop()) / "shop-of-my-own.sqlite"));
  EXPECT_EQ(copies(folder).size(), 12U);  // ten days, and the Sundays 1 and 8 March
}

// ---- Archives ----

std::vector<std::byte> bytes(std::string_view text) {
  const auto view = std::as_bytes(std::span{text});
  return {view.begin(), view.end()};
}

class Archive : public ::testing::Test {
 protected:
  Archive() : store_{new_store(folder_)} {
    done(store_, take_in(*store_.shop(), "1"));
    Photo photo;
    photo.sha256 = *store_.keep_photo(bytes("a picture"));
    photo.machine = store_.shop()->all<Machine>().begin()->id;
    done(store_, add_photo(*store_.shop(), photo));
    sha_ = photo.sha256;
  }
  fs::path file() const { return folder_.path() / "shop.tar.gz"; }
  fs::path target() const { return folder_.path() / "restored"; }

  struct Member {
    std::string name;
    std::vector<std::byte> content;
    unsigned type = AE_IFREG;
  };
  void write_archive_of(const std::vector<Member>& members) const {
    archive* writer = archive_write_new();
    archive_write_add_filter_gzip(writer);
    archive_write_set_format_pax_restricted(writer);
    archive_write_open_filename(writer, file().c_str());
    for (const Member& member : members) {
      archive_entry* entry = archive_entry_new();
      archive_entry_set_pathname(entry, member.name.c_str());
      archive_entry_set_filetype(entry, member.type);
      archive_entry_set_perm(entry, 0600);
      if (member.type == AE_IFLNK) archive_entry_set_symlink(entry, "/etc/passwd");
      archive_entry_set_size(entry, static_cast<la_int64_t>(member.content.size()));
      archive_write_header(writer, entry);
      archive_write_data(writer, member.content.data(), member.content.size());
      archive_entry_free(entry);
    }
    archive_write_free(writer);
  }
  std::vector<std::byte> shop_bytes() { return read_whole(*store_.backup_now(noon(3, 5))); }
  void expect_refused(const std::vector<Member>& members) {
    write_archive_of(members);
    const auto before = everything_in(folder_.path());
    const auto restored = Store::restore(file(), target());
    EXPECT_FALSE(restored);
    EXPECT_EQ(everything_in(folder_.path()), before);
  }

  TempFolder folder_;
  Store store_;
  std::string sha_;
};

TEST_F(Archive, HoldsTheShopAndItsPhotos) {
  const auto made = store_.backup_to(file());
  ASSERT_TRUE(made) << made.error().sentence;
  const auto restored = Store::restore(file(), target());
  ASSERT_TRUE(restored) << restored.error().sentence;
  auto copy = Store::open(target(), Access::write, noon(3, 6));
  ASSERT_TRUE(copy) << copy.error().sentence;
  EXPECT_EQ(copy->dump(), store_.dump());
  EXPECT_EQ(*copy->photo(sha_), bytes("a picture"));
  EXPECT_THAT(copy->check(), IsEmpty());
  EXPECT_TRUE(copy->undo());
}

TEST_F(Archive, HoldsPhotosThatOnlyTheHistoryNames) {
  ASSERT_TRUE(store_.undo());
  ASSERT_TRUE(store_.backup_to(file()));
  ASSERT_TRUE(Store::restore(file(), target()));
  auto copy = Store::open(target(), Access::write, noon(3, 6));
  ASSERT_TRUE(copy->redo());
  EXPECT_TRUE(copy->photo(sha_));
}

TEST_F(Archive, IsRestoredOnlyIntoANewFolder) {
  ASSERT_TRUE(store_.backup_to(file()));
  fs::create_directory(target());
  std::ofstream{target() / "letter.txt"} << "keep me";
  const auto before = everything_in(folder_.path());
  EXPECT_FALSE(Store::restore(file(), target()));
  EXPECT_EQ(everything_in(folder_.path()), before);
}

TEST_F(Archive, OfAnotherKindIsRefused) {
  std::ofstream{file()} << "not an archive";
  EXPECT_FALSE(Store::restore(file(), target()));
  EXPECT_FALSE(Store::restore(folder_.path() / "none", target()));
  EXPECT_FALSE(fs::exists(target()));
}

TEST_F(Archive, ThatWouldWriteElsewhereIsRefused) {
  const auto shop = shop_bytes();
  for (const char* name : {"../evil", "/tmp/evil", "photos/../../evil", "./shop.sqlite", "photos/evil",
                           "shop.sqlite/x", "shop.lock", "backups/x", "photos/"})
    expect_refused({{"shop.sqlite", shop}, {name, bytes("evil")}});
  expect_refused({{"shop.sqlite", shop}, {"shop.sqlite", shop}});
  expect_refused({{"shop.sqlite", {}, AE_IFLNK}});
  expect_refused({{"shop.sqlite", shop}, {"photos/" + sha_, {}, AE_IFLNK}});
}

TEST_F(Archive, WithADamagedShopOrPhotoIsRefused) {
  auto shop = shop_bytes();
  expect_refused({{"shop.sqlite", shop}, {"photos/" + sha_, bytes("another picture")}});
  expect_refused({{"photos/" + sha_, bytes("a picture")}});
  expect_refused({{"shop.sqlite", bytes("no shop")}});
  std::fill(shop.begin() + 4096, shop.end(), std::byte{0x5a});
  expect_refused({{"shop.sqlite", shop}});
}

}  // namespace
}  // namespace secondpull::db
