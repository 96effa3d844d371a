#pragma once

#include <string>
#include <vector>

namespace secondpull::cli {

/// A table for a terminal: columns as wide as their widest cell, two spaces between, a header above.
class TextTable {
 public:
  enum class Side { left, right };
  struct Column {
    std::string name;
    Side side = Side::left;
  };
  explicit TextTable(std::vector<Column> columns);

  /// One cell a column. What a terminal would act on (control characters) is shown as a question mark.
  void add(const std::vector<std::string>& cells);
  std::string text() const;

 private:
  std::vector<Column> columns_;
  std::vector<std::size_t> widths_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace secondpull::cli
