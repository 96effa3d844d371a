#include <cstdlib>
#include <fcntl.h>
#include <fstream>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "db/connection.h"
#include "db/shop_folder.h"
#include "tests/db/store/test_shop.h"

namespace secondpull::db {
namespace {

using namespace testing;
using ::testing::HasSubstr;
namespace fs = std::filesystem;

unsigned mode_of(const fs::path& path) {
  return static_cast<unsigned>(fs::status(path).permissions());
}

/// A closed shop with a machine in it.
void make_closed_shop(const TempFolder& folder) {
  Store store = new_store(folder);
  done(store, take_in(*store.shop(), "1"));
}

/// Opening for either is refused with a sentence that says so, and every byte in the folder stays.
void expect_refused_untouched(const TempFolder& folder, const std::string& says) {
  const auto before = everything_in(folder.path());
  for (const Access access : {Access::read, Access::write}) {
    const auto opened = Store::open(folder.shop(), access, noon(3, 6));
    ASSERT_FALSE(opened);
    EXPECT_THAT(opened.error().sentence, HasSubstr(says));
    EXPECT_THAT(opened.error().sentence, HasSubstr(folder.shop().string()));
  }
  EXPECT_EQ(everything_in(folder.path()), before);
}

TEST(Create, MakesAFolderForItsOwnerAlone) {
  const TempFolder folder;
  Store store = new_store(folder);
  done(store, take_in(*store.shop(), "1"));
  (void)store.search("tarnwick");
  ASSERT_TRUE(store.keep_photo({std::byte{1}}));
  ASSERT_TRUE(store.backup_now(noon(3, 5)));
  EXPECT_EQ(mode_of(folder.shop()), 0700U);
  for (const auto& entry : fs::recursive_directory_iterator{folder.shop()})
    EXPECT_EQ(mode_of(entry.path()), entry.is_directory() ? 0700U : 0600U) << entry.path();
}

TEST(Create, GivesAnEmptyShopWithItsSettings) {
  const TempFolder folder;
  const Store store = new_store(folder);
  EXPECT_TRUE(store.shop()->empty());
  EXPECT_EQ(store.shop()->settings, test_settings());
  EXPECT_EQ(store.shop()->next_id, 1);
  EXPECT_EQ(store.folder(), folder.shop());
  EXPECT_EQ(store.check(), std::vector<Problem>{});
}

TEST(Create, RefusesAFolderThatHoldsAnything) {
  const TempFolder folder;
  fs::create_directory(folder.shop());
  std::ofstream{folder.shop() / "letter.txt"} << "keep me";
  const auto before = everything_in(folder.path());
  const auto made = Store::create(folder.shop(), test_settings(), noon(3, 5));
  ASSERT_FALSE(made);
  EXPECT_THAT(made.error().sentence, HasSubstr("not empty"));
  EXPECT_EQ(everything_in(folder.path()), before);
}

TEST(Create, TakesTheFolderOfOneThatWasInterrupted) {
  const TempFolder folder;
  fs::create_directory(folder.shop());
  std::ofstream{folder.shop() / "shop.sqlite.making"} << "half a file";
  EXPECT_TRUE(Store::create(folder.shop(), test_settings(), noon(3, 5)));
}

TEST(Open, RefusesWhereThereIsNoShop) {
  const TempFolder folder;
  expect_refused_untouched(folder, "There is no shop");
  fs::create_directory(folder.shop());
  expect_refused_untouched(folder, "There is no shop");
}

TEST(Open, RefusesAFileThatIsNoDatabase) {
  const TempFolder folder;
  fs::create_directory(folder.shop());
  std::ofstream{shop_file(folder.shop())} << std::string(5000, 'x');
  expect_refused_untouched(folder, "not a Second Pull shop");
}

TEST(Open, RefusesAnEmptyFile) {
  const TempFolder folder;
  fs::create_directory(folder.shop());
  std::ofstream{shop_file(folder.shop())};
  expect_refused_untouched(folder, "not a Second Pull shop");
}

TEST(Open, RefusesAnothersDatabase) {
  const TempFolder folder;
  fs::create_directory(folder.shop());
  {
    SQLite::Database other{shop_file(folder.shop()), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE};
    other.exec(
        "PRAGMA journal_mode = WAL; CREATE TABLE recipes (name TEXT); INSERT INTO recipes VALUES ('soup')");
  }
  expect_refused_untouched(folder, "not a Second Pull shop");
}

TEST(Open, RefusesANewerShop) {
  const TempFolder folder;
  make_closed_shop(folder);
  {
    SQLite::Database file{shop_file(folder.shop()), SQLite::OPEN_READWRITE};
    file.exec("PRAGMA user_version = 99");
  }
  expect_refused_untouched(folder, "newer Second Pull");
}

TEST(Open, RefusesADamagedShop) {
  const TempFolder folder;
  make_closed_shop(folder);
  {
    std::fstream file{shop_file(folder.shop()), std::ios::in | std::ios::out | std::ios::binary};
    constexpr std::streamoff page = 4096;
    file.seekp(page);
    for (int i = 0; i < 20 * page; ++i)
      file.put('\x5a');
  }
  expect_refused_untouched(folder, "damaged");
}

TEST(Open, RefusesAShopCutShort) {
  const TempFolder folder;
  make_closed_shop(folder);
  fs::resize_file(shop_file(folder.shop()), fs::file_size(shop_file(folder.shop())) / 2);
  expect_refused_untouched(folder, "damaged");
}

TEST(Open, JudgesAShopWithItsLogOnACopy) {
  // A newer program was killed: what makes the file newer stands in the log alone.
  const TempFolder folder;
  make_closed_shop(folder);
  const pid_t child = ::fork();
  if (child == 0) {
    SQLite::Database file{shop_file(folder.shop()), SQLite::OPEN_READWRITE};
    file.exec("PRAGMA user_version = 99");
    ::_exit(0);
  }
  ::waitpid(child, nullptr, 0);
  ASSERT_GT(fs::file_size(shop_file(folder.shop()).string() + "-wal"), 0U);
  expect_refused_untouched(folder, "newer Second Pull");
}

TEST(Open, FindsNamesWithSignsThatMeanSomethingElsewhere) {
  const TempFolder folder;
  const fs::path shop = folder.path() / "50% off? #1 'shed' & größer";
  ASSERT_TRUE(Store::create(shop, test_settings(), noon(3, 5)));
  EXPECT_TRUE(Store::open(shop, Access::read, noon(3, 5)));
  EXPECT_TRUE(Store::open(shop, Access::write, noon(3, 5)));
}

TEST(Lock, LetsOneWriteAndOthersRead) {
  const TempFolder folder;
  Store store = new_store(folder);
  const auto second = Store::open(folder.shop(), Access::write, noon(3, 6));
  ASSERT_FALSE(second);
  EXPECT_THAT(second.error().sentence, HasSubstr("process " + std::to_string(::getpid())));
  EXPECT_THAT(second.error().sentence, HasSubstr("2026-03-05 12:00:00 UTC"));
  EXPECT_TRUE(Store::open(folder.shop(), Access::read, noon(3, 6)));
  done(store, take_in(*store.shop(), "1"));
  EXPECT_EQ(reopened(folder, Access::read).shop()->all<Machine>().size(), 1U);
}

TEST(Lock, IsHeldAgainstAnotherProcessAndFreedByItsDeath) {
  const TempFolder folder;
  make_closed_shop(folder);
  int ready[2];
  ASSERT_EQ(::pipe(ready), 0);
  const pid_t child = ::fork();
  if (child == 0) {
    const auto held = Store::open(folder.shop(), Access::write, noon(3, 5));
    const char said = held ? 'y' : 'n';
    if (::write(ready[1], &said, 1) != 1) ::_exit(1);
    ::pause();
  }
  char said = 0;
  ASSERT_EQ(::read(ready[0], &said, 1), 1);
  EXPECT_EQ(said, 'y');
  const auto before = everything_in(folder.path());
  const auto refused = Store::open(folder.shop(), Access::write, noon(3, 6));
  EXPECT_FALSE(refused);
  EXPECT_THAT(refused.error().sentence, HasSubstr("process " + std::to_string(child)));
  EXPECT_EQ(everything_in(folder.path()), before);
  EXPECT_TRUE(Store::open(folder.shop(), Access::read, noon(3, 6)));
  ::kill(child, SIGKILL);
  ::waitpid(child, nullptr, 0);
  ::close(ready[0]);
  ::close(ready[1]);
  EXPECT_TRUE(Store::open(folder.shop(), Access::write, noon(3, 6)));
}

TEST(Lock, IsFreeOnceTheStoreIsClosed) {
  const TempFolder folder;
  make_closed_shop(folder);
  { const Store store = reopened(folder); }
  EXPECT_TRUE(Store::open(folder.shop(), Access::write, noon(3, 6)));
}

}  // namespace
}  // namespace secondpull::db
