#pragma once

#include <optional>

#include "app/print/report.h"
#include "core/result.h"

class QPagedPaintDevice;

namespace secondpull::app {

/// A4, or Letter where that is what paper is; upright, or across for many columns; margins.
void setUpPaper(const Report& report, QPagedPaintDevice& device);

/// Draws the report on a device that setUpPaper has prepared: black on white whatever the look of the
/// program, heads of tables again on every page, page numbers at the foot. Returns the number of pages.
int drawReport(const Report& report, QPagedPaintDevice& device);

/// Writes it as PDF; the file is there whole or not at all. A problem names the file.
std::optional<Problem> writePdf(const Report& report, const QString& path);
/// Writes it as CSV (report_csv.h), likewise.
std::optional<Problem> writeCsv(const Report& report, const QString& path);

}  // namespace secondpull::app
