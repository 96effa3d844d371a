#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/result.h"
#include "db/exchange/csv.h"
#include "db/exchange/exchange.h"

namespace secondpull::db {

// A single CSV sheet, as an old spreadsheet gives it: its columns have names of the owner's own, and the
// owner says which of them is what.

/// What a column of a sheet may be: a column of one of the exchange folder's tables.
struct SheetField {
  std::string file;    ///< "machines.csv"
  std::string column;  ///< "deck_in"
  std::string label;   ///< "deck in", "came in on"
  bool required = false;
};

/// What the lines of a sheet may be.
struct SheetKind {
  std::string name;  ///< "machines", "people"
  std::vector<SheetField> fields;
};

/// The kinds: machines first, each line with what the machine cost and, if it is gone, what it was sold for;
/// then every other table that can be read by itself.
const std::vector<SheetKind>& sheet_kinds();

/// How days such as 3/4/26 are written.
enum class DayOrder { year_month_day, month_day_year, day_month_year };

/// A sheet in memory: the first line names the columns. Lines without a single filled cell do not count.
class SingleSheet {
 public:
  /// A problem if the file cannot be read, is no CSV in UTF-8, or has no line below its first.
  static Result<SingleSheet> open(const std::filesystem::path& path);
  static Result<SingleSheet> of(std::string_view text, const std::string& file_name);

  const std::string& file() const { return file_; }  ///< its name without the folder
  const std::vector<std::string>& columns() const { return columns_; }
  std::size_t size() const { return rows_.size(); }
  std::size_t line(std::size_t row) const { return table_.row(rows_[row]).line; }  ///< in the file, from 1
  /// Without outer spaces; empty where the line ends before the column.
  std::string_view cell(std::size_t row, std::size_t column) const;

 private:
  std::string file_;
  CsvTable table_;
  std::vector<std::string> columns_;
  std::vector<std::size_t> rows_;  // of the table, the filled ones below the header
};

/// For each field of a kind the sheet's column that it is read from, if any.
using ColumnChoice = std::vector<std::optional<std::size_t>>;

/// The columns whose names say what they are.
ColumnChoice guess_columns(const SingleSheet& sheet, const SheetKind& kind);

/// Reads the sheet on top of `existing` as read_folder reads a folder, with the errors told by the sheet's
/// own lines and column names. Days are read in the order given (always so where the year comes first),
/// amounts may carry a currency sign and group their thousands with commas, and capitals do not matter in
/// words of a closed list. A machine without a source or a kind is of the kind and source `other`.
ImportResult read_single_sheet(const SingleSheet& sheet, const SheetKind& kind, const ColumnChoice& choice,
                               DayOrder order, const Shop& existing);

}  // namespace secondpull::db
