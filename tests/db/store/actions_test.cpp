#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/shop/bench.h"
#include "core/shop/intake.h"
#include "tests/db/store/test_shop.h"

namespace secondpull::db {
namespace {

using namespace testing;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

std::vector<std::string> titles(const Store& store) {
  std::vector<std::string> all;
  for (const HistoryEntry& entry : store.history())
    all.push_back(entry.title + (entry.undone ? " (undone)" : ""));
  return all;
}

Change numbered(const Shop& shop, int number) {
  Change change = take_in(shop, std::to_string(number));
  change.set_title("Took in " + std::to_string(number));
  return change;
}

TEST(Perform, WritesTheRecordsAndOneEntryOfTheHistory) {
  const TempFolder folder;
  Store store = new_store(folder);
  const Done what = done(store, numbered(*store.shop(), 1), noon(3, 5));
  EXPECT_EQ(what.title, "Took in 1");
  EXPECT_EQ(what.changed.size(), 2U);  // the acquisition and its machine
  ASSERT_EQ(store.shop()->all<Machine>().size(), 1U);
  ASSERT_EQ(store.history().size(), 1U);
  const HistoryEntry entry = store.history().front();
  EXPECT_EQ(entry.title, "Took in 1");
  EXPECT_EQ(entry.at, noon(3, 5));
  EXPECT_TRUE(entry.undoable);
  EXPECT_TRUE(entry.this_sitting);
  EXPECT_FALSE(entry.undone);
}

TEST(Perform, IsThereAfterReopening) {
  const TempFolder folder;
  std::optional<Store> store{new_store(folder)};
  done(*store, numbered(*store->shop(), 1));
  const auto before = store->shop();
  const auto generation = store->generation();
  store.reset();
  store.emplace(reopened(folder));
  EXPECT_TRUE(store->shop()->same_records(*before));
  EXPECT_EQ(store->shop()->settings, before->settings);
  EXPECT_EQ(store->shop()->next_id, before->next_id);
  EXPECT_EQ(store->generation(), generation);
  EXPECT_FALSE(store->history().front().this_sitting);
}

TEST(Perform, LeavesTheShopThatWasHandedOutAsItWas) {
  const TempFolder folder;
  Store store = new_store(folder);
  const auto before = store.shop();
  done(store, numbered(*before, 1));
  EXPECT_TRUE(before->empty());
  EXPECT_NE(store.shop(), before);
}

TEST(Perform, RefusesWhatBreaksARuleAndChangesNothing) {
  const TempFolder folder;
  Store store = new_store(folder);
  done(store, numbered(*store.shop(), 1));
  const std::string dump = store.dump();
  const auto generation = store.generation();
  Change twice{*store.shop(), "Same tag twice"};
  Machine second = *store.shop()->all<Machine>().begin();
  twice.add(second);
  const auto refused = store.perform(twice, noon(3, 5));
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().field, "tag");
  EXPECT_EQ(refused.error().value, "1");
  EXPECT_EQ(store.dump(), dump);
  EXPECT_EQ(store.generation(), generation);
  EXPECT_EQ(store.history().size(), 1U);
}

TEST(Perform, RefusesAChangeMadeForAnotherStateOfTheShop) {
  const TempFolder folder;
  Store store = new_store(folder);
  const Change change = numbered(*store.shop(), 1);
  done(store, change);
  EXPECT_FALSE(store.perform(change, noon(3, 5)));
  EXPECT_EQ(store.history().size(), 1U);
}

TEST(Perform, OfNothingLeavesNoEntry) {
  const TempFolder folder;
  Store store = new_store(folder);
  EXPECT_TRUE(store.perform(Change{*store.shop(), "Nothing"}, noon(3, 5)));
  EXPECT_TRUE(store.history().empty());
  EXPECT_FALSE(store.undo());
}

TEST(Perform, TakesRowsInAnyOrderOfReference) {
  const TempFolder folder;
  Store store = new_store(folder);
  done(store, numbered(*store.shop(), 1));
  Change removal{*store.shop(), "Removed 1, the parent first"};
  removal.remove(*store.shop()->all<Acquisition>().begin());
  removal.remove(*store.shop()->all<Machine>().begin());
  done(store, removal);
  EXPECT_TRUE(store.shop()->empty());
  ASSERT_TRUE(store.undo());
  EXPECT_EQ(store.shop()->all<Machine>().size(), 1U);
}

TEST(Perform, LetsTwoMachinesSwapTheirTags) {
  const TempFolder folder;
  Store store = new_store(folder);
  done(store, numbered(*store.shop(), 1));
  done(store, numbered(*store.shop(), 2));
  Machine one = *store.shop()->all<Machine>().begin();
  Machine two = *(store.shop()->all<Machine>().begin() + 1);
  std::swap(one.tag, two.tag);
  Change swap{*store.shop(), "Swapped tags"};
  swap.replace(one);
  swap.replace(two);
  const std::string before = store.dump();
  done(store, swap);
  const std::string after = store.dump();
  EXPECT_NE(before, after);
  ASSERT_TRUE(store.undo());
  EXPECT_EQ(store.dump(), before);
  ASSERT_TRUE(store.redo());
  EXPECT_EQ(store.dump(), after);
}

TEST(Undo, TakesBackOneActionAtATimeAndRedoDoesThemAgain) {
  const TempFolder folder;
  Store store = new_store(folder);
  done(store, numbered(*store.shop(), 1));
  done(store, numbered(*store.shop(), 2));
  const auto undone = store.undo();
  ASSERT_TRUE(undone);
  EXPECT_EQ(undone->title, "Took in 2");
  EXPECT_EQ(undone->changed.size(), 2U);
  EXPECT_THAT(titles(store), ElementsAre("Took in 2 (undone)", "Took in 1"));
  EXPECT_EQ(store.shop()->all<Machine>().size(), 1U);
  ASSERT_TRUE(store.undo());
  EXPECT_TRUE(store.shop()->empty());
  const auto redone = store.redo();
  ASSERT_TRUE(redone);
  EXPECT_EQ(redone->title, "Took in 1");
  EXPECT_THAT(titles(store), ElementsAre("Took in 2 (undone)", "Took in 1"));
}

TEST(Undo, WorksAcrossReopening) {
  const TempFolder folder;
  std::optional<Store> store{new_store(folder)};
  const std::string empty = store->dump();
  done(*store, numbered(*store->shop(), 1));
  const std::string full = store->dump();
  store.reset();
  store.emplace(reopened(folder));
  ASSERT_TRUE(store->undo());
  EXPECT_EQ(store->dump(), empty);
  store.reset();
  store.emplace(reopened(folder));
  ASSERT_TRUE(store->redo());
  EXPECT_EQ(store->dump(), full);
}

TEST(Undo, RaisesTheGenerationAndNeverHandsAnIdOutTwice) {
  const TempFolder folder;
  Store store = new_store(folder);
  const auto first = store.generation();
  done(store, numbered(*store.shop(), 1));
  const auto second = store.generation();
  const auto next = store.shop()->next_id;
  ASSERT_TRUE(store.undo());
  EXPECT_LT(first, second);
  EXPECT_LT(second, store.generation());
  EXPECT_EQ(store.shop()->next_id, next);
}

TEST(Undo, HasNothingToDoInANewShop) {
  const TempFolder folder;
  Store store = new_store(folder);
  EXPECT_THAT(store.undo().error().sentence, HasSubstr("nothing to undo"));
  EXPECT_THAT(store.redo().error().sentence, HasSubstr("nothing to redo"));
}

TEST(Redo, IsGoneAfterANewAction) {
  const TempFolder folder;
  Store store = new_store(folder);
  done(store, numbered(*store.shop(), 1));
  ASSERT_TRUE(store.undo());
  done(store, numbered(*store.shop(), 2));
  EXPECT_FALSE(store.redo());
  EXPECT_THAT(titles(store), ElementsAre("Took in 2"));
}

TEST(History, KeepsAYear) {
  const TempFolder folder;
  Store store = new_store(folder);
  done(store, numbered(*store.shop(), 1), noon(3, 5));
  done(store, numbered(*store.shop(), 2), noon(9, 5));
  done(store, numbered(*store.shop(), 3), noon(3, 6) + std::chrono::days{365});
  EXPECT_THAT(titles(store), ElementsAre("Took in 3", "Took in 2"));
}

TEST(History, ListsNoMoreThanAskedFor) {
  const TempFolder folder;
  Store store = new_store(folder);
  done(store, numbered(*store.shop(), 1));
  done(store, numbered(*store.shop(), 2));
  ASSERT_EQ(store.history(1).size(), 1U);
  EXPECT_EQ(store.history(1).front().title, "Took in 2");
}

TEST(Reading, RefusesToWrite) {
  const TempFolder folder;
  Store writer = new_store(folder);
  done(writer, numbered(*writer.shop(), 1));
  Store reader = reopened(folder, Access::read);
  EXPECT_TRUE(reader.shop()->same_records(*writer.shop()));
  EXPECT_EQ(reader.dump(), writer.dump());
  EXPECT_EQ(reader.history().size(), 1U);
  EXPECT_FALSE(reader.perform(numbered(*reader.shop(), 2), noon(3, 5)));
  EXPECT_FALSE(reader.undo());
  EXPECT_FALSE(reader.save_draft("a", "b", noon(3, 5)));
  EXPECT_FALSE(reader.keep_photo({std::byte{1}}));
  EXPECT_FALSE(reader.backup_now(noon(3, 5)));
}

TEST(LargeImport, IsOneEntryThatNamesTheBackupMadeBeforeIt) {
  constexpr int lines = 200'001;
  const TempFolder folder;
  Store store = new_store(folder);
  done(store, numbered(*store.shop(), 1));
  const std::string before = store.dump();
  Change import{*store.shop(), "Imported"};
  Labour line;
  line.date = day(3, 2);
  line.minutes = Minutes{10};
  for (int i = 0; i < lines; ++i)
    import.add(line);
  done(store, import);
  EXPECT_EQ(store.shop()->all<Labour>().size(), static_cast<std::size_t>(lines));
  ASSERT_EQ(store.history().size(), 2U);
  EXPECT_FALSE(store.history().at(0).undoable);
  EXPECT_FALSE(store.history().at(1).undoable) << "what lies behind it cannot be reached";
  const auto refused = store.undo();
  ASSERT_FALSE(refused);
  // The backup named holds the shop as it was.
  const std::string sentence = refused.error().sentence;
  const std::size_t begin = sentence.find(folder.shop().string());
  ASSERT_NE(begin, std::string::npos) << sentence;
  const std::filesystem::path backup = sentence.substr(begin, sentence.rfind('.') - begin);
  const std::filesystem::path other = folder.path() / "other";
  std::filesystem::create_directory(other);
  std::filesystem::copy_file(backup, other / "shop.sqlite");
  const auto restored = Store::open(other, Access::read, noon(3, 5));
  ASSERT_TRUE(restored) << restored.error().sentence;
  EXPECT_EQ(restored->dump(), before);
}

}  // namespace
}  // namespace secondpull::db
