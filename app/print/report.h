#pragma once

#include <vector>

#include <QString>
#include <QStringList>

namespace secondpull::app {

/// One cell of a report: as it is read, and for figures as a file for a spreadsheet holds them.
struct ReportCell {
  QString text;
  QString number;  ///< "-1234.50": a figure without grouping and signs of currency; empty: the text
  ReportCell(QString text_in = {}, QString number_in = {})
      : text{std::move(text_in)}, number{std::move(number_in)} {}
  ReportCell(const char* text_in) : text{QString::fromUtf8(text_in)} {}
  friend bool operator==(const ReportCell&, const ReportCell&) = default;
};

struct ReportColumn {
  QString title;
  bool figure = false;  ///< stands at the right
};

struct ReportRow {
  std::vector<ReportCell> cells;  ///< one for each column; those that lack are empty
  bool sum = false;
};

struct ReportSection {
  QString heading;  ///< may be empty
  std::vector<ReportColumn> columns;
  std::vector<ReportRow> rows;
};

/// What a page holds, as it goes to paper, PDF and CSV.
struct Report {
  QString title;     ///< "The year 2026"
  QString subtitle;  ///< the shop's name and the day
  std::vector<ReportSection> sections;
  QStringList notes;  ///< sentences at the end
  QString file_name;  ///< suggested, without folder and ending: "year-2026"
};

/// The sentence that every paper about money ends with.
QString noTaxAdvice();

}  // namespace secondpull::app
