#pragma once

#include <string>

#include "app/print/report.h"

namespace secondpull::app {

/// The sections of a report as CSV (RFC 4180): for each its heading, if there is one, the titles of its
/// columns and its rows, with an empty line between sections. Every line has as many cells as the widest.
/// Title and notes are not in it. A text that a spreadsheet would run as a formula is guarded as in the
/// exchange folder; figures stand plain.
std::string csvOf(const Report& report);

}  // namespace secondpull::app
