#include <fstream>
#include <string_view>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/shop/bench.h"
#include "db/files.h"
#include "db/shop_folder.h"
#include "tests/db/store/test_shop.h"

namespace secondpull::db {
namespace {

using namespace testing;
using ::testing::HasSubstr;
namespace fs = std::filesystem;

std::vector<std::byte> bytes(std::string_view text) {
  const auto view = std::as_bytes(std::span{text});
  return {view.begin(), view.end()};
}

// FIPS 180-4's examples, from NIST's "Secure Hash Standard" example values: the message "abc" and that of 448
// bits.
TEST(Sha256, IsThatOfTheStandard) {
  EXPECT_EQ(sha256(bytes("abc")), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256(bytes("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

/// Adds a photo of the shop's first machine.
Done add(Store& store, const std::string& sha, Instant at) {
  Photo photo;
  photo.sha256 = sha;
  photo.name = "deck.jpg";
  photo.machine = store.shop()->all<Machine>().begin()->id;
  return done(store, add_photo(*store.shop(), photo), at);
}

TEST(Photos, AreKeptByTheirContentOnce) {
  const TempFolder folder;
  Store store = new_store(folder);
  const auto first = store.keep_photo(bytes("abc"));
  const auto second = store.keep_photo(bytes("abc"));
  ASSERT_TRUE(first && second);
  EXPECT_EQ(*first, *second);
  EXPECT_EQ(*first, sha256(bytes("abc")));
  EXPECT_EQ(*store.photo(*first), bytes("abc"));
  EXPECT_EQ(everything_in(photo_folder(folder.shop())).size(), 1U);
}

TEST(Photos, RefuseWhatIsNone) {
  const TempFolder folder;
  Store store = new_store(folder);
  EXPECT_FALSE(store.keep_photo({}));
  EXPECT_FALSE(store.photo("../shop.sqlite"));
  EXPECT_THAT(store.photo(std::string(64, 'a')).error().sentence, HasSubstr("missing"));
}

TEST(Photos, ThatAreDamagedAreNotShown) {
  const TempFolder folder;
  Store store = new_store(folder);
  const std::string sha = *store.keep_photo(bytes("abc"));
  std::ofstream{photo_folder(folder.shop()) / sha} << "abd";
  EXPECT_THAT(store.photo(sha).error().sentence, HasSubstr("damaged"));
}

TEST(Photos, StayWhileARecordOrTheHistoryNamesThem) {
  const TempFolder folder;
  std::optional<Store> store{new_store(folder)};
  done(*store, take_in(*store->shop(), "1"), noon(3, 5));
  const std::string sha = *store->keep_photo(bytes("abc"));
  add(*store, sha, noon(3, 5));
  ASSERT_TRUE(store->undo());
  store.reset();
  store.emplace(reopened(folder));
  ASSERT_TRUE(store->backup_now(noon(3, 20)));
  EXPECT_TRUE(store->photo(sha)) << "redo would show it again";
  ASSERT_TRUE(store->redo());
  EXPECT_TRUE(store->photo(sha));
}

TEST(Photos, GoWhenNothingNamesThemAnyMore) {
  const TempFolder folder;
  std::optional<Store> store{new_store(folder)};
  done(*store, take_in(*store->shop(), "1"), noon(3, 5));
  const std::string sha = *store->keep_photo(bytes("abc"));
  const std::string never_used = *store->keep_photo(bytes("abcd"));
  add(*store, sha, noon(3, 5));
  ASSERT_TRUE(store->undo());
  done(*store, take_in(*store->shop(), "2"), noon(3, 6));  // what was undone cannot be redone
  ASSERT_TRUE(store->photo(sha)) << "kept in this sitting";
  store.reset();
  store.emplace(reopened(folder));
  fs::remove_all(backup_folder(folder.shop()));
  done(*store, take_in(*store->shop(), "3"), noon(3, 7));
  EXPECT_FALSE(store->photo(sha));
  EXPECT_FALSE(store->photo(never_used));
}

TEST(Photos, StayWhileADraftOrABackupNamesThem) {
  const TempFolder folder;
  std::optional<Store> store{new_store(folder)};
  done(*store, take_in(*store->shop(), "1"), noon(3, 5));
  const std::string in_draft = *store->keep_photo(bytes("abcd"));
  const std::string in_backup = *store->keep_photo(bytes("abc"));
  ASSERT_TRUE(store->save_draft("bench.photo", "{\"photo\":\"" + in_draft + "\"}", noon(3, 5)));
  add(*store, in_backup, noon(3, 5));
  ASSERT_TRUE(store->backup_now(noon(3, 5)));
  ASSERT_TRUE(store->undo());
  done(*store, take_in(*store->shop(), "2"), noon(3, 5));
  store.reset();
  store.emplace(reopened(folder));
  ASSERT_TRUE(store->backup_now(noon(3, 6)));
  EXPECT_TRUE(store->photo(in_draft));
  EXPECT_TRUE(store->photo(in_backup));
}

}  // namespace
}  // namespace secondpull::db
