#include "app/print/report_csv.h"

#include <algorithm>

#include "db/exchange/csv.h"

namespace secondpull::app {
namespace {

class Lines {
 public:
  explicit Lines(std::size_t width) : width_{width} {}
  void add(std::vector<std::string> cells) {
    cells.resize(width_);
    db::append_csv_row(text_, cells);
  }
  std::string taken() { return std::move(text_); }

 private:
  std::size_t width_;
  std::string text_;
};

std::string guarded(const QString& text) {
  return db::guard_formula(text.toStdString());
}

}  // namespace

std::string csvOf(const Report& report) {
  std::size_t width = 1;
  for (const ReportSection& section : report.sections)
    width = std::max(width, section.columns.size());
  Lines lines{width};
  bool first = true;
  for (const ReportSection& section : report.sections) {
    if (!std::exchange(first, false)) lines.add({});
    if (!section.heading.isEmpty()) lines.add({guarded(section.heading)});
    std::vector<std::string> cells;
    for (const ReportColumn& column : section.columns)
      cells.push_back(guarded(column.title));
    lines.add(std::move(cells));
    for (const ReportRow& row : section.rows) {
      std::vector<std::string> made;
      for (const ReportCell& cell : row.cells)
        made.push_back(cell.number.isEmpty() ? guarded(cell.text) : cell.number.toStdString());
      lines.add(std::move(made));
    }
  }
  return lines.taken();
}

}  // namespace secondpull::app
