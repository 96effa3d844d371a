#include "db/exchange/take_in.h"

#include <gmock/gmock.h>

#include "tests/db/exchange/folders.h"

namespace secondpull::db {
namespace {

const Instant kNow = std::chrono::sys_days{std::chrono::year{2026} / 5 / 4} + std::chrono::hours{15};
const Files kPerson = {{"shop.csv", "name,currency\nLanternfold,KWD\n"},
                       {"people.csv", "person,name\nP1,Ruel\n"}};

Store new_store(const TempFolder& folder) {
  return Store::create(folder.path() / "shop", Settings{}, kNow).value();
}

TEST(TakeIn, IsOneEntryOfTheHistoryAndGivesAnEmptyShopTheSettings) {
  const TempFolder folder;
  Store store = new_store(folder);
  const auto done = take_in(store, shop_of(kPerson), kNow);
  ASSERT_TRUE(done) << done.error().sentence;
  EXPECT_EQ(done->title, "Imported 0 machines and 1 other line");
  EXPECT_EQ(store.shop()->settings.currency.code, "KWD");
  ASSERT_EQ(store.history().size(), 1u);
  ASSERT_TRUE(store.undo());
  EXPECT_TRUE(store.shop()->empty());
}

TEST(TakeIn, AddsToTheRecordsThatAreThere) {
  const TempFolder folder;
  Store store = new_store(folder);
  ASSERT_TRUE(take_in(store, shop_of(kPerson), kNow));
  const Shop read =
      shop_of({{"shop.csv", "name,currency\nElsewhere,KWD\n"}, {"people.csv", "person,name\nP2,Ilse\n"}},
              *store.shop());
  ASSERT_TRUE(take_in(store, read, kNow));
  EXPECT_EQ(store.shop()->all<Person>().size(), 2u);
  EXPECT_EQ(store.shop()->settings.name, "Lanternfold");
  EXPECT_EQ(store.history().size(), 2u);
}

TEST(TakeIn, LeavesSettingsAndRecordsAsTheyWereIfARuleIsBroken) {
  const TempFolder folder;
  Store store = new_store(folder);
  const std::string before = store.dump();
  const Settings settings = store.shop()->settings;
  Shop read = shop_of(kPerson);
  Person nameless;
  nameless.id = PersonId{read.next_id++};
  nameless.entered = number(nameless.id);
  read.all<Person>().insert(nameless);
  EXPECT_FALSE(take_in(store, read, kNow));
  EXPECT_EQ(store.dump(), before);
  EXPECT_EQ(store.shop()->settings, settings);
  EXPECT_TRUE(store.history().empty());
}

}  // namespace
}  // namespace secondpull::db
