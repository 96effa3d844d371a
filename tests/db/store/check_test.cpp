#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/shop/bench.h"
#include "db/connection.h"
#include "db/shop_folder.h"
#include "tests/db/store/test_shop.h"

namespace secondpull::db {
namespace {

using namespace testing;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
namespace fs = std::filesystem;

/// The shop's file changed behind the program's back.
void meddle(const TempFolder& folder, const char* sql) {
  SQLite::Database file{shop_file(folder.shop()), SQLite::OPEN_READWRITE};
  file.exec(sql);
}

std::string all_of(const std::vector<Problem>& problems) {
  std::string text;
  for (const Problem& one : problems)
    text += one.sentence + "\n";
  return text;
}

class Check : public ::testing::Test {
 protected:
  Check() : store_{new_store(folder_)} { done(store_, take_in(*store_.shop(), "1")); }
  TempFolder folder_;
  Store store_;
};

TEST_F(Check, FindsNothingInAShopInOrder) {
  EXPECT_THAT(store_.check(), IsEmpty());
}

TEST_F(Check, FindsAReferenceToNothing) {
  meddle(folder_, "DELETE FROM acquisitions");
  EXPECT_THAT(all_of(store_.check()), HasSubstr("machines points at a record of acquisitions"));
}

TEST_F(Check, FindsRecordsChangedBehindItsBack) {
  meddle(folder_, "UPDATE machines SET note = 'x'");
  EXPECT_THAT(all_of(store_.check()), HasSubstr("not those of the file"));
}

TEST_F(Check, FindsABrokenRule) {
  meddle(
      folder_,
      "INSERT INTO machines SELECT id + 1, entered + 1, tag, acquisition_id, kind, make, model, model_number,"
      " serial, engine, year, deck_in, symptom, condition, value_then, stage, note FROM machines");
  meddle(folder_, "UPDATE state SET next_id = 100");
  EXPECT_THAT(store_.check(), Not(IsEmpty()));
}

TEST_F(Check, FindsAnIdThatIsStillToBeHandedOut) {
  meddle(folder_, "UPDATE state SET next_id = 1");
  EXPECT_THAT(all_of(store_.check()), HasSubstr("still to be handed out"));
}

TEST_F(Check, FindsAMissingPhoto) {
  Photo photo;
  photo.sha256 = *store_.keep_photo({std::byte{7}});
  photo.machine = store_.shop()->all<Machine>().begin()->id;
  done(store_, add_photo(*store_.shop(), photo));
  EXPECT_THAT(store_.check(), IsEmpty());
  fs::remove(photo_folder(folder_.shop()) / photo.sha256);
  EXPECT_THAT(all_of(store_.check()), HasSubstr("missing"));
}

TEST_F(Check, UndoRefusesWhereTheRecordsWereChangedBehindItsBack) {
  meddle(folder_, "UPDATE machines SET note = 'x'");
  const std::string before = store_.dump();
  const auto refused = store_.undo();
  ASSERT_FALSE(refused);
  EXPECT_THAT(refused.error().sentence, HasSubstr("no longer as that action left them"));
  EXPECT_EQ(store_.dump(), before);
  EXPECT_FALSE(store_.history().front().undone);
}

TEST_F(Check, AnOldBreakDoesNotStandInTheWayOfOtherWork) {
  { Store closing = std::move(store_); }
  meddle(folder_, "UPDATE acquisitions SET code = ''");
  store_ = reopened(folder_);
  ASSERT_THAT(store_.check(), Not(IsEmpty()));
  const auto performed = store_.perform(take_in(*store_.shop(), "2"), noon(3, 6));
  EXPECT_TRUE(performed) << performed.error().sentence;
}

}  // namespace
}  // namespace secondpull::db
