#include "db/migrations.h"

#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/books/closing.h"
#include "db/backups.h"
#include "db/connection.h"
#include "db/rates/published_rates.h"
#include "db/shop_folder.h"
#include "tests/db/store/test_shop.h"

namespace secondpull::db {
namespace {

using namespace testing;
using ::testing::HasSubstr;
namespace fs = std::filesystem;

int present() {
  return newest_version(schema_migrations());
}
Migration with(const char* sql, bool keeps_history = true) {
  return {.version = present() + 1, .sql = sql, .keeps_history = keeps_history};
}

/// A shop of the present version with two actions, the second undone.
void make_old_shop(const TempFolder& folder) {
  Store store = new_store(folder);
  done(store, take_in(*store.shop(), "1"));
  done(store, take_in(*store.shop(), "2"));
  ASSERT_TRUE(store.undo());
  fs::remove_all(backup_folder(folder.shop()));
}

Result<Store> open_with(const TempFolder& folder, const Migration& next, Access access = Access::write) {
  const auto known = schema_migrations();
  std::vector<Migration> list(known.begin(), known.end());
  list.push_back(next);
  return Store::open(folder.shop(), access, noon(4, 1), list);
}

TEST(Migrations, AreNumberedWithoutGaps) {
  int version = 0;
  for (const Migration& migration : schema_migrations())
    EXPECT_EQ(migration.version, ++version);
}

TEST(Migrations, BringAnOldShopUpToDateAfterABackup) {
  const TempFolder folder;
  make_old_shop(folder);
  auto store = open_with(folder, with("CREATE TABLE neighbours (id INTEGER PRIMARY KEY) STRICT"));
  ASSERT_TRUE(store) << store.error().sentence;
  EXPECT_EQ(store->shop()->all<Machine>().size(), 1U);
  const auto copies = Backups{backup_folder(folder.shop())}.names();
  ASSERT_EQ(copies.size(), 1U);
  SQLite::Database copy = open_file(backup_folder(folder.shop()) / copies.front(), OpenAs::reader);
  EXPECT_EQ(version_of(copy), present());
  SQLite::Database file = open_file(shop_file(folder.shop()), OpenAs::reader);
  EXPECT_EQ(version_of(file), present() + 1);
}

TEST(Migrations, BringAShopOfTheFirstReleaseToClosedYears) {
  const TempFolder folder;
  fs::create_directories(folder.shop());
  make_shop_file(folder.shop(), test_settings(), schema_migrations().first(1));
  {
    SQLite::Database file = open_file(shop_file(folder.shop()), OpenAs::writer);
    ASSERT_EQ(version_of(file), 1);
    ASSERT_FALSE(file.tableExists("closed_years"));
  }
  Store store = reopened(folder);
  done(store, take_in(*store.shop(), "1"));
  const auto books = Books::of(store.shop(), published_mileage_rates());
  done(store, close_year(*books, published_self_employment_rates(), 2026, day(12, 31)), noon(12, 31));
  EXPECT_EQ(reopened(folder, Access::read).shop()->all<ClosedYear>().size(), 1U);
}

TEST(Migrations, BringAShopWithClosedYearsToFinds) {
  const TempFolder folder;
  fs::create_directories(folder.shop());
  make_shop_file(folder.shop(), test_settings(), schema_migrations().first(2));
  {
    SQLite::Database file = open_file(shop_file(folder.shop()), OpenAs::writer);
    ASSERT_EQ(version_of(file), 2);
    ASSERT_FALSE(file.tableExists("finds"));
    file.exec("INSERT INTO expenses VALUES (1, 1, '2026-03-05', 'supplies', 500, 'gloves')");
    file.exec("UPDATE state SET next_id = 2");
  }
  Store store = reopened(folder);
  ASSERT_EQ(store.shop()->all<Expense>().size(), 1U);
  EXPECT_EQ(store.shop()->all<Expense>().begin()->note, "gloves");
  Change change{*store.shop(), "Saw one"};
  change.add(Find{.date = day(3, 5), .symptom = "no spark"});
  done(store, change);
  EXPECT_EQ(reopened(folder, Access::read).shop()->all<Find>().size(), 1U);
  ASSERT_TRUE(store.undo());
  EXPECT_TRUE(store.shop()->all<Find>().empty());
  EXPECT_EQ(store.check(), std::vector<Problem>{});
}

TEST(Migrations, BringAShopWithFindsToForecasts) {
  const TempFolder folder;
  fs::create_directories(folder.shop());
  make_shop_file(folder.shop(), test_settings(), schema_migrations().first(3));
  {
    SQLite::Database file = open_file(shop_file(folder.shop()), OpenAs::writer);
    ASSERT_EQ(version_of(file), 3);
    ASSERT_FALSE(file.tableExists("listing_texts"));
  }
  Store store = reopened(folder);
  Change change{*store.shop(), "Wrote it down"};
  const AcquisitionId lot = change.add(Acquisition{.code = "A1", .date = day(3, 5)});
  const MachineId machine = change.add(Machine{.tag = "1", .acquisition = lot});
  change.add(ListingText{.machine = machine, .date = day(3, 5), .text = "Mower"});
  done(store, change);
  EXPECT_EQ(reopened(folder, Access::read).shop()->all<ListingText>().size(), 1U);
  EXPECT_EQ(store.check(), std::vector<Problem>{});
}

TEST(Migrations, ThatOnlyAddKeepWhatCanBeUndone) {
  const TempFolder folder;
  make_old_shop(folder);
  auto store =
      open_with(folder, with("ALTER TABLE machines ADD COLUMN colour TEXT NOT NULL DEFAULT 'green'"));
  ASSERT_TRUE(store) << store.error().sentence;
  const auto redone = store->redo();
  ASSERT_TRUE(redone) << redone.error().sentence;
  EXPECT_EQ(store->shop()->all<Machine>().size(), 2U);
  ASSERT_TRUE(store->undo());
  ASSERT_TRUE(store->undo());
  EXPECT_TRUE(store->shop()->empty());
}

TEST(Migrations, ThatDoMoreEndWhatCanBeUndone) {
  const TempFolder folder;
  make_old_shop(folder);
  auto store = open_with(folder, with("UPDATE machines SET note = 'looked over'", false));
  ASSERT_TRUE(store) << store.error().sentence;
  EXPECT_EQ(store->shop()->all<Machine>().begin()->note, "looked over");
  for (const HistoryEntry& entry : store->history())
    EXPECT_FALSE(entry.undoable) << entry.title;
  EXPECT_THAT(store->undo().error().sentence, HasSubstr("no longer be undone"));
  EXPECT_FALSE(store->redo());
  done(*store, take_in(*store->shop(), "3"));
  EXPECT_TRUE(store->undo()) << "what comes after it can be";
}

TEST(Migrations, ThatFailLeaveTheShopAsItWas) {
  for (const char* sql :
       {"UPDATE machines SET note = 'x'; this is no SQL", "UPDATE machines SET acquisition_id = 99"}) {
    SCOPED_TRACE(sql);
    const TempFolder folder;
    make_old_shop(folder);
    const std::string before = reopened(folder, Access::read).dump();
    EXPECT_FALSE(open_with(folder, with(sql)));
    Store store = reopened(folder);
    EXPECT_EQ(store.dump(), before);
    EXPECT_TRUE(store.redo());
  }
}

TEST(Migrations, AreNotRunForAReader) {
  const TempFolder folder;
  make_old_shop(folder);
  const auto store =
      open_with(folder, with("CREATE TABLE neighbours (id INTEGER PRIMARY KEY) STRICT"), Access::read);
  ASSERT_FALSE(store);
  EXPECT_THAT(store.error().sentence, HasSubstr("older Second Pull"));
  SQLite::Database file = open_file(shop_file(folder.shop()), OpenAs::reader);
  EXPECT_EQ(version_of(file), present());
}

}  // namespace
}  // namespace secondpull::db
