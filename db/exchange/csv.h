#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace secondpull::db {

// CSV as RFC 4180 has it. A reader of ours and not libcsv: libcsv drops the spaces around an unquoted cell
// and empty lines, does not say on which line a row began, and stops at its first fault with no word on what
// it was, while an import has to name every fault of a folder by line, column and value.

/// What breaks RFC 4180 (or is no text) in a CSV file.
struct CsvFault {
  std::size_t line = 0;  ///< of the fault itself, from 1
  std::size_t row = 0;   ///< the row it stands in, from 0
  std::size_t cell = 0;  ///< its place in the row, from 0
  std::string value;     ///< what stands there; bytes that are no text as \xNN
  std::string sentence;
};

/// One row. `line` is the line on which it begins, from 1; a cell may hold line breaks, so the next row may
/// begin several lines below.
struct CsvRow {
  std::size_t line = 0;
  std::span<const std::string_view> cells;
};

/// The rows of a CSV text, every one with at least one cell (an empty line is a row with one empty cell). The
/// cells are views into memory of this table.
class CsvTable {
 public:
  std::size_t size() const { return rows_.size(); }
  CsvRow row(std::size_t index) const;
  /// In order of line. With a fault the rows are the best guess, good for finding further faults.
  const std::vector<CsvFault>& faults() const { return faults_; }

 private:
  friend class CsvReader;
  struct Extent {
    std::size_t line;
    std::size_t first;
    std::size_t count;
  };
  std::vector<char> text_;  // what the cells point into; a vector keeps its memory when it is moved
  std::vector<std::string_view> cells_;
  std::vector<Extent> rows_;
  std::vector<CsvFault> faults_;
};

/// Reads a whole CSV text: lines end with CRLF or LF (the last line break may be missing), a byte order mark
/// is passed over, quotes inside quotes are doubled, and spaces belong to their cell. Faults: a quote inside
/// an unquoted cell, text after a closing quote, a quote that is never closed, a carriage return alone
/// outside quotes, bytes that are not UTF-8, a NUL.
CsvTable read_csv(std::string_view text);

/// Appends a row with CRLF at its end, cells quoted where RFC 4180 needs it (and where outer spaces could get
/// lost in other hands). A row must have at least one cell.
void append_csv_row(std::string& out, std::span<const std::string> cells);

/// A text cell that a spreadsheet would run as a formula begins with one of = + - @, a tab or a carriage
/// return. It is written with an apostrophe before it. So that reading is the exact reverse, a text of
/// apostrophes followed by one of these gets one more apostrophe too; every other text stays as it is.
std::string guard_formula(std::string_view text);
/// The reverse of `guard_formula`: takes the apostrophe off.
std::string_view unguard_formula(std::string_view cell);

/// Is it well-formed UTF-8 (no overlong forms, surrogates, or values above U+10FFFF) without a NUL?
bool is_plain_text(std::string_view text);

}  // namespace secondpull::db
