#pragma once

#include <string>
#include <vector>

#include "core/books/tax_rates.h"
#include "core/books/year.h"

namespace secondpull {

/// One line as it is copied to the form.
struct ScheduleLine {
  std::string number;
  std::string what;
  std::optional<Money> amount;   ///< absent for miles
  std::string text;              ///< where there is no amount: "1,204.0 miles"
  std::optional<YearLine> line;  ///< the figure of the year that it shows, for "why?"; with `names` those too
  std::vector<std::string> names;  ///< the categories of expense that stand on it
  bool is_sum = false;
};

struct SchedulePart {
  std::string title;  ///< "Part III: cost of goods sold"
  std::vector<ScheduleLine> lines;
};

/// The year laid out as the parts of Schedule C. A category of expense without a line of its own stands in
/// the last part, other expenses, and their sum on its line.
struct Schedule {
  int year = 0;
  std::vector<SchedulePart> parts;
  std::string source;  ///< of the line numbers
  std::string sure;    ///< how sure they are; says so if they are another year's
};
Schedule schedule_c(const YearFigures& figures, const FormLines& forms);

}  // namespace secondpull
