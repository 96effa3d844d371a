#include <set>
#include <string>
#include <tuple>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/shop/words.h"
#include "db/connection.h"
#include "db/records.h"
#include "db/shop_folder.h"
#include "tests/db/store/test_shop.h"

namespace secondpull::db {
namespace {

using namespace testing;
using ::testing::HasSubstr;
using ::testing::Not;

class Schema : public ::testing::Test {
 protected:
  Schema() : database_{made(folder_)} {}

  static SQLite::Database made(const TempFolder& folder) {
    std::filesystem::create_directory(folder.shop());
    make_shop_file(folder.shop(), test_settings(), schema_migrations());
    return open_file(shop_file(folder.shop()), OpenAs::writer);
  }
  std::vector<std::vector<std::string>> rows(const std::string& sql) {
    SQLite::Statement statement{database_, sql};
    std::vector<std::vector<std::string>> all;
    while (statement.executeStep()) {
      auto& row = all.emplace_back();
      for (int i = 0; i < statement.getColumnCount(); ++i)
        row.push_back(statement.getColumn(i).getString());
    }
    return all;
  }
  std::string definition(const std::string& table) {
    return rows("SELECT sql FROM sqlite_schema WHERE type = 'table' AND name = '" + table + "'").at(0).at(0);
  }

  TempFolder folder_;
  SQLite::Database database_;
};

TEST_F(Schema, NamesItsFileAndVersion) {
  EXPECT_EQ(database_.execAndGet("PRAGMA application_id").getInt(), application_id);
  EXPECT_EQ(database_.execAndGet("PRAGMA user_version").getInt(), newest_version(schema_migrations()));
}

TEST_F(Schema, HasNothingButTablesAndIndexes) {
  EXPECT_TRUE(rows("SELECT name FROM sqlite_schema WHERE type NOT IN ('table', 'index')").empty())
      << "no trigger, no view";
  EXPECT_TRUE(rows("SELECT name FROM pragma_table_list WHERE schema = 'main' AND type <> 'table'").empty())
      << "no virtual table";
  EXPECT_TRUE(rows("SELECT name FROM sqlite_schema WHERE name = 'sqlite_sequence'").empty())
      << "no AUTOINCREMENT";
}

TEST_F(Schema, IsStrictEverywhere) {
  const auto loose = rows(
      "SELECT name FROM pragma_table_list WHERE schema = 'main' AND name NOT LIKE 'sqlite_%' AND strict = 0");
  EXPECT_TRUE(loose.empty());
}

TEST_F(Schema, HasExactlyTheTablesItShould) {
  std::set<std::string> expected{"state", "settings", "history", "drafts", "preferences", "clock"};
  for (const std::string& table : recorded_tables())
    expected.insert(table);
  std::set<std::string> found;
  for (const auto& row : rows("SELECT name FROM sqlite_schema WHERE type = 'table'"))
    found.insert(row.at(0));
  EXPECT_EQ(found, expected);
}

TEST_F(Schema, GivesEveryRecordedTableAnIntegerKeyAndItsOrderOfEntry) {
  for (const std::string& table : recorded_tables()) {
    SCOPED_TRACE(table);
    const auto key = rows("SELECT name, type FROM pragma_table_info('" + table + "') WHERE pk > 0");
    ASSERT_EQ(key.size(), 1U);
    EXPECT_EQ(key.at(0), (std::vector<std::string>{"id", "INTEGER"}));
    EXPECT_EQ(
        rows("SELECT \"notnull\" FROM pragma_table_info('" + table + "') WHERE name = 'entered'").size(), 1U);
    EXPECT_EQ(rows("SELECT wr FROM pragma_table_list WHERE name = '" + table + "'").at(0).at(0), "0")
        << "rowid table";
    EXPECT_THAT(definition(table), Not(HasSubstr("AUTOINCREMENT")));
    EXPECT_TRUE(rows("SELECT name FROM pragma_table_xinfo('" + table + "') WHERE hidden <> 0").empty())
        << "generated column";
  }
}

TEST_F(Schema, ForbidsNoTwoRowsOfARecordedTableAnythingButTheKey) {
  for (const std::string& table : recorded_tables())
    EXPECT_TRUE(rows("SELECT name FROM pragma_index_list('" + table + "') WHERE \"unique\" = 1").empty())
        << table;
}

TEST_F(Schema, LetsReferencesDoNothingOnTheirOwnAndFindsThemByIndex) {
  for (const std::string& table : recorded_tables())
    for (const auto& key :
         rows("SELECT \"from\", on_update, on_delete FROM pragma_foreign_key_list('" + table + "')")) {
      SCOPED_TRACE(table + "." + key.at(0));
      EXPECT_THAT(key.at(1), ::testing::AnyOf("NO ACTION", "RESTRICT"));
      EXPECT_THAT(key.at(2), ::testing::AnyOf("NO ACTION", "RESTRICT"));
      EXPECT_EQ(rows("SELECT 1 FROM pragma_index_list('" + table +
                     "') AS list, pragma_index_info(list.name) AS info"
                     " WHERE info.seqno = 0 AND info.name = '" +
                     key.at(0) + "'")
                    .size(),
                1U)
          << "without an index, removing a record reads every row of this table";
    }
}

TEST_F(Schema, KeepsReferencesInColumnsThatSaySo) {
  for (const std::string& table : recorded_tables())
    for (const auto& column :
         rows("SELECT name FROM pragma_table_info('" + table + "') WHERE name LIKE '%\\_id' ESCAPE '\\'"))
      EXPECT_EQ(rows("SELECT 1 FROM pragma_foreign_key_list('" + table + "') WHERE \"from\" = '" +
                     column.at(0) + "'")
                    .size(),
                1U)
          << table << "." << column.at(0);
}

template <class T>
std::string in_list() {
  std::string text;
  for (const T value : all_words<T>())
    text += (text.empty() ? "'" : ", '") + std::string{word(value)} + "'";
  return "IN (" + text + ")";
}

/// A CREATE TABLE's text with each run of white space as one space.
std::string squeezed(const std::string& text) {
  std::string result;
  for (const char c : text)
    if (c != ' ' && c != '\n')
      result += c;
    else if (!result.empty() && result.back() != ' ')
      result += ' ';
  return result;
}

TEST_F(Schema, AllowsExactlyTheWordsOfEachVocabulary) {
  const std::vector<std::tuple<std::string, std::string>> lists{
      {"acquisitions", "source " + in_list<Source>()},
      {"machines", "kind " + in_list<MachineKind>()},
      {"machines", "stage " + in_list<Stage>()},
      {"faults", "how " + in_list<FaultEnd>()},
      {"finds", "kind " + in_list<MachineKind>()},
      {"finds", "how " + in_list<FindEnd>()},
      {"labour", "work " + in_list<Work>()},
      {"listings", "sold_as " + in_list<SoldAs>()},
      {"offers", "result " + in_list<OfferResult>()},
      {"sales", "sold_as " + in_list<SoldAs>()},
      {"disposals", "how " + in_list<DisposalKind>()},
      {"settings", "unit_of_distance " + in_list<DistanceUnit>()},
  };
  for (const auto& [table, list] : lists)
    EXPECT_THAT(squeezed(definition(table)), HasSubstr(list)) << table;
}

// ---- Every CHECK and reference tried once ----

/// One good row of each recorded table, each pointing at others of these rows; what is NULL is left out.
const std::vector<std::pair<std::string, std::vector<std::pair<std::string, std::string>>>>& good_rows() {
  using Cells = std::vector<std::pair<std::string, std::string>>;
  const std::string d = "'2026-03-05'";
  static const std::vector<std::pair<std::string, Cells>> rows{
      {"people", {{"code", "'p1'"}, {"name", "'Ruel'"}, {"phone", "''"}, {"email", "''"}, {"note", "''"}}},
      {"acquisitions",
       {{"code", "'a1'"},
        {"date", d},
        {"source", "'curb'"},
        {"from_person_id", "1"},
        {"price", "0"},
        {"pickup_cost", "0"},
        {"giver_basis", "0"},
        {"opening", "0"},
        {"note", "''"}}},
      {"machines",
       {{"tag", "'1'"},
        {"acquisition_id", "1"},
        {"kind", "'push'"},
        {"make", "''"},
        {"model", "''"},
        {"model_number", "''"},
        {"serial", "''"},
        {"engine", "''"},
        {"year", "2001"},
        {"deck_in", "210"},
        {"symptom", "''"},
        {"condition", "''"},
        {"value_then", "0"},
        {"stage", "'test run'"},
        {"note", "''"}}},
      {"faults",
       {{"code", "'f1'"},
        {"machine_id", "1"},
        {"date", d},
        {"symptom", "''"},
        {"cause", "''"},
        {"ended", d},
        {"how", "'mended'"},
        {"note", "''"}}},
      {"findings",
       {{"machine_id", "1"},
        {"date", d},
        {"step", "''"},
        {"outcome", "''"},
        {"fault_id", "1"},
        {"minutes", "0"},
        {"cost", "0"},
        {"reading", "''"},
        {"unit", "''"},
        {"note", "''"}}},
      {"labour",
       {{"machine_id", "1"},
        {"acquisition_id", "NULL"},
        {"date", d},
        {"minutes", "0"},
        {"work", "'other'"},
        {"note", "''"}}},
      {"parts",
       {{"code", "'p'"}, {"name", "'plug'"}, {"number", "''"}, {"supplier_id", "1"}, {"reorder_at", "0"}}},
      {"orders",
       {{"code", "'o'"},
        {"date", d},
        {"supplier_id", "1"},
        {"arrived", d},
        {"freight", "0"},
        {"tax", "0"},
        {"opening", "0"}}},
      {"order_lines",
       {{"order_id", "1"}, {"part_id", "1"}, {"quantity", "1"}, {"price", "0"}, {"for_machine_id", "1"}}},
      {"harvested", {{"donor_id", "1"}, {"date", d}, {"part_id", "1"}, {"quantity", "1"}, {"value", "0"}}},
      {"fitted",
       {{"machine_id", "1"},
        {"date", d},
        {"part_id", "1"},
        {"quantity", "1"},
        {"from_order_id", "1"},
        {"from_donor_id", "NULL"}}},
      {"materials", {{"machine_id", "1"}, {"date", d}, {"what", "''"}, {"cost", "0"}}},
      {"listings",
       {{"machine_id", "1"},
        {"date", d},
        {"channel", "''"},
        {"asking", "0"},
        {"sold_as", "'as is'"},
        {"ended", d}}},
      {"offers",
       {{"machine_id", "1"},
        {"date", d},
        {"amount", "0"},
        {"who", "''"},
        {"comes", d},
        {"result", "'gone'"}}},
      {"sales",
       {{"machine_id", "1"},
        {"date", d},
        {"buyer_id", "1"},
        {"price", "0"},
        {"sales_tax", "0"},
        {"fee", "0"},
        {"delivery", "0"},
        {"payment", "''"},
        {"sold_as", "'running'"},
        {"warranty_days", "0"},
        {"place", "''"}}},
      {"returns", {{"machine_id", "1"}, {"date", d}, {"refunded", "0"}, {"note", "''"}}},
      {"allowances", {{"machine_id", "1"}, {"date", d}, {"amount", "0"}, {"sales_tax", "0"}, {"note", "''"}}},
      {"parts_sold",
       {{"date", d},
        {"part_id", "1"},
        {"quantity", "1"},
        {"price", "0"},
        {"from_order_id", "1"},
        {"from_donor_id", "NULL"},
        {"buyer_id", "1"},
        {"sales_tax", "0"},
        {"fee", "0"},
        {"place", "''"}}},
      {"tax_paid", {{"date", d}, {"place", "''"}, {"amount", "0"}}},
      {"disposals",
       {{"machine_id", "1"},
        {"date", d},
        {"how", "'kept'"},
        {"proceeds", "0"},
        {"hulk_value", "0"},
        {"hulk_gone", d},
        {"hulk_here", "0"}}},
      {"trips",
       {{"date", d},
        {"miles", "0"},
        {"purpose", "''"},
        {"destination", "''"},
        {"machine_id", "1"},
        {"acquisition_id", "NULL"}}},
      {"expenses", {{"date", d}, {"category", "''"}, {"amount", "0"}, {"note", "''"}}},
      {"photos",
       {{"sha256", "'" + std::string(64, 'a') + "'"},
        {"name", "''"},
        {"machine_id", "1"},
        {"order_id", "1"},
        {"expense_id", "1"},
        {"note", "''"}}},
      {"finds",
       {{"date", d},
        {"kind", "'push'"},
        {"make", "''"},
        {"model", "''"},
        {"year", "2001"},
        {"symptom", "''"},
        {"asking", "0"},
        {"miles", "0"},
        {"minutes", "0"},
        {"pickup_cost", "0"},
        {"place", "''"},
        {"ended", d},
        {"how", "'bought'"},
        {"machine_id", "1"},
        {"note", "''"}}},
      {"find_answers", {{"find_id", "1"}, {"date", d}, {"test", "''"}, {"outcome", "''"}}},
      {"own_numbers", {{"machine_id", "1"}, {"path", "'revived.price'"}, {"value", "0.5"}}},
      {"knowledge_edits", {{"section", "'causes'"}, {"entry", "'leak'"}, {"text", "''"}}},
      {"forecasts",
       {{"machine_id", "1"},
        {"fault_id", "1"},
        {"date", d},
        {"chance_revived", "0.5"},
        {"cash", "0.0"},
        {"low", "0.0"},
        {"high", "0.0"},
        {"hours", "0.0"},
        {"days", "0.0"},
        {"price", "0.0"},
        {"sunk_cash", "0.0"},
        {"sunk_hours", "0.0"}}},
      {"forecast_causes", {{"forecast_id", "1"}, {"cause", "'leak'"}, {"chance", "0.5"}}},
      {"listing_texts", {{"machine_id", "1"}, {"date", d}, {"text", "''"}}},
      {"deposits",
       {{"offer_id", "1"}, {"date", d}, {"amount", "0"}, {"payment", "''"}, {"returned", "NULL"}}},
  };
  return rows;
}

class SchemaRefuses : public Schema {
 protected:
  SchemaRefuses() {
    for (const auto& [table, cells] : good_rows())
      database_.exec(insert(table, cells, "", ""));
  }
  /// The row with one cell's value replaced.
  static std::string insert(const std::string& table,
                            const std::vector<std::pair<std::string, std::string>>& cells,
                            const std::string& column, const std::string& value) {
    std::string names = "entered", values = "1";
    for (const auto& [name, good] : cells) {
      names += ", " + name;
      values += ", " + (name == column ? value : good);
    }
    return "INSERT INTO " + table + " (" + names + ") VALUES (" + values + ")";
  }
  void expect_refused(const std::string& table, const std::string& column, const std::string& value) {
    for (const auto& [name, cells] : good_rows()) {
      if (name != table) continue;
      EXPECT_THROW(database_.exec(insert(table, cells, column, value)), SQLite::Exception)
          << table << "." << column << " = " << value;
    }
  }
};

TEST_F(SchemaRefuses, AnythingOutOfRangeInAnyColumn) {
  int tried = 0;
  for (const auto& [table, cells] : good_rows())
    for (const auto& [column, good] : cells) {
      SCOPED_TRACE(table + "." + column);
      const bool is_text = good.front() == '\'';
      expect_refused(table, column, is_text ? "x'00'" : "'a word'");  // STRICT
      const std::string text = squeezed(definition(table));
      const bool is_date = good == "'2026-03-05'";
      const bool is_real = !is_text && good.find('.') != std::string::npos;
      const bool is_word = text.find(" " + column + " IN ('") != std::string::npos ||
                           text.find("(" + column + " IN ('") != std::string::npos;
      if (is_date) {
        for (const char* bad : {"'2026-02-30'", "'2026-3-5'", "'today'", "'now'", "'1899-12-31'", "''"})
          expect_refused(table, column, bad);
      } else if (is_word) {
        expect_refused(table, column, "'nonsense'");
        expect_refused(table, column, "''");
      } else if (is_real) {
        for (const char* bad : {"9e999", "-9e999"})  // infinite
          expect_refused(table, column, bad);
      } else if (!is_text) {
        expect_refused(table, column, "-1");  // an amount, a count, a flag or a reference
        if (column == "opening" || column == "hulk_here") expect_refused(table, column, "2");
        if (column == "quantity") expect_refused(table, column, "0");
      }
      ++tried;
    }
  EXPECT_GT(tried, 150);
}

TEST_F(SchemaRefuses, AReferenceToNothing) {
  for (const auto& [table, cells] : good_rows())
    for (const auto& [column, good] : cells)
      if (column.ends_with("_id") && good != "NULL") expect_refused(table, column, "77");
}

TEST_F(SchemaRefuses, WhatExcludesEachOther) {
  expect_refused("labour", "acquisition_id", "1");
  expect_refused("trips", "acquisition_id", "1");
  expect_refused("fitted", "from_donor_id", "1");
  expect_refused("parts_sold", "from_donor_id", "1");
}

TEST_F(SchemaRefuses, AnEmptyTagOrKeyAYearOfFiveDigitsAndAPhotoWithoutItsDigest) {
  expect_refused("machines", "tag", "''");
  expect_refused("machines", "year", "10000");
  expect_refused("finds", "year", "10000");
  expect_refused("own_numbers", "path", "''");
  expect_refused("forecasts", "chance_revived", "1.5");
  expect_refused("forecast_causes", "chance", "-0.5");
  expect_refused("forecast_causes", "cause", "''");
  expect_refused("knowledge_edits", "section", "''");
  expect_refused("knowledge_edits", "entry", "''");
  expect_refused("photos", "sha256", "'abc'");
  expect_refused("photos", "sha256", "'" + std::string(64, 'A') + "'");
}

TEST_F(SchemaRefuses, NothingWhereSomethingMustBe) {
  for (const std::string& table : recorded_tables())
    for (const auto& column : rows("SELECT name FROM pragma_table_info('" + table +
                                   "') WHERE \"notnull\" = 1 AND name <> 'entered'"))
      expect_refused(table, column.at(0), "NULL");
}

TEST_F(SchemaRefuses, RemovingWhatOthersPointAt) {
  for (const char* table :
       {"people", "acquisitions", "machines", "faults", "parts", "orders", "expenses", "finds"})
    EXPECT_THROW(database_.exec(std::string{"DELETE FROM "} + table), SQLite::Exception) << table;
}

}  // namespace
}  // namespace secondpull::db
