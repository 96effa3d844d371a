#pragma once

#include <filesystem>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "db/exchange/csv.h"
#include "db/exchange/exchange.h"

namespace secondpull::db {

/// A column that a file may or must have.
struct ColumnHead {
  std::string_view name;
  bool required = true;
};

/// One file of an exchange folder: its lines, and where in them the columns of its format stand.
class Sheet {
 public:
  /// Reads the file and its header. What is wrong with them, and every fault of the CSV below, is added to
  /// `errors`; what could be read can still be looked at for further errors.
  static Sheet read(const std::filesystem::path& path, std::string file, std::span<const ColumnHead> heads,
                    std::vector<ImportError>& errors);

  /// Lines below the header.
  std::size_t size() const { return table_.size() == 0 ? 0 : table_.size() - 1; }
  std::size_t line(std::size_t row) const { return table_.row(row + 1).line; }
  /// The cell of a column of the format; nothing where the file has no such column, or the line ends before
  /// it, or a fault of the cell has been told.
  std::optional<std::string_view> cell(std::size_t row, std::size_t column) const;
  /// Are all lines as they were meant, so that an identifier that is not here is nowhere?
  bool whole() const { return whole_; }
  const std::string& file() const { return file_; }
  /// An error on a line of this file.
  ImportError error(std::size_t row, std::string_view column, std::string_view value,
                    std::string sentence) const;

 private:
  void read_header(std::span<const ColumnHead> heads, std::vector<ImportError>& errors);
  void tell_faults(std::vector<ImportError>& errors);
  void tell_lengths(std::vector<ImportError>& errors) const;

  std::string file_;
  CsvTable table_;
  std::vector<std::optional<std::size_t>> places_;        // of the format's columns in a line
  std::set<std::pair<std::size_t, std::size_t>> faulty_;  // row and place of cells whose fault is told
  bool whole_ = true;
};

}  // namespace secondpull::db
