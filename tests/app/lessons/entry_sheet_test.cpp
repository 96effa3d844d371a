// Entries of the knowledge base as fields of text: what is read out of untouched fields is the entry.
#include "app/lessons/entry_sheet.h"

#include <gmock/gmock.h>

#include "db/exchange/knowledge_json.h"

namespace secondpull::app {
namespace {

using testing::HasSubstr;
using testing::StrEq;

const learning::KnowledgeBase& base() {
  return db::published_knowledge();
}
const Currency kDollars{"USD", 2};

db::KnowledgeEntry published(const char* section, const char* id) {
  const auto entry = db::find_entry(base(), section, id);
  if (!entry) throw std::invalid_argument(id);
  return *entry;
}

TEST(EntrySheet, EveryPublishedEntryComesBackFromItsFields) {
  int seen = 0;
  for (const SectionSpec& section : editedSections())
    for (const auto& [id, name] : entriesOf(base(), section.id)) {
      const auto entry = published(section.id, id.toStdString().c_str());
      const auto again =
          entryOf(section.id, id.toStdString(), sheetOf(entry, base(), kDollars), base(), kDollars);
      ASSERT_TRUE(again) << id.toStdString() << ": " << again.error().sentence;
      EXPECT_EQ(db::write_entry(*again), db::write_entry(entry)) << id.toStdString();
      ++seen;
    }
  EXPECT_GT(seen, 300);
}

TEST(EntrySheet, EveryFieldOfASheetIsOneOfItsSection) {
  for (const SectionSpec& section : editedSections())
    for (const auto& [id, name] : entriesOf(base(), section.id)) {
      const auto& fields = fieldsOf(section.id);
      for (const auto& [key, rows] :
           sheetOf(published(section.id, id.toStdString().c_str()), base(), kDollars))
        EXPECT_TRUE(std::any_of(fields.begin(), fields.end(),
                                [&key = key](const FieldSpec& field) { return field.key == key; }))
            << section.id << ' ' << key.toStdString();
    }
}

TEST(EntrySheet, ChancesAreReadToTheLastDigit) {
  EXPECT_EQ(typedNumber("33.3", true), 0.333);
  EXPECT_EQ(typedNumber(" 7 ", true), 0.07);
  EXPECT_EQ(typedNumber("0.1"), 0.1);
  for (const char* none : {"", "abc", "1,5", "1e3", "nan", "inf", "5 min", "--1"})
    EXPECT_FALSE(typedNumber(none)) << none;
  EXPECT_THAT(numberText(0.1).toStdString(), StrEq("0.1"));
  EXPECT_THAT(numberText(20).toStdString(), StrEq("20"));
}

Problem refused(const char* section, const char* id, const QString& key, const Rows& rows) {
  EntrySheet sheet = sheetOf(published(section, id), base(), kDollars);
  sheet[key] = rows;
  const auto read = entryOf(section, id, sheet, base(), kDollars);
  EXPECT_FALSE(read) << key.toStdString();
  return read ? Problem{} : read.error();
}

TEST(EntrySheet, WhatCannotBeNamesItsFieldAndValue) {
  const Problem letters = refused("repairs", "mend-fresh-fuel", "minutes", {{"5", "ten", "20"}});
  EXPECT_EQ(letters.field, "minutes");
  EXPECT_EQ(letters.value, "ten");
  EXPECT_THAT(letters.sentence, HasSubstr("Minutes: “ten” is no number."));
  const Problem order = refused("repairs", "mend-fresh-fuel", "minutes", {{"5", "30", "20"}});
  EXPECT_EQ(order.value, "5, 30, 20");
  EXPECT_THAT(order.sentence, HasSubstr("must rise"));
  const Problem money = refused("repairs", "mend-fresh-fuel", "parts", {{"1", "2", "x"}});
  EXPECT_EQ(money.field, "parts");
  EXPECT_EQ(money.value, "x");
  const Problem cures = refused("repairs", "mend-fresh-fuel", "cures", {{"fuel-stale", "5", "5"}});
  EXPECT_EQ(cures.field, "cures");
  EXPECT_EQ(cures.value, "5, 5");
  const Problem weight = refused("symptoms", "nostart-pull", "causes", {{"fuel-stale", "-3"}});
  EXPECT_EQ(weight.field, "causes");
  EXPECT_EQ(weight.value, "-3");
  const Problem nameless = refused("causes", "coil-dead", "name", {{"  "}});
  EXPECT_EQ(nameless.field, "name");
  const Problem twice = refused("causes", "coil-dead", "name", {{"FLOODED"}});
  EXPECT_EQ(twice.field, "name");
  const Problem source = refused("causes", "coil-dead", "sources", {{"M1, nowhere"}});
  EXPECT_EQ(source.value, "nowhere");
}

TEST(EntrySheet, ARowOfChancesMustAddUpToAllOfThem) {
  Rows rows = sheetOf(published("tests", "test-first-look"), base(), kDollars)["likelihood"];
  ASSERT_EQ(rows.front().size(), 4);
  rows.front()[1] = "41";
  const Problem wrong = refused("tests", "test-first-look", "likelihood", rows);
  EXPECT_EQ(wrong.field, "likelihood");
  EXPECT_THAT(wrong.sentence, HasSubstr("101 %"));
  EXPECT_THAT(wrong.sentence, HasSubstr("100 %"));
  EXPECT_EQ(wrong.value, "41 + 5 + 55");
}

TEST(EntrySheet, AnOutcomeThatIsNewIsCalledByItsName) {
  EntrySheet sheet = sheetOf(published("tests", "test-first-look"), base(), kDollars);
  sheet["outcomes"].push_back({QString{}, "Smells of old gas", {}});
  for (QStringList& row : sheet["likelihood"])
    row << "0";
  const auto read = entryOf("tests", "test-first-look", sheet, base(), kDollars);
  ASSERT_TRUE(read) << read.error().sentence;
  EXPECT_EQ(std::get<learning::Test>(read->of).outcomes.back().id, "smells-of-old-gas");
}

TEST(EntrySheet, ANewEntrySaysWhatItLacks) {
  for (const SectionSpec& section : editedSections()) {
    if (!section.can_be_new) continue;
    const auto read = entryOf(section.id, "fresh", emptySheet(section.id), base(), kDollars);
    ASSERT_FALSE(read) << section.id;
    EXPECT_EQ(read.error().field, "name") << section.id;
  }
  EntrySheet cause = emptySheet("causes");
  cause["name"] = {{"Mouse nest in the airway"}};
  const auto read = entryOf("causes", "mouse-nest", cause, base(), kDollars);
  ASSERT_TRUE(read) << read.error().sentence;
  EXPECT_EQ(read->text.origin.note, "own experience");
}

}  // namespace
}  // namespace secondpull::app
