#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/frame/session.h"
#include "app/print/report.h"

namespace secondpull::app {

/// A line of the year's page.
struct YearRow {
  enum class Kind { line, sum, words };
  Kind kind = Kind::line;
  QString number;  ///< of the form's line; may be empty
  QString what;
  ReportCell amount;
  std::optional<YearLine> line;    ///< the figure that it shows, to ask why; absent: it follows from others
  std::vector<std::string> names;  ///< categories or places of that figure; none: all of it
  QString how;                     ///< said of one without a figure of its own when it is asked
};

struct YearSection {
  QString title;
  std::vector<YearRow> rows;
};

/// The page of a year: outside the United States without the form's lines and the tax estimate.
std::vector<YearSection> yearSections(const Session& session, const YearFigures& figures);

/// The same for paper: a section each.
std::vector<ReportSection> reportOf(const std::vector<YearSection>& sections);

/// A figure of a year, or a part of one, as text.
ReportCell sizeCell(const Session& session, YearUnit unit, std::int64_t size);

}  // namespace secondpull::app
