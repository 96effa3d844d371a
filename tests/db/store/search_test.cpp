#include <algorithm>
#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/shop/bench.h"
#include "db/search_index.h"
#include "db/shop_folder.h"
#include "tests/db/store/test_shop.h"

namespace secondpull::db {
namespace {

using namespace testing;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// What kind each hit is, and its text: "machine:TW-21745".
std::vector<std::string> found(const Store& store, std::string_view text, std::size_t limit = 50) {
  std::vector<std::string> hits;
  for (const Hit& hit : store.search(text, limit))
    hits.push_back((std::holds_alternative<MachineId>(hit.record) ? "machine:" : "line:") + hit.text);
  return hits;
}

class Search : public ::testing::Test {
 protected:
  Search() : store_{new_store(folder_)} {
    for (const char* tag : {"1", "14", "141"})
      done(store_, take_in(*store_.shop(), tag));
    machine_ = store_.shop()->all<Machine>().begin()->id;
  }
  TempFolder folder_;
  Store store_;
  MachineId machine_{};
};

TEST_F(Search, FindsPartOfAModelNumber) {
  EXPECT_THAT(found(store_, "217"), ElementsAre("machine:TW-21745", "machine:TW-21745", "machine:TW-21745"));
}

TEST_F(Search, PutsTheMachineOfExactlyThatTagFirst) {
  for (const char* text : {"14", "#14", " 14 "}) {
    ASSERT_THAT(found(store_, text), SizeIs(::testing::AnyOf(2U, 3U))) << text;
    EXPECT_EQ(store_.shop()->find(std::get<MachineId>(store_.search(text).front().record))->tag, "14")
        << text;
  }
  EXPECT_EQ(store_.shop()->find(std::get<MachineId>(store_.search("#141").front().record))->tag, "141");
}

TEST_F(Search, PutsMachinesBeforeTheirLines) {
  done(store_, log_labour(*store_.shop(), machine_, day(3, 5), Minutes{10}, Work::repair,
                          "cleaned the Tarnwick deck"));
  const auto hits = store_.search("tarnwick");
  ASSERT_EQ(hits.size(), 4U);
  EXPECT_TRUE(std::holds_alternative<LabourId>(hits.back().record));
  EXPECT_EQ(hits.back().machine, machine_);
  EXPECT_EQ(hits.back().text, "cleaned the Tarnwick deck");
}

TEST_F(Search, AnswersWordsOfOneAndTwoLetters) {
  done(store_, log_labour(*store_.shop(), machine_, day(3, 5), Minutes{10}, Work::repair, "ÖL v8"));
  EXPECT_THAT(found(store_, "v8"), ElementsAre("line:ÖL v8"));
  EXPECT_THAT(found(store_, "öl"), ElementsAre("line:ÖL v8"));
  EXPECT_THAT(found(store_, "öl zz"), IsEmpty());
}

TEST_F(Search, WantsEveryWordAndMindsNoCapitals) {
  EXPECT_THAT(found(store_, "CRANKS tarn"), SizeIs(3));
  EXPECT_THAT(found(store_, "cranks st"), SizeIs(3)) << "a long word and a short one";
  EXPECT_THAT(found(store_, "cranks zz"), IsEmpty());
  EXPECT_THAT(found(store_, "cranks briggle"), IsEmpty());
}

TEST_F(Search, TakesSignsAsTheyAre) {
  done(store_, log_labour(*store_.shop(), machine_, day(3, 5), Minutes{10}, Work::repair,
                          "50% \"off\" AND NOT * (x)"));
  for (const char* text : {"50%", "\"off\"", "AND NOT", "(x)", "* ("})
    EXPECT_THAT(found(store_, text), ElementsAre("line:50% \"off\" AND NOT * (x)")) << text;
  EXPECT_THAT(found(store_, "5%0"), IsEmpty());
  EXPECT_THAT(found(store_, ""), IsEmpty());
  EXPECT_THAT(found(store_, "   "), IsEmpty());
  EXPECT_THAT(found(store_, "#"), IsEmpty());
}

TEST_F(Search, FollowsEditsUndoAndRedo) {
  Machine changed = *store_.shop()->find(machine_);
  changed.note = "smells of vinegar";
  Change note{*store_.shop(), "Note"};
  note.replace(changed);
  EXPECT_THAT(found(store_, "vinegar"), IsEmpty());
  done(store_, note);
  EXPECT_THAT(found(store_, "vinegar"), ElementsAre("machine:smells of vinegar"));
  ASSERT_TRUE(store_.undo());
  EXPECT_THAT(found(store_, "vinegar"), IsEmpty());
  ASSERT_TRUE(store_.redo());
  EXPECT_THAT(found(store_, "vinegar"), ElementsAre("machine:smells of vinegar"));
}

TEST_F(Search, FindsWhatWasSeenButNotWhatTheProgramReads) {
  Change change{*store_.shop(), "Saw one"};
  const FindId find =
      change.add(Find{.date = day(3, 5), .make = "Ollenby", .symptom = "no spark", .place = "Ovenden"});
  change.add(FindAnswer{.find = find, .date = day(3, 5), .test = "Ovenden", .outcome = "x"});
  change.add(OwnNumber{.machine = machine_, .path = "Ovenden.price", .value = 1});
  change.add(KnowledgeEdit{.section = "causes", .entry = "ovenden", .text = "{}"});
  const FaultId fault =
      change.add(Fault{.code = "F1", .machine = machine_, .date = day(3, 5), .symptom = "no spark"});
  const ForecastId forecast = change.add(Forecast{.machine = machine_, .fault = fault, .date = day(3, 5)});
  change.add(ForecastCause{.forecast = forecast, .cause = "ovenden", .chance = 0.5});
  done(store_, change);
  const auto hits = store_.search("ovenden");
  ASSERT_THAT(hits, SizeIs(1));
  EXPECT_EQ(hits.front().record, AnyId{find});
}

TEST_F(Search, GivesNoMoreThanAskedFor) {
  EXPECT_THAT(found(store_, "tarnwick", 2), SizeIs(2));
  EXPECT_THAT(found(store_, "14", 1), SizeIs(1));
}

TEST_F(Search, DoesWithoutItsFileAndMakesItAnew) {
  ASSERT_THAT(found(store_, "217"), SizeIs(3));
  { Store closing = std::move(store_); }
  const auto file = search_file(folder_.shop());
  ASSERT_TRUE(std::filesystem::exists(file));
  std::ofstream{file} << "not an index at all";
  store_ = reopened(folder_);
  EXPECT_THAT(found(store_, "217"), SizeIs(3));
  { Store closing = std::move(store_); }
  std::filesystem::remove(file);
  store_ = reopened(folder_);
  EXPECT_THAT(found(store_, "217"), SizeIs(3));
}

TEST_F(Search, FailsNoActionWhenTheIndexCannotBeWritten) {
  { Store closing = std::move(store_); }
  std::filesystem::remove(search_file(folder_.shop()));
  std::filesystem::create_directories(search_file(folder_.shop()) / "in the way");
  store_ = reopened(folder_);
  EXPECT_THAT(found(store_, "217"), SizeIs(3));
  done(store_, take_in(*store_.shop(), "15"));
  EXPECT_THAT(found(store_, "217"), SizeIs(4));
}

TEST_F(Search, TakesNoIndexOfAnotherStateOfTheShop) {
  ASSERT_THAT(found(store_, "217"), SizeIs(3));
  const auto other = folder_.path() / "index";
  { Store closing = std::move(store_); }
  std::filesystem::copy_file(search_file(folder_.shop()), other);
  store_ = reopened(folder_);
  done(store_, take_in(*store_.shop(), "15"));
  ASSERT_THAT(found(store_, "217"), SizeIs(4));
  { Store closing = std::move(store_); }
  std::filesystem::copy_file(other, search_file(folder_.shop()),
                             std::filesystem::copy_options::overwrite_existing);
  store_ = reopened(folder_);
  EXPECT_THAT(found(store_, "217"), SizeIs(4));
}

TEST_F(Search, ByAReaderFindsTheSame) {
  done(store_, log_labour(*store_.shop(), machine_, day(3, 5), Minutes{10}, Work::repair,
                          "cleaned the Tarnwick deck"));
  const Store reader = reopened(folder_, Access::read);
  for (const char* text : {"tarnwick", "14", "cleaned deck", "cr"})
    EXPECT_EQ(found(reader, text), found(store_, text)) << text;
}

TEST(SearchText, IsEveryTextOfARecordButAPhotosDigest) {
  Photo photo;
  photo.sha256 = std::string(64, 'a');
  photo.name = "deck.jpg";
  photo.note = "left side";
  EXPECT_EQ(searchable_text(AnyRecord{photo}), "deck.jpg\nleft side");
  Person person;
  person.code = "ruel";
  person.name = "Ruel Ashby";
  person.phone = "555 0134";
  EXPECT_EQ(searchable_text(AnyRecord{person}), "ruel\nRuel Ashby\n555 0134");
}

}  // namespace
}  // namespace secondpull::db
