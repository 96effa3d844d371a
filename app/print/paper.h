#pragma once

#include <optional>

#include "app/print/report.h"
#include "app/print/sheet.h"
#include "core/result.h"

class QPagedPaintDevice;

namespace secondpull::app {

/// The report as a sheet: upright, or across for many columns. It is drawn black on white whatever the look
/// of the program, heads of tables again on every page, page numbers at the foot.
Sheet sheetOf(const Report& report);

/// Draws it on a device that has the sheet's layout. Returns the number of pages.
int drawReport(const Report& report, QPagedPaintDevice& device);

/// Writes it as PDF; the file is there whole or not at all. A problem names the file.
std::optional<Problem> writePdf(const Report& report, const QString& path);
/// Writes it as CSV (report_csv.h), likewise.
std::optional<Problem> writeCsv(const Report& report, const QString& path);

}  // namespace secondpull::app
