#include "db/exchange/csv.h"

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <rapidcheck.h>

namespace secondpull::db {
namespace {

using Cells = std::vector<std::string>;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

std::vector<Cells> cells(const CsvTable& table) {
  std::vector<Cells> out;
  for (std::size_t i = 0; i < table.size(); ++i)
    out.emplace_back(table.row(i).cells.begin(), table.row(i).cells.end());
  return out;
}

std::vector<Cells> sound(std::string_view text) {
  const CsvTable table = read_csv(text);
  EXPECT_THAT(table.faults(), IsEmpty());
  return cells(table);
}

CsvFault only_fault(std::string_view text) {
  const CsvTable table = read_csv(text);
  EXPECT_THAT(table.faults(), SizeIs(1));
  return table.faults().empty() ? CsvFault{} : table.faults().front();
}

// RFC 4180, section 2, rule by rule.
TEST(CsvRfc4180, Rule1EndsRecordsWithCrLf) {
  EXPECT_THAT(sound("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"),
              ElementsAre(Cells{"aaa", "bbb", "ccc"}, Cells{"zzz", "yyy", "xxx"}));
}
TEST(CsvRfc4180, Rule2LetsTheLastLineBreakBeMissing) {
  EXPECT_EQ(sound("aaa,bbb,ccc\r\nzzz,yyy,xxx"), sound("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"));
}
TEST(CsvRfc4180, Rule4KeepsSpacesAsPartOfACell) {
  EXPECT_THAT(sound(" a , b\t, \r\n"), ElementsAre(Cells{" a ", " b\t", " "}));
}
TEST(CsvRfc4180, Rule5TakesQuotesOffAndRefusesThemInsideAnUnquotedCell) {
  EXPECT_THAT(sound("\"aaa\",\"\",ccc\r\n"), ElementsAre(Cells{"aaa", "", "ccc"}));
  const CsvFault fault = only_fault("a,b\r\n1,deck 21\" wide\r\n");
  EXPECT_EQ(fault.line, 2u);
  EXPECT_EQ(fault.cell, 1u);
  EXPECT_EQ(fault.value, "deck 21\" wide");
  EXPECT_THAT(fault.sentence, HasSubstr("quote inside an unquoted cell"));
}
TEST(CsvRfc4180, Rule6TakesLineBreaksQuotesAndCommasInsideQuotes) {
  EXPECT_THAT(sound("\"aaa\",\"b \r\nbb\",\"c,cc\"\r\nzzz,yyy,xxx"),
              ElementsAre(Cells{"aaa", "b \r\nbb", "c,cc"}, Cells{"zzz", "yyy", "xxx"}));
}
TEST(CsvRfc4180, Rule7HalvesDoubledQuotes) {
  EXPECT_THAT(sound("\"aaa\",\"b\"\"bb\",\"\"\"\"\r\n"), ElementsAre(Cells{"aaa", "b\"bb", "\""}));
}

TEST(Csv, TakesLinesThatEndWithLf) {
  EXPECT_THAT(sound("a,b\n1,2\n"), ElementsAre(Cells{"a", "b"}, Cells{"1", "2"}));
}
TEST(Csv, KeepsEmptyLinesAsRowsWithOneEmptyCell) {
  EXPECT_THAT(sound("a\r\n\r\nb\r\n"), ElementsAre(Cells{"a"}, Cells{""}, Cells{"b"}));
}
TEST(Csv, KeepsTheEmptyCellAfterALastComma) {
  EXPECT_THAT(sound("a,"), ElementsAre(Cells{"a", ""}));
}
TEST(Csv, HasNoRowsInAnEmptyText) {
  EXPECT_THAT(sound(""), IsEmpty());
  EXPECT_THAT(sound("\xEF\xBB\xBF"), IsEmpty());
}
TEST(Csv, PassesOverAByteOrderMarkAtTheStartAlone) {
  EXPECT_THAT(sound("\xEF\xBB\xBF\"tag\",\xEF\xBB\xBFkind\n"), ElementsAre(Cells{"tag", "\xEF\xBB\xBFkind"}));
}
TEST(Csv, NamesTheLineOnWhichARowBegins) {
  const CsvTable table = read_csv("head\r\n\"two\nlines\"\r\n\"and\r\ntwo\"\nlast");
  ASSERT_EQ(table.size(), 4u);
  EXPECT_EQ(table.row(0).line, 1u);
  EXPECT_EQ(table.row(1).line, 2u);
  EXPECT_EQ(table.row(2).line, 4u);
  EXPECT_EQ(table.row(3).line, 6u);
}
TEST(Csv, RefusesTextAfterAClosingQuote) {
  const CsvFault fault = only_fault("a\r\nb,\"c\" d,e\r\n");
  EXPECT_EQ(fault.line, 2u);
  EXPECT_EQ(fault.cell, 1u);
  EXPECT_EQ(fault.value, "c d");
  EXPECT_THAT(fault.sentence, HasSubstr("after its closing quote"));
}
TEST(Csv, RefusesAQuoteThatIsNeverClosedOnTheLineWhereItOpens) {
  const CsvFault fault = only_fault("a\n\"b\nc\nd\n");
  EXPECT_EQ(fault.line, 2u);
  EXPECT_THAT(fault.sentence, HasSubstr("never closed"));
}
TEST(Csv, RefusesLinesThatEndWithACarriageReturnAloneOnce) {
  const CsvFault fault = only_fault("a,b\r1,2\r3,4\r");
  EXPECT_EQ(fault.line, 1u);
  EXPECT_THAT(fault.sentence, HasSubstr("carriage return alone"));
  EXPECT_THAT(sound("\"a\rb\"\n"), ElementsAre(Cells{"a\rb"}));
}
TEST(Csv, RefusesBytesThatAreNotUtf8AndShowsThem) {
  const CsvFault fault = only_fault("a,b\nok,caf\xE9 ol\xC3\xA9\n");
  EXPECT_EQ(fault.line, 2u);
  EXPECT_EQ(fault.cell, 1u);
  EXPECT_EQ(fault.value, "caf\\xE9 ol\xC3\xA9");
  EXPECT_THAT(fault.sentence, HasSubstr("not UTF-8"));
}
TEST(Csv, RefusesANul) {
  const CsvFault fault = only_fault(std::string_view{"a\nb\0c\n", 6});
  EXPECT_EQ(fault.line, 2u);
  EXPECT_EQ(fault.value, "b\\x00c");
  EXPECT_THAT(fault.sentence, HasSubstr("NUL"));
}
TEST(Csv, TellsEveryFaultOfAText) {
  const CsvTable table = read_csv("a\"b\n\"c\" d\n\xFF\n\"open");
  ASSERT_THAT(table.faults(), SizeIs(4));
  for (std::size_t i = 0; i < 4; ++i)
    EXPECT_EQ(table.faults()[i].line, i + 1);
}

// RFC 3629, section 4: the grammar of UTF-8, its limits and what lies just outside them.
TEST(PlainText, IsWellFormedUtf8WithoutNul) {
  for (const std::string_view good :
       {"", "mower", "\x7F", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
        "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"})
    EXPECT_TRUE(is_plain_text(good)) << good;
  for (const std::string_view bad :
       {"\x80", "\xC0\x80", "\xC1\xBF", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xF0\x8F\xBF\xBF",
        "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xC2", "\xE2\x82", "\xF0\x9F\x98", "a\xFF"})
    EXPECT_FALSE(is_plain_text(bad));
  EXPECT_FALSE(is_plain_text(std::string_view{"\0", 1}));
}

TEST(CsvWriting, QuotesWhatNeedsIt) {
  std::string out;
  append_csv_row(out, Cells{"plain", "a,b", "say \"so\"", "two\nlines", "lone\rreturn", " outer ", ""});
  EXPECT_EQ(out, "plain,\"a,b\",\"say \"\"so\"\"\",\"two\nlines\",\"lone\rreturn\",\" outer \",\r\n");
}

std::string any_text() {
  // Characters that matter to the format, more often than chance would bring them.
  const auto pieces = *rc::gen::container<std::vector<std::string>>(
      rc::gen::element<std::string>(",", "\"", "\r", "\n", "\r\n", " ", "'", "=", "+", "-", "@", "\t", "a",
                                    "7", ".", "\xC3\xA9", "\xEF\xBB\xBF"));
  std::string text;
  for (const std::string& piece : pieces)
    text += piece;
  return text;
}

TEST(CsvWriting, ComesBackUnchangedForAnyCells) {
  EXPECT_TRUE(rc::check([] {
    std::vector<Cells> rows(*rc::gen::inRange<std::size_t>(1, 5));
    const auto width = *rc::gen::inRange<std::size_t>(1, 4);
    std::string out;
    for (Cells& row : rows) {
      for (std::size_t i = 0; i < width; ++i)
        row.push_back(any_text());
      append_csv_row(out, row);
    }
    // At the very start of a text the mark would be taken for the file's own; a header stands there.
    RC_PRE(out.substr(0, 3) != "\xEF\xBB\xBF");
    const CsvTable table = read_csv(out);
    RC_ASSERT(table.faults().empty());
    RC_ASSERT(cells(table) == rows);
  }));
}

TEST(Csv, MakesSomethingOfAnyBytes) {
  EXPECT_TRUE(rc::check([] {
    // Bytes that steer the reader, more often than chance would bring them.
    const auto bytes = *rc::gen::container<std::string>(rc::gen::oneOf(
        rc::gen::element(',', '"', '\r', '\n', '\0', '\xEF', '\xBB', '\xBF'), rc::gen::arbitrary<char>()));
    const CsvTable table = read_csv(bytes);
    std::size_t line = 0;
    for (std::size_t i = 0; i < table.size(); ++i) {
      RC_ASSERT(!table.row(i).cells.empty());
      RC_ASSERT(table.row(i).line > line);
      line = table.row(i).line;
      for (const std::string_view cell : table.row(i).cells)
        RC_ASSERT(cell.size() <= bytes.size());
    }
    for (const CsvFault& fault : table.faults()) {
      RC_ASSERT(fault.row < table.size());
      RC_ASSERT(is_plain_text(fault.value));
    }
  }));
}

TEST(FormulaGuard, PutsAnApostropheBeforeWhatASpreadsheetWouldRun) {
  // The starts that OWASP's page on CSV injection lists (second hand).
  for (const std::string text : {"=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "=cmd|' /C calc'!A0"}) {
    EXPECT_EQ(guard_formula(text), "'" + text);
    EXPECT_EQ(unguard_formula(guard_formula(text)), text);
  }
}
TEST(FormulaGuard, LeavesEveryOtherTextAlone) {
  for (const std::string text : {"", "'", "'tis", "''", "5", "a=b", "7.25", " =1", "'a=b"}) {
    EXPECT_EQ(guard_formula(text), text);
    EXPECT_EQ(unguard_formula(text), text);
  }
}
TEST(FormulaGuard, GivesATextOfTheUsersOwnApostrophesOneMore) {
  EXPECT_EQ(guard_formula("'=x"), "''=x");
  EXPECT_EQ(unguard_formula("''=x"), "'=x");
}
TEST(FormulaGuard, IsReversedExactlyForAnyText) {
  EXPECT_TRUE(rc::check([] {
    const std::string text = any_text();
    const std::string cell = guard_formula(text);
    RC_ASSERT(std::string{unguard_formula(cell)} == text);
    RC_ASSERT(cell.empty() || std::string_view{"=+-@\t\r"}.find(cell.front()) == std::string_view::npos);
  }));
}

}  // namespace
}  // namespace secondpull::db
